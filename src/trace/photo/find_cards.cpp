#include "trace/photo/find_cards.h"

#include <fmt/format.h>

#include <algorithm>

#include "trace/photo/doubts.h"
#include "trace/photo/grid.h"
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

/// Whether a picture rather shows the grid than one card: the grid's cards cover more, and are not
/// just printed on the one.
bool outweighs(const std::vector<Weighed>& grid, const Weighed& one) {
  double share = 0;
  std::size_t within = 0;
  for (const Weighed& card : grid) {
    share += card.share;
    within += lies_in(mean(card.outline.corners), one.outline.corners) ? 1 : 0;
  }
  // Cards that touch make a block that may have the shape of one; pictures of cards printed on a
  // card leave more of it free.
  const bool block = grid.size() >= 4 && share > 0.85 * one.share;
  if (within == grid.size() && one.pose.misfit < 2) return block;
  return share > (one.pose.misfit < 2 ? 1.2 : 0.4) * one.share;
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
                              const std::string& name, const Origin& origin, CardCount count) {
  if (std::min(picture.width, picture.height) < least_photo_side) {
    return Diagnostic(Id::straighten_too_small, origin,
                      fmt::format("{} has {} x {} px; no card can be found in fewer than {}", name,
                                  picture.width, picture.height, least_photo_side))
        .hint("find a copy in which the card has at least 200 px along its shorter side");
  }
  const View view = view_of(picture);
  FoundCards found{picture.width, picture.height, {}, false, false};
  const std::vector<Weighed> grid =
      count == CardCount::one ? std::vector<Weighed>{} : grid_in(view, shape);
  const std::vector<Weighed> outlines =
      count == CardCount::grid ? std::vector<Weighed>{} : outlines_in(view, shape);
  if (!grid.empty() && (outlines.empty() || outweighs(grid, outlines.front()))) {
    found.grid = true;
    for (const Weighed& one : grid) {
      found.cards.push_back(card_of(one, view));
      if (one.outline.least_support() < 0.3) {
        found.cards.back().doubts.emplace_back(
            "its edges cannot be seen; it was laid where the rows and columns put it");
      }
    }
    return found;
  }
  if (outlines.empty()) return whole_picture(picture);
  found.cards.push_back(card_of(outlines.front(), view));
  found.cards.back().doubts = doubts_on(view, outlines, shape);
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
