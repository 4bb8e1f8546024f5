#include "pieces/box/box_view.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "fold/convex.h"
#include "pieces/box/depth_fixture.h"
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

}  // namespace
}  // namespace quoin::pieces
