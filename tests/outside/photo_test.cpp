// Straightening and cutting out against what has no part in them: a library of linear algebra, and
// pictures composited here by the published equation.
#include <gtest/gtest.h>

#include <fmt/format.h>

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
  int explained = 0;
  for (unsigned seed = 1; seed < 40; ++seed) {
    trace::photo::Chance chance(seed);
    trace::PhotoWishes wishes;
    wishes.turn = 180;
    const trace::CardShape shape;
    const trace::photo::Camera camera(chance, wishes, shape);
    trace::Corners corners;
    for (int k = 0; k < 4; ++k) corners[std::size_t(k)] = camera.corner(k);
    const trace::Lens lens{camera.middle(), 800, 0};
    EXPECT_LT(trace::pose_of(corners, 63.0 / 88, lens).misfit, 0.15) << seed;
    explained += trace::pose_of(corners, 0.8, lens).misfit < 1 ? 1 : 0;
  }
  // Tilted just so, another focal length explains another proportion as well.
  EXPECT_LE(explained, 3);
}

struct Recovered {
  double alpha = 0, colour = 0;  // mean errors, 0..255
};

// Source: T. Porter, T. Duff, "Compositing Digital Images", Computer Graphics 18(3), 1984: a
// picture laid over another is c = aF + (1 - a)G. The drawings are opaque: of a
// shade or a veil nobody can say how much was there.
Recovered recovered(const Raster& truth, std::uint32_t ground, int jpeg_quality = 0) {
  trace::CutOutWishes wishes;
  wishes.enclosed = trace::EnclosedGround::cut_out;
  const Raster laid = trials::laid_on(truth, ground);
  const auto cut = trace::cut_out(
      jpeg_quality > 0 ? trials::through_jpeg(laid, jpeg_quality) : laid, wishes, "it", {});
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

TEST(CutOutAgainstCompositing, recovers_drawings_from_three_grounds) {
  std::vector<Raster> drawings;
  const std::string shapes[] = {
      "<path d='M20 70C20 20 80 10 100 45S108 110 62 112 20 98 20 70Z' fill='#c6402c' "
      "stroke='#161c22' stroke-width='3'/><circle cx='60' cy='60' r='16' fill='#f4e3c1'/>",
      "<path d='M64 8L78 48 120 50 87 76 99 117 64 93 29 117 41 76 8 50 50 48Z' fill='#20505a'/>",
      "<path d='M14 110C40 20 90 100 116 16' fill='none' stroke='#101418' stroke-width='4'/>"
      "<ellipse cx='84' cy='92' rx='26' ry='18' fill='#e08a1e'/>"};
  for (const std::string& shape : shapes) {
    const Bytes svg =
        "<svg xmlns='http://www.w3.org/2000/svg' width='128' height='128'>" + shape + "</svg>";
    // A rim of ground round each.
    Raster framed{160, 160, std::vector<std::uint32_t>(160 * 160, 0)};
    const auto drawn = trace::drawn(svg, 128, 128);
    ASSERT_TRUE(drawn);
    for (int y = 0; y < 128; ++y) {
      for (int x = 0; x < 128; ++x) {
        framed.pixels[std::size_t((y + 16) * 160 + x + 16)] =
            drawn->pixels[std::size_t(y * 128 + x)];
      }
    }
    drawings.push_back(framed);
  }
  // Colours that the drawings have little of: where a thing has the ground's own colour nobody can
  // say where it ends.
  for (const std::uint32_t ground : {0x3FD07AU, 0x7A3FD0U, 0xFFFFFFU}) {
    Recovered mean;
    double alpha_of_jpeg = 0;
    for (const Raster& drawing : drawings) {
      alpha_of_jpeg += recovered(drawing, ground, 85).alpha / double(drawings.size());
      const Recovered one = recovered(drawing, ground);
      mean.alpha += one.alpha / double(drawings.size());
      mean.colour += one.colour / double(drawings.size());
    }
    EXPECT_LE(mean.alpha, 0.1) << std::hex << ground;
    EXPECT_LE(mean.colour, 2) << std::hex << ground;
    EXPECT_LE(alpha_of_jpeg, 1.5) << std::hex << ground;
    fmt::print("{:06x}: alpha off by {:.2f}, colour by {:.2f}; from a JPEG alpha by {:.2f}\n",
               ground, mean.alpha, mean.colour, alpha_of_jpeg);
  }
}

}  // namespace
}  // namespace quoin::outside
