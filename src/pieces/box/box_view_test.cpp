#include "pieces/box/box_view.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "fold/convex.h"
#include "pieces/box/depth_fixture.h"
#include "pieces/box/light.h"
#include "pieces/box/sample_box_fixture.h"

namespace quoin::pieces {
namespace {

/// What the painting in order shows at places of a picture.
class PaintedOrder {
 public:
  explicit PaintedOrder(const Stage& stage) {
    std::vector<fold::Facet> facets;
    for (int i = 0; i < std::ssize(stage.nets); ++i) {
      const StagedNet& net = stage.nets[i];
      for (const fold::Surface& each : fold::surfaces(net.net, net.places, fold::Creases::open)) {
        for (const auto& part : each.parts) {
          facets.push_back({static_cast<int>(faces_.size()), part, each.normal});
        }
        faces_.push_back({i, each.panel, each.side, 0});
      }
    }
    shown_ = fold::back_to_front(facets, stage.view);
  }

  [[nodiscard]] std::optional<DepthPicture::Hit> at(double x, double y) const {
    std::optional<DepthPicture::Hit> last;
    for (const fold::Shown& one : shown_) {
      for (const Polygon& piece : one.pieces) {
        if (holds(piece, x, y)) last = faces_[static_cast<std::size_t>(one.face)];
      }
    }
    return last;
  }

  [[nodiscard]] Rect round() const {
    Rect all = bounds(shown_.front().pieces.front());
    for (const fold::Shown& one : shown_) {
      for (const Polygon& piece : one.pieces) all = covering(all, bounds(piece));
    }
    return all;
  }

 private:
  static bool holds(const Polygon& piece, double x, double y) {
    for (std::size_t i = 0; i < piece.size(); ++i) {
      const Point a = piece[i], b = piece[(i + 1) % piece.size()];
      if ((b.x - a.x).value * (y - a.y.value) - (b.y - a.y).value * (x - a.x.value) < 0) {
        return false;
      }
    }
    return true;
  }

