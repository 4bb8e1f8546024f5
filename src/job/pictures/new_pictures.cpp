#include "job/pictures/new_pictures.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/png/png.h"
#include "media/picture.h"
#include "trace/photo/cut_out.h"
#include "trace/photo/straighten.h"

namespace quoin::job {
namespace {

constexpr double screen_ppi = 96;

/// The pixels of a file; null with the reason in `found`.
std::shared_ptr<const Raster> pixels_of(const World& world, const std::string& path,
                                        Diagnostics& found) {
  PictureShelf shelf(world);
  const Origin origin{FileName(path)};
  const auto picture = shelf.open(path, origin, found).or_report(found);
  if (!picture) return nullptr;
  auto pixels = shelf.pixels(*picture).or_report(found);
  return pixels ? *pixels : nullptr;
}

trace::CardShape shape_of(const CardOutline& card) { return {card.size, card.corner}; }

std::array<trace::Spot, 4> spots_of(const PictureCorners& corners) {
  std::array<trace::Spot, 4> spots;
  for (std::size_t i = 0; i < 4; ++i) spots[i] = {corners[i].x, corners[i].y};
  return spots;
}

void tell(const Diagnostics& doubts, std::vector<std::string>& words) {
  for (const Diagnostic& one : doubts) {
    words.push_back(one.hints.empty() ? one.message : one.message + ": " + one.hints[0]);
  }
}

}  // namespace

PicturedCards find_cards(const World& world, const std::string& path, const CardOutline& card) {
  PicturedCards cards;
  const auto pixels = pixels_of(world, path, cards.found);
  if (!pixels) return cards;
  auto found = trace::find_cards(*pixels, shape_of(card), path, Origin{FileName(path)})
                   .or_report(cards.found);
  if (!found) return cards;
  cards.width = found->width;
  cards.height = found->height;
  cards.grid = found->grid;
  for (trace::FoundCard& one : found->cards) {
    PicturedCard& to = cards.cards.emplace_back();
    for (std::size_t i = 0; i < 4; ++i) to.corners[i] = {one.corners[i].x, one.corners[i].y};
    to.doubts = std::move(one.doubts);
  }
  return cards;
}

NewPictures straighten_cards(const World& world, const std::string& path,
                             const std::vector<PictureCorners>& cards, const CardOutline& card) {
  NewPictures made;
  const auto pixels = pixels_of(world, path, made.found);
  if (!pixels) return made;
  const Origin origin{FileName(path)};
  const trace::CardShape shape = shape_of(card);
  // How far the lens bends lines is known of what was found, whatever corner was moved since.
  Diagnostics unneeded;
  const auto seen = trace::find_cards(*pixels, shape, path, origin).or_report(unneeded);
  const double bow = seen && !seen->cards.empty() ? seen->cards.front().bow : 0;
  double least = 1e9;
  for (std::size_t i = 0; i < cards.size(); ++i) {
    auto one =
        trace::card_from_corners(*pixels, spots_of(cards[i]), path, origin).or_report(made.found);
    if (!one) return {{}, {}, std::move(made.found)};
    one->bow = bow;
    const Raster straight = trace::straighten(*pixels, *one, shape, trace::OutsideCorners::filled);
    const double ppi = trace::printed_ppi(straight, shape);
    least = std::min(least, ppi);
    NewPicture& picture = made.pictures.emplace_back();
    picture.ending = cards.size() == 1 ? "-straight.png" : fmt::format("-{}.png", i + 1);
    picture.done = "straightened";
    picture.bytes = write_png(straight, ppi);
    picture.width = straight.width;
    picture.height = straight.height;
  }
  if (!made.pictures.empty()) {
    made.words.push_back(fmt::format("At {:g} x {:g} mm it prints at {:.0f} ppi.",
                                     card.size.width.value, card.size.height.value, least));
  }
  return made;
}

NewPictures cut_out_picture(const World& world, const std::string& path, double reach) {
  NewPictures made;
  const auto pixels = pixels_of(world, path, made.found);
  if (!pixels) return made;
  trace::CutOutWishes wishes;
  wishes.reach = std::clamp(reach, 0.0, 1.0);
  auto cut = trace::cut_out(*pixels, wishes, path, Origin{FileName(path)}).or_report(made.found);
  if (!cut) return made;
  NewPicture& picture = made.pictures.emplace_back();
  picture.ending = "-cut-out.png";
  picture.done = "cut out";
  picture.bytes = write_png(cut->picture, screen_ppi);
  picture.width = cut->picture.width;
  picture.height = cut->picture.height;
  tell(cut->doubts, picture.doubts);
  made.words.push_back(fmt::format("{:.0f} % of it is transparent now.", cut->cut * 100));
  return made;
}

}  // namespace quoin::job
