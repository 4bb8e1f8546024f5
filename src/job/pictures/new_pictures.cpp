#include "job/pictures/new_pictures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/png/png.h"
#include "trace/photo/cut_out.h"
#include "trace/photo/straighten.h"

namespace quoin::job {
namespace {

constexpr double screen_ppi = 96;
constexpr double most_compared_pixels = 4'000'000;

Origin whole_of(const PicturePtr& picture) { return Origin{FileName(picture->path())}; }

trace::CardShape shape_of(const CardOutline& card) { return {card.size, card.corner}; }

std::array<trace::Spot, 4> spots_of(const PictureCorners& corners) {
  std::array<trace::Spot, 4> spots;
  for (std::size_t i = 0; i < 4; ++i) spots[i] = {corners[i].x, corners[i].y};
  return spots;
}

/// Square pixels by the shoelace formula: y runs down, so what turns clockwise has more than 0.
double area_of(const std::array<trace::Spot, 4>& corners) {
  double twice_area = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const trace::Spot a = corners[i], b = corners[(i + 1) % 4];
    twice_area += a.x * b.y - b.x * a.y;
  }
  return twice_area / 2;
}

/// Cards that lie beside each other cover the picture once, and corners may be a tenth of it
/// outside; a hundred of the whole picture would not fit the memory.
bool lie_over_each_other(const std::vector<PicturedCard>& cards, const Raster& picture) {
  double area = 0;
  for (const PicturedCard& card : cards) area += std::abs(area_of(spots_of(card.corners)));
  return cards.size() > 1 && area > 2.0 * picture.width * picture.height;
}

std::string with_remedy(const Diagnostic& doubt) {
  return doubt.hints.empty() ? doubt.message : doubt.message + ": " + doubt.hints[0];
}

}  // namespace

std::string_view done_to_it(MadeBy how) {
  switch (how) {
    case MadeBy::redrawing:
      return "redrawn";
    case MadeBy::straightening:
    case MadeBy::splitting:
      return "straightened";
    case MadeBy::cutting_out:
      return "cut out";
    case MadeBy::recolouring:
      break;
  }
  return "recoloured";
}

std::shared_ptr<const Raster> own_pixels(PictureShelf& shelf, const PicturePtr& picture,
                                         Diagnostics& found, int at_most_wide) {
  if (picture->facts().is_vector()) {
    found.push_back(Diagnostic(Id::trace_already_vectors, whole_of(picture),
                               fmt::format("{} is drawn in vectors already", picture->path()))
                        .hint("use it as it is"));
    return nullptr;
  }
  auto pixels = shelf.pixels(picture, at_most_wide).or_report(found);
  return pixels ? *pixels : nullptr;
}

Redrawn redraw_picture(const PicturePtr& picture, const trace::TraceWishes& wishes) {
  MemoryWorld world;
  world.put(picture->path(), picture->bytes());
  return redraw_file(world, picture->path(), picture->path(), wishes);
}

Bytes difference_png(PictureShelf& shelf, const PicturePtr& picture, const Bytes& drawing) {
  const PictureFacts& facts = picture->facts();
  const double scale = std::sqrt(most_compared_pixels / (facts.width * facts.height));
  Diagnostics unneeded;
  const int width = scale < 1 ? std::max(1, int(facts.width * scale / 2)) : 0;
  const auto pixels = own_pixels(shelf, picture, unneeded, width);
  if (!pixels) return {};
  const auto again = trace::drawn(drawing, pixels->width, pixels->height);
  return again ? write_png(trace::difference_picture(*pixels, *again), screen_ppi) : Bytes{};
}

PicturedCards find_cards(PictureShelf& shelf, const PicturePtr& picture, const CardOutline& card) {
  PicturedCards cards;
  const auto pixels = own_pixels(shelf, picture, cards.found);
  if (!pixels) return cards;
  auto found = trace::find_cards(*pixels, shape_of(card), picture->path(), whole_of(picture))
                   .or_report(cards.found);
  if (!found) return cards;
  cards.width = found->width;
  cards.height = found->height;
  cards.grid = found->grid;
  for (trace::FoundCard& one : found->cards) {
    PicturedCard& to = cards.cards.emplace_back();
    for (std::size_t i = 0; i < 4; ++i) to.corners[i] = {one.corners[i].x, one.corners[i].y};
    to.doubts = std::move(one.doubts);
    to.bow = one.bow;
  }
  return cards;
}

NewPictures straighten_cards(PictureShelf& shelf, const PicturePtr& picture,
                             const std::vector<PicturedCard>& cards, const CardOutline& card,
                             double wanted_ppi) {
  NewPictures made{cards.size() == 1 ? MadeBy::straightening : MadeBy::splitting, {}, {}, {}};
  const auto pixels = own_pixels(shelf, picture, made.found);
  if (!pixels) return made;
  if (lie_over_each_other(cards, *pixels)) {
    made.found.push_back(
        Diagnostic(
            Id::straighten_corners_odd, whole_of(picture),
            fmt::format("the {} cards of {} lie over each other", cards.size(), picture->path()))
            .hint("give each card corners of its own, or straighten one at a time"));
    return made;
  }
  const trace::CardShape shape = shape_of(card);
  double least = 1e9;
  for (const PicturedCard& asked : cards) {
    const auto corners = spots_of(asked.corners);
    auto one = trace::card_from_corners(*pixels, corners, picture->path(), whole_of(picture))
                   .or_report(made.found);
    if (!one) return {made.how, {}, {}, std::move(made.found)};
    if (area_of(corners) > 0) one->corners = corners;
    one->bow = asked.bow;
    const Raster straight = trace::straighten(*pixels, *one, shape, trace::OutsideCorners::filled);
    const double ppi = trace::printed_ppi(straight, shape);
    least = std::min(least, ppi);
    made.pictures.push_back({write_png(straight, ppi), straight.width, straight.height, {}});
  }
  if (made.pictures.empty()) return made;
  std::string words = fmt::format(
      "At {:g} x {:g} mm {} at {:.0f} ppi", card.size.width.value, card.size.height.value,
      cards.size() == 1 ? "it prints" : "the coarsest prints", std::floor(least + 1e-6));
  words += least < wanted_ppi
               ? fmt::format(", {:.0f} are wanted: redraw it, or take the photograph from nearer.",
                             wanted_ppi)
               : ".";
  made.words.push_back(std::move(words));
  return made;
}

NewPictures cut_out_picture(PictureShelf& shelf, const PicturePtr& picture, double reach) {
  NewPictures made{MadeBy::cutting_out, {}, {}, {}};
  const auto pixels = own_pixels(shelf, picture, made.found);
  if (!pixels) return made;
  trace::CutOutWishes wishes;
  wishes.reach = std::clamp(reach, 0.0, 1.0);
  auto cut =
      trace::cut_out(*pixels, wishes, picture->path(), whole_of(picture)).or_report(made.found);
  if (!cut) return made;
  const Raster& raster = cut->picture;
  made.pictures.push_back({write_png(raster, screen_ppi), raster.width, raster.height, {}});
  for (const Diagnostic& doubt : cut->doubts) {
    made.pictures[0].doubts.push_back(with_remedy(doubt));
  }
  made.words.push_back(fmt::format("{:.0f} % of it is transparent now.", cut->cut * 100));
  return made;
}

}  // namespace quoin::job
