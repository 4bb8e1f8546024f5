#include <fmt/format.h>

#include "job/trace/picture_files.h"
#include "job/trace/straighten_pictures.h"

namespace quoin::job {
namespace {

constexpr double steep = 0.6;  // of the longer of two opposite sides

std::string typed(const CardCorners& corners) {
  std::string text;
  for (const trace::Spot p : corners) {
    text += fmt::format("{}{:.0f},{:.0f}", text.empty() ? "" : " ", p.x, p.y);
  }
  return text;
}

std::string card_words(const trace::FoundCards& found, std::size_t k) {
  return found.cards.size() == 1 ? "the card" : fmt::format("card {}", k + 1);
}

void tell_doubts(const trace::FoundCards& found, const std::string& shown, const Origin& origin,
                 Diagnostics& told) {
  for (std::size_t k = 0; k < found.cards.size(); ++k) {
    const trace::FoundCard& card = found.cards[k];
    if (card.doubts.empty()) continue;
    Diagnostic doubt(Id::straighten_uncertain, origin,
                     fmt::format("the corners of {} in {} are not certain: {}",
                                 card_words(found, k), shown, typed(card.corners)));
    for (const std::string& why : card.doubts) doubt.detail(why);
    told.push_back(doubt.hint(fmt::format(
        "look at them with --shown FILE.png; where one is off, move it: --corners \"{}\"",
        typed(card.corners))));
  }
}

void tell_slant(const trace::FoundCards& found, const std::string& shown, const Origin& origin,
                Diagnostics& told) {
  for (std::size_t k = 0; k < found.cards.size(); ++k) {
    std::array<double, 4> sides{};
    for (std::size_t i = 0; i < 4; ++i) {
      const trace::Spot side = found.cards[k].corners[(i + 1) % 4] - found.cards[k].corners[i];
      sides[i] = std::hypot(side.x, side.y);
    }
    for (std::size_t i = 0; i < 2; ++i) {
      const double least = std::min(sides[i], sides[i + 2]);
      const double most = std::max(sides[i], sides[i + 2]);
      if (least >= steep * most) continue;
      told.push_back(Diagnostic(
          Id::straighten_very_slanted, origin,
          fmt::format("{} in {} is seen at a steep angle: one side has {:.0f} px and the opposite "
                      "one {:.0f}",
                      card_words(found, k), shown, least, most)));
      break;
    }
  }
}

}  // namespace

CardsFound find_cards_in(const World& world, const std::string& path, const std::string& shown,
                         const StraightenWishes& wishes) {
  CardsFound result;
  result.picture = shown;
  const Origin origin{FileName(shown)};
  result.pixels = pixels_of(world, path, shown, result.found);
  if (!result.pixels) return result;
  const Raster& pixels = *result.pixels;
  if (!wishes.corners.empty()) {
    result.cards.width = pixels.width;
    result.cards.height = pixels.height;
    for (const CardCorners& corners : wishes.corners) {
      auto card = trace::card_from_corners(pixels, corners, shown, origin).or_report(result.found);
      if (card) result.cards.cards.push_back(std::move(*card));
    }
    tell_slant(result.cards, shown, origin, result.found);
    return result;
  }
  auto found =
      trace::find_cards(pixels, wishes.shape, shown, origin, wishes.count).or_report(result.found);
  if (!found) return result;
  result.cards = std::move(*found);
  if (result.cards.whole_picture) {
    result.found.push_back(
        Diagnostic(Id::straighten_no_card, origin,
                   fmt::format("no card was found in {}; all of it was taken", shown))
            .hint("give the corners with --corners \"x,y x,y x,y x,y\", in pixels from the top "
                  "left"));
    return result;
  }
  tell_doubts(result.cards, shown, origin, result.found);
  tell_slant(result.cards, shown, origin, result.found);
  return result;
}

StraightPicture straighten_file(const World& world, const std::string& path,
                                const std::string& shown, const StraightenWishes& wishes) {
  StraightPicture straight;
  straight.picture = shown;
  CardsFound cards = find_cards_in(world, path, shown, wishes);
  straight.found = std::move(cards.found);
  straight.grid = cards.cards.grid;
  straight.whole_picture = cards.cards.whole_picture;
  straight.width = cards.cards.width;
  straight.height = cards.cards.height;
  if (any_errors(straight.found)) return straight;
  for (trace::FoundCard& card : cards.cards.cards) {
    StraightCard one;
    one.picture = straight.whole_picture
                      ? *cards.pixels
                      : trace::straighten(*cards.pixels, card, wishes.shape, wishes.outside);
    one.ppi = trace::printed_ppi(one.picture, wishes.shape);
    if (wishes.cut_out) {
      Diagnostics why;
      auto cut = trace::cut_out(one.picture, *wishes.cut_out, shown, Origin{FileName(shown)})
                     .or_report(why);
      for (Diagnostic& d : why) {
        d.severity = Severity::warning;  // the card is written, with its ground
        straight.found.push_back(std::move(d));
      }
      if (cut) {
        for (Diagnostic& d : cut->doubts) straight.found.push_back(std::move(d));
        one.picture = std::move(cut->picture);
      }
    }
    one.card = std::move(card);
    straight.cards.push_back(std::move(one));
  }
  return straight;
}

CutPicture cut_out_file(const World& world, const std::string& path, const std::string& shown,
                        const trace::CutOutWishes& wishes) {
  CutPicture result;
  result.picture = shown;
  const auto pixels = pixels_of(world, path, shown, result.found);
  if (!pixels) return result;
  auto cut =
      trace::cut_out(*pixels, wishes, shown, Origin{FileName(shown)}).or_report(result.found);
  if (!cut) return result;
  result.cut = std::move(cut->picture);
  result.share = cut->cut;
  for (Diagnostic& d : cut->doubts) result.found.push_back(std::move(d));
  return result;
}

}  // namespace quoin::job
