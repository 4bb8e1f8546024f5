// Straightening and cutting out against what has no part in them: a library of linear algebra, and
// pictures composited here by the published equation.
#include <gtest/gtest.h>

#include <eigen3/Eigen/Dense>
#include <random>

#include "known_pictures.h"
#include "trace/fidelity.h"
#include "trace/photo/cut_out.h"
#include "trace/photo/photo_testing.h"
#include "trace/photo/quad.h"

namespace quoin::outside {
namespace {

// Source: the direct linear transformation (R. Hartley, A. Zisserman, "Multiple View Geometry in
// Computer Vision", 2nd edition, algorithm 4.1), its null vector by the singular values of
// Eigen 3.4.
TEST(AgainstEigen, homographies_are_those_of_the_direct_linear_transformation) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> jitter(-30, 30);
  const trace::Corners unit{trace::Spot{0, 0}, {1, 0}, {1, 1}, {0, 1}};
  for (int trial = 0; trial < 50; ++trial) {
    trace::Corners to{trace::Spot{100, 80}, {420, 90}, {400, 520}, {90, 500}};
    for (trace::Spot& p : to) p = p + trace::Spot{jitter(random), jitter(random)};
    Eigen::Matrix<double, 8, 9> rows;
    for (int i = 0; i < 4; ++i) {
      const trace::Spot a = unit[std::size_t(i)], b = to[std::size_t(i)];
      rows.row(2 * i) << 0, 0, 0, -a.x, -a.y, -1, b.y * a.x, b.y * a.y, b.y;
      rows.row(2 * i + 1) << a.x, a.y, 1, 0, 0, 0, -b.x * a.x, -b.x * a.y, -b.x;
    }
    const Eigen::JacobiSVD<Eigen::Matrix<double, 8, 9>> svd(rows, Eigen::ComputeFullV);
    const Eigen::Matrix<double, 9, 1> theirs = svd.matrixV().col(8) / svd.matrixV()(8, 8);
    const trace::Homography ours = trace::from_unit_square(to);
    for (int k = 0; k < 9; ++k) EXPECT_NEAR(ours.m[std::size_t(k)], theirs(k), 1e-7 * 500);
  }
}

// Source: a rectangle seen by a pinhole camera, drawn by the tests' own camera, whose focal length
// and turn are not told: the proportion of its sides must come out.
TEST(Pose, knows_the_proportion_of_a_rectangle_from_its_picture) {
  for (unsigned seed = 1; seed < 40; ++seed) {
    trace::photo::Chance chance(seed);
    trace::PhotoWishes wishes;
    wishes.turn = 180;
    const trace::CardShape shape;
    const trace::photo::Camera camera(chance, wishes, shape);
    trace::Corners corners;
    for (int k = 0; k < 4; ++k) corners[std::size_t(k)] = camera.corner(k);
    const trace::Lens lens{camera.middle(), 800, 0};
    EXPECT_LT(trace::pose_of(corners, 63.0 / 88, lens).misfit, 0.6) << seed;
    EXPECT_GT(trace::pose_of(corners, 0.8, lens).misfit, 2) << seed;
  }
}

struct Recovered {
  double alpha = 0, colour = 0;  // mean errors, 0..255
};

// Source: T. Porter, T. Duff, "Compositing Digital Images", Computer Graphics 18(3), 1984: a
// picture laid over another is c = aF + (1 - a)G. Icons: as in the checks of the tracer.
Recovered recovered(const Raster& truth, std::uint32_t ground) {
  const auto cut = trace::cut_out(trials::laid_on(truth, ground), {}, "it", {});
  EXPECT_TRUE(cut.ok());
  Recovered error;
  double weight = 0;
  for (std::size_t i = 0; i < truth.pixels.size(); ++i) {
    const std::uint32_t a = truth.pixels[i], b = cut->picture.pixels[i];
    error.alpha += std::abs(double(a >> 24) - double(b >> 24));
    // Of the pixels along edges: how far the colour is off once both lie on black.
    if (a >> 24 == 0 || a >> 24 == 255) continue;
    for (const int shift : {0, 8, 16}) {
      error.colour += std::abs(double(a >> shift & 255) - double(b >> shift & 255)) / 3;
    }
    weight += 1;
  }
  error.alpha /= double(truth.pixels.size());
  error.colour /= std::max(weight, 1.0);
  return error;
}

TEST(CutOutAgainstCompositing, recovers_icons_from_three_grounds) {
  std::vector<Raster> icons;
  for (const trials::KnownPicture& icon : trials::icons(QUOIN_NODE_PACKAGES, trials::Half::tuned)) {
    if (icons.size() == 5) break;
    // A rim of ground round each.
    Raster framed{160, 160, std::vector<std::uint32_t>(160 * 160, 0)};
    const auto drawn = trace::drawn(icon.svg, 128, 128);
    ASSERT_TRUE(drawn);
    for (int y = 0; y < 128; ++y) {
      for (int x = 0; x < 128; ++x) {
        framed.pixels[std::size_t((y + 16) * 160 + x + 16)] =
            drawn->pixels[std::size_t(y * 128 + x)];
      }
    }
    icons.push_back(framed);
  }
  // Greens, violets and greys that the icons have little of: where a thing has the ground's own
  // colour nobody can say where it ends.
  for (const std::uint32_t ground : {0x3FD07AU, 0x7A3FD0U, 0x5A6470U}) {
    Recovered mean;
    for (const Raster& icon : icons) {
      const Recovered one = recovered(icon, ground);
      mean.alpha += one.alpha / double(icons.size());
      mean.colour += one.colour / double(icons.size());
    }
    EXPECT_LE(mean.alpha, 1.5) << std::hex << ground;
    EXPECT_LE(mean.colour, 16) << std::hex << ground;
    RecordProperty("alpha", std::to_string(mean.alpha));
    RecordProperty("colour", std::to_string(mean.colour));
  }
}

}  // namespace
}  // namespace quoin::outside
