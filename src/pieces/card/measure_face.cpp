#include "pieces/card/measure_face.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "pieces/card/edge_colour.h"
#include "pieces/card/inspect_leaves.h"

namespace quoin::pieces {
namespace {

constexpr Mm narrowest_border{0.3}, widest_border{12}, told_apart{0.25};

/// Inside distances from the trim to a rectangle, negative outside.
Insets inside(Rect ink, Rect trim) {
  return {ink.top() - trim.top(), trim.right() - ink.right(), trim.bottom() - ink.bottom(),
          ink.left() - trim.left()};
}

Mm nearest(const Insets& in) {
  return std::min(std::min(in.top, in.bottom), std::min(in.left, in.right));
}

void keep(const Leaf& leaf, Mm distance, const Face& face, FaceMeasure& measure) {
  const Mm kept = std::max(distance, Mm{0});
  if (kept >= measure.kept) return;
  measure.kept = kept;
  measure.kept_element = leaf.element();
  measure.kept_origin = leaf.origin(face.row);
}

/// Words and emblems that lie on the card; what runs off it is meant to be cut.
void measure_kept(const Leaf& leaf, const Face& face, Rect trim, FaceMeasure& measure) {
  if (leaf.role == Role::decoration) return;
  if (leaf.text() != nullptr) {
    for (const Quad& quad : line_quads(leaf)) {
      for (const Point corner : quad)
        keep(leaf, nearest(inside({corner, {}}, trim)), face, measure);
    }
  } else if (leaf.role == Role::emblem) {
    if (const auto ink = visible_ink(leaf)) keep(leaf, nearest(inside(*ink, trim)), face, measure);
  }
}

bool is_drawn(const Paint& paint) { return !std::holds_alternative<NoPaint>(paint); }

/// The outer edge of a frame or a panel, in the trim's frame, and where its own colour is seen.
struct Edge {
  Rect outer;
  Mm inwards;  ///< from the outer edge to the middle of its colour
};

std::optional<Edge> edge_of(const Leaf& leaf) {
  if (leaf.opacity < 0.1) return std::nullopt;
  const std::optional<Rect> ink = visible_ink(leaf);
  if (!ink) return std::nullopt;
  const ShapeItem* shape = leaf.shape();
  if (shape != nullptr && shape->stroke.width > Mm{0} && is_drawn(shape->stroke.paint)) {
    return Edge{*ink, shape->stroke.width * smallest_scale(leaf.map) / 2};
  }
  const bool is_panel = leaf.picture() != nullptr || (shape != nullptr && is_drawn(shape->fill));
  if (!is_panel) return std::nullopt;
  return Edge{*ink, Mm{0.75}};
}

/// Reads pixels of the look at places of the trim's frame.
class Pixels {
 public:
  explicit Pixels(const FaceLook& look) : look_(look) {}
  [[nodiscard]] std::uint32_t at(Point place) const {
    const auto pixel = [&](Mm along, int count) {
      const double n = (along + look_.bleed).value * look_pixels_per_mm;
      return std::clamp(static_cast<int>(std::floor(n)), 0, count - 1);
    };
    const int x = pixel(place.x, look_.picture.width), y = pixel(place.y, look_.picture.height);
    return look_.picture.pixels[static_cast<std::size_t>(y) * look_.picture.width + x];
  }

 private:
  const FaceLook& look_;
};

bool differ(std::uint32_t a, std::uint32_t b) {
  constexpr int seen = 16;  // of 255 in one part: about the least that is seen across an edge
  for (int shift = 0; shift < 24; shift += 8) {
    if (std::abs(static_cast<int>((a >> shift) & 255) - static_cast<int>((b >> shift) & 255)) >
        seen) {
      return true;
    }
  }
  return false;
}

/// Whether the colour changes at the edge in most places along each side.
bool is_seen(const FaceLook& look, const Edge& edge, const Insets& in) {
  const Pixels pixels(look);
  const Rect r = edge.outer;
  const auto side = [&](Point from, Vec along, Vec inwards, Mm border) {
    int seen = 0;
    for (const double part : {0.3, 0.4, 0.5, 0.6, 0.7}) {
      const Point place = from + along * part;
      const std::uint32_t out = pixels.at(place - inwards * (border.value / 2));
      const std::uint32_t own = pixels.at(place + inwards * edge.inwards.value);
      seen += differ(out, own) ? 1 : 0;
    }
    return seen >= 3;
  };
  const Vec across{r.size.width, Mm{0}}, down{Mm{0}, r.size.height};
  const Vec right{Mm{1}, Mm{0}}, below{Mm{0}, Mm{1}};
  return side({r.left(), r.top()}, across, below, in.top) &&
         side({r.left(), r.bottom()}, across, below * -1, in.bottom) &&
         side({r.left(), r.top()}, down, right, in.left) &&
         side({r.right(), r.top()}, down, right * -1, in.right);
}

void measure_border(const Leaf& leaf, const Face& face, const FaceLook& look,
                    FaceMeasure& measure) {
  const std::optional<Edge> edge = edge_of(leaf);
  if (!edge) return;
  const Insets in = inside(edge->outer, {{}, look.trim});
  const Mm width = nearest(in);
  const bool is_even =
      abs(in.left - in.right) <= told_apart && abs(in.top - in.bottom) <= told_apart;
  const Mm widest = std::max(in.top, in.left);
  if (!is_even || width < narrowest_border || widest > widest_border) return;
  if (measure.border && measure.border->width <= width) return;
  if (!is_seen(look, *edge, in)) return;
  measure.border = Border{width, leaf.element(), leaf.origin(face.row)};
}

}  // namespace

std::array<double, 4> ink_on(const Raster& picture) {
  std::array<double, 4> sum{};
  for (const std::uint32_t pixel : picture.pixels) {
    const std::array<std::uint32_t, 3> ink{255 - ((pixel >> 16) & 255), 255 - ((pixel >> 8) & 255),
                                           255 - (pixel & 255)};
    const std::uint32_t grey = std::min({ink[0], ink[1], ink[2]});
    for (std::size_t i = 0; i < 3; ++i) sum[i] += ink[i] - grey;
    sum[3] += grey;
  }
  for (double& plate : sum) {
    plate /= 255.0 * static_cast<double>(std::max<std::size_t>(picture.pixels.size(), 1));
  }
  return sum;
}

FaceMeasure measure_face(const Face& face, const FaceLook& look) {
  FaceMeasure measure;
  const std::vector<Leaf> leaves = leaves_of(face.scene);
  for (const Leaf& leaf : leaves) measure_kept(leaf, face, {{}, look.trim}, measure);
  if (!look.picture.pixels.empty()) {
    for (const Leaf& leaf : leaves) measure_border(leaf, face, look, measure);
  }
  measure.is_paper_at_edge = edges_alike(edge_colour(look), 0xFFFFFF);
  measure.ink = ink_on(look.picture);
  return measure;
}

}  // namespace quoin::pieces
