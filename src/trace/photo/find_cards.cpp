#include "trace/photo/find_cards.h"

#include <fmt/format.h>

#include <algorithm>

#include "trace/photo/outlines.h"

namespace quoin::trace {
namespace {

FoundCard card_of(const Weighed& best, const View& view) {
  FoundCard card;
  card.corners = clockwise(best.outline.seen());
  for (Spot& p : card.corners) p = p * view.scale;
  card.bow = best.outline.lens.bow;
  return card;
}

FoundCards whole_picture(const Raster& picture) {
  FoundCards found{picture.width, picture.height, {}, false, true};
  const double w = picture.width, h = picture.height;
  FoundCard card;
  card.corners = {Spot{0, 0}, {w, 0}, {w, h}, {0, h}};
  card.doubts.push_back("no card was found; these are the corners of the picture");
  found.cards.push_back(card);
  return found;
}

}  // namespace

Result<FoundCards> find_cards(const Raster& picture, const CardShape& shape,
                              const std::string& name, const Origin& origin, CardCount) {
  if (std::min(picture.width, picture.height) < least_photo_side) {
    return Diagnostic(Id::straighten_too_small, origin,
                      fmt::format("{} has {} x {} px; no card can be found in fewer than {}", name,
                                  picture.width, picture.height, least_photo_side))
        .hint("find a copy in which the card has at least 200 px along its shorter side");
  }
  const View view = view_of(picture);
  const std::vector<Weighed> outlines = outlines_in(view, shape);
  if (outlines.empty()) return whole_picture(picture);
  FoundCards found{picture.width, picture.height, {}, false, false};
  found.cards.push_back(card_of(outlines.front(), view));
  return found;
}

Result<FoundCard> card_from_corners(const Raster& picture, const std::array<Spot, 4>& corners,
                                    const std::string& name, const Origin& origin) {
  const auto odd = [&](const std::string& what) {
    return Diagnostic(Id::straighten_corners_odd, origin,
                      fmt::format("the corners given for {} {}", name, what))
        .hint(
            "give the four corners one after another round the card, in pixels from the top left");
  };
  const double w = picture.width, h = picture.height;
  for (const Spot p : corners) {
    if (!std::isfinite(p.x) || !std::isfinite(p.y)) return odd("are not all numbers");
    if (p.x < -0.1 * w || p.x > 1.1 * w || p.y < -0.1 * h || p.y > 1.1 * h) {
      return odd(fmt::format("have {:.0f},{:.0f}, which is outside its {} x {} px", p.x, p.y,
                             picture.width, picture.height));
    }
  }
  FoundCard card;
  card.corners = clockwise(corners);
  if (!is_convex(card.corners)) return odd("do not lie round a card");
  double around = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    around = std::max(around, size(card.corners[(i + 1) % 4] - card.corners[i]));
    for (std::size_t k = 0; k < i; ++k) {
      if (size(card.corners[i] - card.corners[k]) < 8) return odd("lie closer than 8 px together");
    }
  }
  if (area_of(card.corners) < 8 * around) return odd("make a shape thinner than 8 px");
  return card;
}

}  // namespace quoin::trace
