#include <algorithm>

#include "guide/figures/figures.h"
#include "pack/mat_files.h"
#include "pack/mat_marks.h"

namespace quoin::guide {
namespace {

using sheets::Tile;
using sheets::Tiling;

constexpr Colour paper_edge_ink{0.45, 0.48, 0.52, 1};

Item mat_art(const pieces::Mat& mat, const Affine& map) {
  Item art;
  art.map = map;
  art.what = GroupItem{mat.scene.items};
  return art;
}

/// What a sheet prints, with its marks, in the frame of the mat.
Item printed_sheet(const pieces::Mat& mat, const Tiling& tiling, const Tile& tile) {
  const Rect art = grown(Rect{{}, mat.plan.size}, mat.plan.ink());
  Item printed = mat_art(mat, {});
  printed.clip = Path::rectangle(overlap(tile.printed, art).value_or(tile.printed));
  GroupItem sheet;
  const Rect paper = bounds(*inverse(tiling.to_page(tile)), Rect{{}, tiling.paper});
  sheet.items.push_back(shape(Path::rectangle(paper), white));
  sheet.items.push_back(std::move(printed));
  for (Item& mark : pack::tile_marks(tiling, tile)) sheet.items.push_back(std::move(mark));
  sheet.items.push_back(line(Path::rectangle(paper), paper_edge_ink, Mm{0.25}));
  Item item;
  item.what = std::move(sheet);
  return item;
}

/// A view of a part of the mat's frame.
Figure view(Rect part, std::vector<Item> items) {
  Figure figure;
  figure.size = part.size;
  Item all;
  all.map = Affine::move(Point{} - part.at);
  all.clip = Path::rectangle(part);
  all.what = GroupItem{std::move(items)};
  figure.scene.items.push_back(std::move(all));
  figure.scene.items.push_back(line(Path::rectangle({{}, part.size}), hairline, Mm{0.2}));
  figure.largest = 1.4;
  return figure;
}

/// The first sheet and the one that goes over it: its right-hand neighbour, or that below.
struct Pair {
  const Tile& lower;
  const Tile& upper;
  Rect part;  ///< of the mat's frame, round their seam
};
Pair first_pair(const Tiling& tiling) {
  constexpr Mm beside{26};
  const Tile& lower = tiling.tiles.front();
  if (tiling.columns > 1) {
    const Mm seam = tiling.seam_xs.front();
    const Mm top = std::max(lower.printed.top(), Mm{-8});
    return {lower, tiling.tiles[1], {{seam - beside, top}, {beside * 2, Mm{44}}}};
  }
  const Mm seam = tiling.seam_ys.front();
  const Mm left = std::max(lower.printed.left(), Mm{-8});
  return {lower,
          tiling.tiles[static_cast<std::size_t>(tiling.columns)],
          {{left, seam - Mm{22}}, {beside * 2, Mm{44}}}};
}

}  // namespace

Figure mat_whole(const Making& making, MatShows shows) {
  const pieces::Mat& mat = *making.mat.mat;
  Figure figure;
  constexpr Mm wide{150};
  const double scale = std::min(wide / mat.plan.size.width, Mm{120} / mat.plan.size.height);
  figure.size = {mat.plan.size.width * scale, mat.plan.size.height * scale};
  figure.largest = 1.2;
  const Rect whole{{}, figure.size};
  Item art = mat_art(mat, Affine::scale(scale, scale));
  art.clip = Path::rectangle(Rect{{}, mat.plan.size});
  figure.scene.items.push_back(std::move(art));
  if (shows == MatShows::sheets) {
    const Tiling& tiling = *making.mat.tiling;
    figure.scene.items.push_back(shape(Path::rectangle(whole), Colour{1, 1, 1, 0.45}));
    for (const Tile& tile : tiling.tiles) {
      const Rect shown = bounds(Affine::scale(scale, scale),
                                overlap(tile.shown, Rect{{}, tiling.whole}).value_or(tile.shown));
      figure.scene.items.push_back(line(Path::rectangle(shown), type_ink, Mm{0.25}));
      const Point middle = shown.centre();
      const Mm radius{4.2};
      const Rect disc{middle - Vec{radius, radius}, {radius * 2, radius * 2}};
      figure.scene.items.push_back(shape(Path::ellipse(disc), white));
      figure.scene.items.push_back(line(Path::ellipse(disc), accent, Mm{0.3}));
      figure.scene.items.push_back(label(tile.name, middle, radius * 2, accent));
    }
  }
  figure.scene.items.push_back(line(Path::rectangle(whole), paper_edge_ink, Mm{0.3}));
  return figure;
}

Figure mat_seam(const Making& making, MatSeam shows) {
  const pieces::Mat& mat = *making.mat.mat;
  const Tiling& tiling = *making.mat.tiling;
  const Pair pair = first_pair(tiling);
  Item lower = printed_sheet(mat, tiling, pair.lower);
  Item upper = printed_sheet(mat, tiling, pair.upper);
  if (shows == MatSeam::lower) return view(pair.part, {std::move(lower)});
  if (shows == MatSeam::upper) return view(pair.part, {std::move(upper)});
  Rect kept = bounds(*inverse(tiling.to_page(pair.upper)), Rect{{}, tiling.paper});
  if (pair.upper.column > 0) {
    kept = rect_between({pair.upper.shown.left(), kept.top()}, {kept.right(), kept.bottom()});
  }
  if (pair.upper.row > 0) {
    kept = rect_between({kept.left(), pair.upper.shown.top()}, {kept.right(), kept.bottom()});
  }
  upper.clip = Path::rectangle(kept);
  return view(pair.part, {std::move(lower), std::move(upper)});
}

Figure mat_hem(const Making& making) {
  const pieces::Mat& mat = *making.mat.mat;
  const Mm hem = mat.plan.hem, ink = mat.plan.ink();
  const Rect part{{-ink - Mm{4}, -ink - Mm{4}}, {ink + Mm{44}, ink + Mm{34}}};
  std::vector<Item> items;
  Item art = mat_art(mat, {});
  art.clip = Path::rectangle(grown(Rect{{}, mat.plan.size}, ink));
  items.push_back(std::move(art));
  items.push_back(line(Path::rectangle(grown(Rect{{}, mat.plan.size}, hem)), alarm, Mm{0.4}));
  if (hem > Mm{}) {
    items.push_back(line(Path::rectangle({{}, mat.plan.size}), accent, Mm{0.4}, {Mm{3}, Mm{1.5}}));
    Path way;
    way.move_to({-hem / 2, Mm{16}})
        .curve_to({-hem / 4, Mm{10}}, {hem / 4, Mm{10}}, {hem * 0.42, Mm{14}});
    for (Item& item : arrow(std::move(way), {hem / 2, Mm{16}}, {Mm{0.6}, Mm{0.8}}, accent)) {
      items.push_back(std::move(item));
    }
  }
  return view(part, std::move(items));
}

}  // namespace quoin::guide
