#include <fmt/format.h>

#include <charconv>
#include <filesystem>

#include "cli/at_work.h"
#include "cli/command.h"
#include "cli/draw_findings.h"
#include "cli/picture_words.h"
#include "job/trace/trace_report.h"

namespace quoin::cli {
namespace fs = std::filesystem;
namespace {

/// "#a1b2c3=#f4e3c1,white=black": colours and what takes their places.
std::optional<WrongUse> read_instead(const std::string& list, trace::TraceWishes& wishes) {
  for (const std::string& pair : split(list)) {
    const std::size_t middle = pair.find('=');
    std::string bad = pair;
    if (middle != std::string::npos) {
      const auto from = colours_in(pair.substr(0, middle), bad);
      const auto to = colours_in(pair.substr(middle + 1), bad);
      if (from.size() == 1 && to.size() == 1) {
        wishes.instead.emplace_back(from.front(), to.front());
        continue;
      }
    }
    return WrongUse{fmt::format("--instead has \"{}\", which is no pair of opaque colours", pair),
                    "write --instead \"#c65b3a=#dd7057,#fff=#f4e3c1\""};
  }
  if (!wishes.instead.empty()) return std::nullopt;
  return WrongUse{"--instead needs pairs of colours",
                  "write --instead \"#c65b3a=#dd7057,#fff=#f4e3c1\""};
}

std::optional<WrongUse> read_trace_wishes(const Asked& asked, trace::TraceWishes& wishes) {
  if (asked.has("--closest") && asked.has("--fewest-nodes")) {
    return WrongUse{"--closest and --fewest-nodes cannot both be followed",
                    "leave out one of them"};
  }
  if (asked.has("--fewest-nodes")) wishes.closeness = trace::Closeness::fewest_nodes;
  if (const auto count = asked.get("--colours")) {
    const auto [end, error] =
        std::from_chars(count->data(), count->data() + count->size(), wishes.colours);
    const bool whole = error == std::errc{} && end == count->data() + count->size();
    if (!whole || wishes.colours < 1 || wishes.colours > 64) {
      return WrongUse{
          fmt::format("--colours takes a whole number from 1 to 64, not \"{}\"", *count),
          "write --colours 6"};
    }
  }
  if (const auto list = asked.get("--palette")) {
    if (wishes.colours > 0) {
      return WrongUse{"--colours and --palette cannot both be followed", "leave out one of them"};
    }
    std::string bad;
    wishes.palette = colours_in(*list, bad);
    if (!bad.empty()) {
      return WrongUse{fmt::format("--palette has \"{}\", which is no opaque colour", bad),
                      "write colours like #1d2b33, with commas between them"};
    }
    if (wishes.palette.empty() || wishes.palette.size() > 64) {
      return WrongUse{"--palette takes 1 to 64 colours", "write --palette \"#1d2b33,#f4e3c1\""};
    }
  }
  if (const auto list = asked.get("--instead")) return read_instead(*list, wishes);
  return std::nullopt;
}

std::string numbers_of(const job::TracedPicture& one) {
  const trace::Judgement& j = one.judgement;
  const std::string parts =
      fmt::format("{} {}, {} {}, {:.1f} kB", j.colours, j.colours == 1 ? "colour" : "colours",
                  j.nodes, j.nodes == 1 ? "node" : "nodes", double(one.bytes) / 1000);
  if (!j.is_compared) return parts + "; not compared";
  return fmt::format(
      "{}; differs by {:.2f} on the average, {:.2f} at most in "
      "95 % of it (CIEDE2000), SSIM {:.3f}",
      parts, j.comparison.mean, j.comparison.worst, j.comparison.ssim);
}

Tone tone_of(trace::Verdict verdict) {
  if (verdict == trace::Verdict::good) return Tone::good;
  return verdict == trace::Verdict::look_closely ? Tone::note : Tone::warning;
}

void tell_verdict(const job::TracedPicture& one, const Terminal& out) {
  const trace::Judgement& j = one.judgement;
  std::string reasons;
  for (const std::string& reason : j.reasons) reasons += (reasons.empty() ? "" : "; ") + reason;
  out.line("  " + out.toned(tone_of(j.verdict), trace::to_string(j.verdict)) + ": " + reasons, 4);
  out.line("  " + numbers_of(one), 4);
}

int trace_some(const Asked& asked, const trace::TraceWishes& wishes, const Voices& voices) {
  if (asked.words.empty()) {
    return refuse(voices, {"trace needs a picture, or --all for those of a game",
                           "quoin trace crab.png -o art"});
  }
  job::TraceOrder order;
  order.pictures = asked.words;
  order.out = asked.get("--out").value_or("");
  if (const auto wrong = other_picture(order.out, {".svg"})) return refuse(voices, *wrong);
  order.difference = asked.get("--difference").value_or("");
  order.wishes = wishes;
  if (order.pictures.size() > 1 && order.out.ends_with(".svg")) {
    return refuse(voices, {"several drawings cannot go into one file", "name a folder with -o"});
  }
  if (order.pictures.size() > 1 && !order.difference.empty()) {
    return refuse(voices, {"--difference is for one picture at a time", "name one picture"});
  }
  std::vector<job::TracedPicture> traced;
  {
    Progress progress(voices.err);
    traced = job::trace_pictures(order, progress);
  }
  Diagnostics found;
  for (const job::TracedPicture& one : traced) {
    found.insert(found.end(), one.found.begin(), one.found.end());
  }
  found = in_order(std::move(found));
  if (asked.has("--json")) {
    voices.out.raw(job::trace_report(traced));
    return code_of(found);
  }
  draw_findings(found, MemoryWorld(), voices.err);
  for (const job::TracedPicture& one : traced) {
    if (!one.written) continue;
    voices.out.line(voices.out.toned(Tone::strong, one.drawing) + " from " + one.picture);
    tell_verdict(one, voices.out);
  }
  return code_of(found);
}

std::string shown_on(const std::vector<std::string>& pieces) {
  std::string text;
  for (std::size_t i = 0; i < pieces.size() && i < 3; ++i) text += (i > 0 ? ", " : "") + pieces[i];
  return pieces.size() > 3 ? fmt::format("{} and {} more", text, pieces.size() - 3) : text;
}

void tell_game(const job::GameTraced& traced, const job::AcceptTraces& accept,
               const Terminal& out) {
  const bool asked = accept.which != job::AcceptTraces::Which::none;
  int redrawn = 0;
  for (const job::CoarsePicture& coarse : traced.pictures) {
    out.line(
        fmt::format("{} prints at {:.0f} ppi on {}", out.toned(Tone::strong, coarse.traced.picture),
                    coarse.ppi, shown_on(coarse.pieces)),
        4);
    if (coarse.traced.judgement.nodes > 0) tell_verdict(coarse.traced, out);
    if (coarse.traced.written) {
      ++redrawn;
      out.line("  redrawn as " + coarse.traced.drawing, 4);
    } else if (asked) {
      out.line("  kept as it is", 4);
    } else if (coarse.traced.judgement.nodes > 0) {
      out.line("  would become " + coarse.traced.drawing, 4);
    }
  }
  if (traced.pictures.empty()) {
    out.line(fmt::format("No picture of the cards prints below {:.0f} ppi.", traced.good_ppi));
  } else if (!asked) {
    out.line(
        "Nothing was changed. quoin trace --all --accept good redraws those that came out "
        "good; originals are kept.");
  } else {
    out.line(fmt::format(
        "{} of {} {} redrawn, {} {} changed in the lists and layouts. Originals "
        "are kept; the desk can take the change back.",
        redrawn, traced.pictures.size(), traced.pictures.size() == 1 ? "picture" : "pictures",
        traced.changes, traced.changes == 1 ? "value" : "values"));
  }
}

int trace_all(const Asked& asked, const trace::TraceWishes& wishes, const Voices& voices) {
  if (asked.words.size() > 1) {
    return refuse(voices, {"--all takes one game", "quoin trace --all " + asked.words.front()});
  }
  const std::string folder = asked.words.empty() ? "." : asked.words.front();
  std::error_code fault;
  if (!fs::exists(fs::path(folder) / "game.toml", fault)) {
    return refuse(voices, {fmt::format("there is no game.toml in {}", folder),
                           "name the game's folder after --all"});
  }
  job::AcceptTraces accept;
  if (const auto which = asked.get("--accept")) {
    using Which = job::AcceptTraces::Which;
    accept.which = *which == "good" ? Which::good : *which == "all" ? Which::all : Which::named;
    if (accept.which == Which::named) accept.names = split(*which);
    if (accept.which == Which::named && accept.names.empty()) {
      return refuse(voices,
                    {"--accept needs good, all, or names of pictures", "write --accept good"});
    }
  }
  job::GameTraced traced;
  {
    Progress progress(voices.err);
    traced = job::trace_game(folder, wishes, accept, progress);
  }
  if (asked.has("--json")) {
    voices.out.raw(job::trace_report(traced));
    return code_of(traced.found);
  }
  const std::unique_ptr<World> world = real_world(folder);
  draw_findings(traced.found, *world, voices.err);
  if (!any_errors(traced.found) || !traced.pictures.empty()) {
    tell_game(traced, accept, voices.out);
  }
  return code_of(traced.found);
}

}  // namespace

int run_trace(const Asked& asked, const Voices& voices) {
  trace::TraceWishes wishes;
  if (const auto fault = read_trace_wishes(asked, wishes)) {
    return refuse(voices, {fault->what, fault->hint});
  }
  const bool all = asked.has("--all");
  if (asked.has("--accept") && !all) {
    return refuse(voices, {"--accept is for the pictures of a game", "write --all before it"});
  }
  if (all && (asked.has("--out") || asked.has("--difference"))) {
    return refuse(voices, {"with --all each drawing goes beside its picture",
                           "leave out -o and --difference"});
  }
  return all ? trace_all(asked, wishes, voices) : trace_some(asked, wishes, voices);
}

}  // namespace quoin::cli