  std::vector<DepthPicture::Hit> faces_;
  std::vector<fold::Shown> shown_;
};

/// Samples at which the two do not agree, of all that show anything. A sample counts only when the
/// nearest surface is the same all round it: at rims the two may round differently.
struct Comparison {
  int looked_at = 0, differing = 0;
};

Comparison compared(const Stage& stage) {
  constexpr int samples = 40;
  constexpr double rim = 0.03, tie = 2e-3;
  const DepthPicture depths(stage);
  const PaintedOrder painted(stage);
  const Rect round = painted.round();
  Comparison all;
  for (int i = 0; i < samples * samples; ++i) {
    const double x = (round.left() + round.size.width * ((i % samples + 0.47) / samples)).value;
    const double y = (round.top() + round.size.height * ((i / samples + 0.53) / samples)).value;
    const std::vector<DepthPicture::Hit> hits = depths.nearest(x, y, tie);
    const std::optional<DepthPicture::Hit> shown = painted.at(x, y);
    if (hits.empty() && !shown) continue;
    ++all.looked_at;
    const auto agrees = [&](const std::vector<DepthPicture::Hit>& with) {
      if (!shown) return with.empty();
      return std::find(with.begin(), with.end(), *shown) != with.end();
    };
    if (agrees(hits)) continue;
    bool at_a_rim = false;
    for (const auto& [dx, dy] : {std::pair{-rim, 0.0}, {rim, 0.0}, {0.0, -rim}, {0.0, rim}}) {
      at_a_rim = at_a_rim || agrees(depths.nearest(x + dx, y + dy, tie));
    }
    if (!at_a_rim) ++all.differing;
  }
  return all;
}

/// A box of a random kind and size at a random moment, from a random side.
Stage random_stage(std::mt19937& random) {
  const auto between = [&](double least, double most) {
    return std::uniform_real_distribution<double>(least, most)(random);
  };
  const std::vector<BoxKind>& kinds = box_kinds();
  const BoxKind& kind = kinds[random() % kinds.size()];
  const Box box = sample_box(kind.word, static_cast<int>(between(8, 150)),
                             {Mm{between(30, 90)}, Mm{between(40, 130)}});
  Stage stage = closed_stage(box);
  const double progress = between(0, static_cast<double>(box.model.steps.size()));
  const auto places = fold::pose(box.model, progress);
  for (std::size_t i = 0; i < stage.nets.size(); ++i) stage.nets[i].places = places[i];
  stage.view = fold::view_from(Angle{between(-3.1, 3.1)}, Angle{between(-1.5, 1.5)});
  return stage;
}

TEST(BoxView, hides_just_what_a_depth_buffer_hides_at_any_moment_and_from_any_side) {
  std::mt19937 random(7);
  int looked_at = 0;
  for (int k = 0; k < 24; ++k) {
    const Comparison all = compared(random_stage(random));
    EXPECT_EQ(all.differing, 0) << "picture " << k << ", of " << all.looked_at;
    looked_at += all.looked_at;
  }
  EXPECT_GT(looked_at, 24 * 200);
}

TEST(BoxView, hides_just_what_a_depth_buffer_hides_on_every_stage) {
  for (const BoxKind& kind : box_kinds()) {
    const Box box = sample_box(kind.word, 72, {Mm{63}, Mm{88}});
    EXPECT_EQ(compared(closed_stage(box)).differing, 0) << kind.word;
    EXPECT_EQ(compared(open_stage(box)).differing, 0) << kind.word;
    for (int step = 0; step < std::ssize(box.model.steps); ++step) {
      EXPECT_EQ(compared(step_stage(box, step)).differing, 0) << kind.word << " step " << step;
    }
  }
}

/// The distance between two places of a panel, folded and on the net.
void expect_kept(const StagedNet& net, const std::string& what) {
  for (std::size_t i = 0; i < net.places.size(); ++i) {
    const Polygon& outline = net.net.panels[i].outline;
    for (std::size_t a = 0; a < outline.size(); ++a) {
      for (std::size_t b = a + 1; b < outline.size(); ++b) {
        const double folded = fold::length(net.places[i](fold::lifted(outline[a])) -
                                           net.places[i](fold::lifted(outline[b])));
        ASSERT_NEAR(folded, length(outline[a] - outline[b]).value, 1e-9) << what;
      }
    }
  }
}

TEST(Folding, keeps_every_distance_within_a_panel_to_a_billionth_of_a_millimetre) {
  for (const BoxKind& kind : box_kinds()) {
    const Box box = sample_box(kind.word, 72, {Mm{63}, Mm{88}});
    Stage stage = closed_stage(box);
    const auto steps = static_cast<double>(box.model.steps.size());
    for (double progress = 0; progress <= steps; progress += 0.37) {
      const auto places = fold::pose(box.model, progress);
      for (std::size_t i = 0; i < stage.nets.size(); ++i) {
        stage.nets[i].places = places[i];
        expect_kept(stage.nets[i], std::string(kind.word));
      }
    }
  }
}

TEST(Folding, keeps_distances_along_a_crease_between_both_its_panels) {
  for (const BoxKind& kind : box_kinds()) {
    for (const StagedNet& net : open_stage(sample_box(kind.word, 72, {Mm{63}, Mm{88}})).nets) {
      for (const fold::Hinge& hinge : net.net.hinges) {
        for (const Point end : {hinge.from, hinge.to}) {
          const auto at = [&](int panel) { return net.places.at(panel)(fold::lifted(end)); };
          EXPECT_LT(fold::length(at(hinge.parent) - at(hinge.child)), 1e-9) << kind.word;
        }
      }
    }
  }
}

/// The box of a plain deck with one mark printed on its front: a square of 10 mm.
struct Marked {
  Box box = sample_box("tuck", 72, {Mm{63}, Mm{88}});
  std::vector<NetArt> art{1};

