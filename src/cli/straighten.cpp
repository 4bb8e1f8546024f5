#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "cli/at_work.h"
#include "cli/command.h"
#include "cli/draw_findings.h"
#include "cli/picture_words.h"
#include "game/formats.h"
#include "job/trace/straighten_pictures.h"

namespace quoin::cli {
namespace {

std::optional<double> number_in(const std::string& text) {
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (text.empty() || *end != '\0' || !std::isfinite(value)) return std::nullopt;
  return value;
}

/// "415,194 1003,186 1180,1000 534,1143" as corners.
std::optional<job::CardCorners> corners_in(const std::string& text) {
  std::vector<double> numbers;
  std::string word;
  for (const char c : text + " ") {
    if (c != ',' && c != ' ' && c != ';') {
      word += c;
      continue;
    }
    if (word.empty()) continue;
    const auto number = number_in(word);
    if (!number) return std::nullopt;
    numbers.push_back(*number);
    word.clear();
  }
  if (numbers.size() != 8) return std::nullopt;
  job::CardCorners corners;
  for (std::size_t i = 0; i < 4; ++i) corners[i] = {numbers[2 * i], numbers[2 * i + 1]};
  return corners;
}

std::optional<WrongUse> read_reach(const Asked& asked, trace::CutOutWishes& wishes) {
  if (const auto text = asked.get("--reach")) {
    const auto reach = number_in(*text);
    if (!reach || *reach < 0 || *reach > 1) {
      return WrongUse{fmt::format("--reach takes a number from 0 to 1, not \"{}\"", *text),
                      "write --reach 0.5, the usual one, or more to take more of the ground away"};
    }
    wishes.reach = *reach;
  }
  if (asked.has("--holes")) wishes.enclosed = trace::EnclosedGround::cut_out;
  return std::nullopt;
}

std::optional<WrongUse> read_straighten_wishes(const Asked& asked, job::StraightenWishes& wishes) {
  if (const auto text = asked.get("--shape")) {
    const auto size = game::find_size(*text, game::card_sizes());
    if (!size) {
      return WrongUse{fmt::format("--shape has \"{}\", which is no size of a card", *text),
                      "write it in millimetres, --shape 63x88, or by a name of quoin sizes cards"};
    }
    wishes.shape.size = size->size;
    if (size->corner > Mm{0}) wishes.shape.corner = size->corner;
  }
  if (asked.has("--one") && asked.has("--grid")) {
    return WrongUse{"--one and --grid cannot both be followed", "leave out one of them"};
  }
  if (asked.has("--one")) wishes.count = trace::CardCount::one;
  if (asked.has("--grid")) wishes.count = trace::CardCount::grid;
  if (asked.has("--fill-corners")) wishes.outside = trace::OutsideCorners::filled;
  if (const auto text = asked.get("--corners")) {
    if (asked.words.size() != 1) {
      return WrongUse{"--corners is for one picture at a time", "name one picture"};
    }
    const auto corners = corners_in(*text);
    if (!corners) {
      return WrongUse{fmt::format("--corners takes four places, not \"{}\"", *text),
                      "write --corners \"415,194 1003,186 1180,1000 534,1143\", in pixels from "
                      "the top left"};
    }
    wishes.corners.push_back(*corners);
  }
  if (asked.has("--cut-out")) wishes.cut_out.emplace();
  if (!asked.has("--cut-out") && (asked.has("--reach") || asked.has("--holes"))) {
    return WrongUse{"--reach and --holes are for --cut-out", "write --cut-out as well"};
  }
  return wishes.cut_out ? read_reach(asked, *wishes.cut_out) : std::nullopt;
}

template <typename Made>
Diagnostics all_found(const std::vector<Made>& made) {
  Diagnostics found;
  for (const Made& one : made) found.insert(found.end(), one.found.begin(), one.found.end());
  return in_order(std::move(found));
}

std::string card_line(const job::StraightCard& card) {
  std::string line = fmt::format("{} x {} px, {:.0f} ppi at its size", card.picture.width,
                                 card.picture.height, card.ppi);
  if (card.card.bow != 0) line += ", the bow of the lens undone";
  return line;
}

void tell_straightened(const std::vector<job::StraightPicture>& made, const Terminal& out) {
  for (const job::StraightPicture& one : made) {
    const bool several = one.cards.size() > 1;
    if (several) {
      out.line(fmt::format("{} cards in {}", one.cards.size(), one.picture), 2);
    }
    for (const job::StraightCard& card : one.cards) {
      if (!card.written) continue;
      const Tone tone = card.card.doubts.empty() ? Tone::good : Tone::warning;
      const std::string verdict = card.card.doubts.empty() ? "sure" : "look at its corners";
      if (several) {
        out.line(fmt::format("  {}: {}, {:.0f} ppi at its size", out.toned(Tone::strong, card.file),
                             out.toned(tone, verdict), card.ppi),
                 4);
      } else {
        out.line(out.toned(Tone::strong, card.file) + " from " + one.picture);
        out.line("  " + out.toned(tone, verdict) + ": " + card_line(card), 4);
      }
    }
  }
}

}  // namespace

int run_straighten(const Asked& asked, const Voices& voices) {
  job::StraightenOrder order;
  if (const auto wrong = read_straighten_wishes(asked, order.wishes)) {
    return refuse(voices, *wrong);
  }
  if (asked.words.empty()) {
    return refuse(voices, {"straighten needs a photograph", "quoin straighten photo.jpg"});
  }
  order.pictures = asked.words;
  order.out = asked.get("--out").value_or("");
  if (const auto wrong = other_picture(order.out, {".png"})) return refuse(voices, *wrong);
  order.shown = asked.get("--shown").value_or("");
  if (order.pictures.size() > 1 && order.out.ends_with(".png")) {
    return refuse(voices, {"several pictures cannot go into one file", "name a folder with -o"});
  }
  if (order.pictures.size() > 1 && !order.shown.empty()) {
    return refuse(voices, {"--shown is for one picture at a time", "name one picture"});
  }
  std::vector<job::StraightPicture> made;
  {
    Progress progress(voices.err);
    made = job::straighten_pictures(order, progress);
  }
  const Diagnostics found = all_found(made);
  if (asked.has("--json")) {
    voices.out.raw(job::straighten_report(made));
    return code_of(found);
  }
  draw_findings(found, MemoryWorld(), voices.err);
  tell_straightened(made, voices.out);
  return code_of(found);
}

int run_cut_out(const Asked& asked, const Voices& voices) {
  job::CutOutOrder order;
  if (const auto wrong = read_reach(asked, order.wishes)) return refuse(voices, *wrong);
  if (asked.words.empty()) {
    return refuse(voices, {"cut-out needs a picture", "quoin cut-out crab.jpg"});
  }
  order.pictures = asked.words;
  order.out = asked.get("--out").value_or("");
  if (const auto wrong = other_picture(order.out, {".png"})) return refuse(voices, *wrong);
  if (order.pictures.size() > 1 && order.out.ends_with(".png")) {
    return refuse(voices, {"several pictures cannot go into one file", "name a folder with -o"});
  }
  std::vector<job::CutPicture> made;
  {
    Progress progress(voices.err);
    made = job::cut_out_pictures(order, progress);
  }
  const Diagnostics found = all_found(made);
  if (asked.has("--json")) {
    voices.out.raw(job::cut_out_report(made));
    return code_of(found);
  }
  draw_findings(found, MemoryWorld(), voices.err);
  for (const job::CutPicture& one : made) {
    if (!one.written) continue;
    voices.out.line(voices.out.toned(Tone::strong, one.file) + " from " + one.picture);
    voices.out.line(fmt::format("  {:.0f} % of it is transparent", 100 * one.share), 4);
  }
  return code_of(found);
}

}  // namespace quoin::cli