  Marked() {
    art[0].printed.items.push_back(
        filled(Path::rectangle({{Mm{20}, Mm{30}}, {Mm{10}, Mm{10}}}), Colour{0.9, 0.2, 0.1, 1}));
  }
};

/// The item with the mark's colour, and the map under which it is drawn.
const Item* find_mark(const std::vector<Item>& items, Affine& map) {
  for (const Item& item : items) {
    const Affine own = then(item.map, map);
    if (const auto* group = std::get_if<GroupItem>(&item.what)) {
      Affine inner = own;
      if (const Item* found = find_mark(group->items, inner)) {
        map = inner;
        return found;
      }
    } else if (const auto* shape = std::get_if<ShapeItem>(&item.what)) {
      const auto* colour = std::get_if<Colour>(&shape->fill);
      if (colour != nullptr && colour->red == 0.9 && colour->green == 0.2) {
        map = own;
        return &item;
      }
    }
  }
  return nullptr;
}

TEST(BoxView, shows_the_front_as_large_as_the_angles_of_the_view_say) {
  const Marked marked;
  const BoxPicture picture = drawn(closed_stage(marked.box), {marked.box, marked.art, nullptr, {}});
  Affine map;
  ASSERT_NE(find_mark(picture.scene.items, map), nullptr);
  // Seen 30 degrees from the right and 17 from above: a millimetre across is cos 30 to the right
  // and sin 30 sin 17 down, one down the front is cos 17 down.
  const double right = Angle::degrees(30).radians, above = Angle::degrees(17).radians;
  EXPECT_NEAR(map(Vec{Mm{1}, Mm{0}}).x.value, std::cos(right), 1e-12);
  EXPECT_NEAR(map(Vec{Mm{1}, Mm{0}}).y.value, std::sin(right) * std::sin(above), 1e-12);
  EXPECT_NEAR(map(Vec{Mm{0}, Mm{1}}).x.value, 0, 1e-12);
  EXPECT_NEAR(map(Vec{Mm{0}, Mm{1}}).y.value, std::cos(above), 1e-12);
}

/// Square millimetres of a path of convex parts.
double covered_area(const Path& path) {
  double all = 0;
  Polygon part;
  for (const Path::Step& step : path.steps()) {
    if (step.verb == Path::Verb::move) part.clear();
    if (step.verb == Path::Verb::close) {
      all += area(part);
    } else {
      part.push_back(step.p[0]);
    }
  }
  return all;
}

TEST(BoxView, paints_the_front_of_a_closed_box_at_one_go_and_all_of_it) {
  const Marked marked;
  NetArt all = marked.art[0];
  all.printed.items.front() =
      filled(Path::rectangle({{Mm{-99}, Mm{-99}}, {Mm{900}, Mm{900}}}), Colour{0.1, 0.4, 0.5, 1});
  const BoxPicture picture = drawn(closed_stage(marked.box), {marked.box, {all}, nullptr, {}});
  std::vector<double> areas;
  for (const Item& item : picture.scene.items) {
    if (item.clip) areas.push_back(covered_area(*item.clip));
  }
  std::sort(areas.rbegin(), areas.rend());
  // A face as it is seen: its area times the cosine of its angle to the view.
  const double seen = std::cos(Angle::degrees(30).radians) * std::cos(Angle::degrees(17).radians);
  const Polygon& front = marked.box.model.parts[0].net.panels[0].outline;
  // Its convex pieces reach under each other, which counts that much twice.
  EXPECT_GE(areas.at(0), area(front) * seen);
  EXPECT_LE(areas.at(0), area(front) * seen * 1.05);
  EXPECT_LT(areas.at(1), areas.at(0) / 2);
}

TEST(BoxView, keeps_the_inside_of_the_art_the_right_way_round) {
  // What stands at x of the net is drawn at -x on the inside.
  Marked marked;
  marked.art[0].inside.items.push_back(
      filled(Path::rectangle({{Mm{-30}, Mm{30}}, {Mm{10}, Mm{10}}}), Colour{0.9, 0.2, 0.3, 1}));
  marked.art[0].printed.items.clear();
  Stage stage = step_stage(marked.box, 0);  // lies with its inside up
  const BoxPicture picture = drawn(stage, {marked.box, marked.art, nullptr, {}});
  Affine map;
  ASSERT_NE(find_mark(picture.scene.items, map), nullptr);
  const fold::Rigid& front = stage.nets[0].places[0];
  const double half = stage.nets[0].net.thickness.value / 2;
  const Point expected = fold::seen(stage.view, front(fold::lifted({Mm{20}, Mm{40}}, half)));
  const Point found = map(Point{Mm{-20}, Mm{40}});
  EXPECT_NEAR(found.x.value, expected.x.value, 1e-9);
  EXPECT_NEAR(found.y.value, expected.y.value, 1e-9);
}

TEST(BoxView, draws_boxes_for_any_deck) {
  for (const BoxKind& kind : box_kinds()) {
    for (const auto& [cards, card] :
         {std::pair{9, Size{Mm{32}, Mm{45}}}, {300, Size{Mm{70}, Mm{120}}}}) {
      const Box box = sample_box(kind.word, cards, card);
      const BoxLook look{box, {}, nullptr, Mm{3}};
      for (const BoxPicture& picture :
           {drawn(closed_stage(box), look), drawn(open_stage(box), look), flat_nets(look)}) {
        EXPECT_GT(picture.bounds.size.width, card.width / 2) << kind.word;
        EXPECT_LT(picture.bounds.size.width, card.height * 12) << kind.word;
      }
    }
  }
}

}  // namespace
}  // namespace quoin::pieces
