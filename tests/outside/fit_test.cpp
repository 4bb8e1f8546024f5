// The fits of the printer's measuring against Eigen 3.4, a library of linear algebra, and OpenCV.
#include "press/fit.h"

#include <gtest/gtest.h>

#include <eigen3/Eigen/Dense>
#include <filesystem>
#include <random>
#include <sstream>

#include "programs.h"

namespace quoin::press {
namespace {

std::vector<Pair> random_pairs(std::mt19937& random) {
  std::uniform_real_distribution<double> place(0, 297);
  std::normal_distribution<double> off(0, 0.2);
  std::vector<Pair> pairs;
  for (int i = 0; i < 12; ++i) {
    const Point meant{Mm{place(random)}, Mm{place(random)}};
    const Point found{meant.x * 1.002 + meant.y * 0.003 + Mm{0.8 + off(random)},
                      meant.y * 0.997 - meant.x * 0.002 + Mm{-0.5 + off(random)}};
    pairs.push_back({meant, found});
  }
  return pairs;
}

TEST(AgainstEigen, similarities_are_those_of_its_umeyama) {
  std::mt19937 random(5);
  for (int trial = 0; trial < 50; ++trial) {
    const std::vector<Pair> pairs = random_pairs(random);
    Eigen::Matrix2Xd meant(2, 12), found(2, 12);
    for (int i = 0; i < 12; ++i) {
      const Pair& pair = pairs[static_cast<std::size_t>(i)];
      meant.col(i) << pair.meant.x.value, pair.meant.y.value;
      found.col(i) << pair.found.x.value, pair.found.y.value;
    }
    for (const Scaling scaling : {Scaling::none, Scaling::free}) {
      const Eigen::Matrix3d theirs = Eigen::umeyama(meant, found, scaling == Scaling::free);
      const auto ours = fit_similarity(pairs, scaling);
      ASSERT_TRUE(ours);
      EXPECT_NEAR(ours->map.a, theirs(0, 0), 1e-12);
      EXPECT_NEAR(ours->map.c, theirs(0, 1), 1e-12);
      EXPECT_NEAR(ours->map.b, theirs(1, 0), 1e-12);
      EXPECT_NEAR(ours->map.e.value, theirs(0, 2), 1e-9);
      EXPECT_NEAR(ours->map.f.value, theirs(1, 2), 1e-9);
    }
  }
}

TEST(AgainstEigen, affine_maps_and_their_errors_are_those_of_least_squares_by_qr) {
  std::mt19937 random(6);
  for (int trial = 0; trial < 50; ++trial) {
    const std::vector<Pair> pairs = random_pairs(random);
    Eigen::MatrixX3d places(12, 3);
    Eigen::MatrixX2d found(12, 2);
    for (int i = 0; i < 12; ++i) {
      const Pair& pair = pairs[static_cast<std::size_t>(i)];
      places.row(i) << 1, pair.meant.x.value, pair.meant.y.value;
      found.row(i) << pair.found.x.value, pair.found.y.value;
    }
    const Eigen::Matrix<double, 3, 2> theirs = places.colPivHouseholderQr().solve(found);
    const auto ours = fit_affine(pairs, {Mm{100}});
    ASSERT_TRUE(ours);
    EXPECT_NEAR(ours->map.a, theirs(1, 0), 1e-10);
    EXPECT_NEAR(ours->map.c, theirs(2, 0), 1e-10);
    EXPECT_NEAR(ours->map.b, theirs(1, 1), 1e-10);
    EXPECT_NEAR(ours->map.d, theirs(2, 1), 1e-10);
    EXPECT_NEAR(ours->map.e.value, theirs(0, 0), 1e-8);
    const double squares = (found - places * theirs).squaredNorm();
    const double deviation = std::sqrt(squares / (24 - 6));
    EXPECT_NEAR(ours->deviation.value, deviation, 1e-10);
    const Eigen::Vector3d at(1, 15, 282);
    const Eigen::Matrix3d spread = (places.transpose() * places).inverse();
    EXPECT_NEAR(ours->error_at({15_mm, 282_mm}).value, deviation * std::sqrt(at.dot(spread * at)),
                1e-9);
  }
}

/// What OpenCV's estimateAffine2D makes of pairs.
struct OpenCvFit {
  Affine map;
  std::vector<bool> kept;
};

OpenCvFit by_opencv(const std::vector<Pair>& pairs, double reach) {
  if (!std::filesystem::exists(QUOIN_NODE_PACKAGES "/opencv-wasm")) {
    throw std::runtime_error("this check needs the npm packages that ./run test installs");
  }
  std::ostringstream lines;
  lines.precision(9);
  for (const Pair& pair : pairs) {
    lines << pair.meant.x.value << ' ' << pair.meant.y.value << ' ' << pair.found.x.value << ' '
          << pair.found.y.value << '\n';
  }
  const outside::Folder folder;
  const outside::Answer said = outside::run(
      {"node", QUOIN_SOURCE_DIR "/tests/outside/readers/opencv_affine.cjs", QUOIN_NODE_PACKAGES,
       folder.put("pairs.txt", lines.str()), std::to_string(reach)});
  std::istringstream words(said.words);
  OpenCvFit fit;
  words >> fit.map.a >> fit.map.c >> fit.map.e.value >> fit.map.b >> fit.map.d >> fit.map.f.value;
  for (int kept = 0; words >> kept;) fit.kept.push_back(kept != 0);
  if (said.exit_code != 0 || fit.kept.size() != pairs.size()) {
    throw std::runtime_error("OpenCV gave no fit: " + said.words);
  }
  return fit;
}

TEST(AgainstOpenCv, affine_maps_leave_out_the_same_pairs_and_are_the_same) {
  std::mt19937 random(8);
  std::uniform_real_distribution<double> place(0, 297);
  std::normal_distribution<double> off(0, 0.02);
  for (int trial = 0; trial < 6; ++trial) {
    std::vector<Pair> pairs;
    for (int i = 0; i < 24; ++i) {
      const Point meant{Mm{place(random)}, Mm{place(random)}};
      pairs.push_back({meant,
                       {meant.x * 1.004 - meant.y * 0.005 + Mm{1.1 + off(random)},
                        meant.y * 0.998 + meant.x * 0.006 + Mm{-0.7 + off(random)}}});
    }
    for (const std::size_t wrong : {std::size_t{3}, std::size_t{11}, std::size_t{20}}) {
      pairs[wrong].found = pairs[wrong].found + Vec{Mm{3 + place(random) / 100}, Mm{-2}};
    }
    const auto ours = fit_affine(pairs, {Mm{0.3}});
    const OpenCvFit theirs = by_opencv(pairs, 0.3);
    ASSERT_TRUE(ours);
    EXPECT_EQ(ours->kept, theirs.kept);
    EXPECT_EQ(ours->used, 21);
    // OpenCV takes places as single floats: 2e-5 mm at 297 mm.
    for (const Point corner : {Point{}, Point{297_mm, 0_mm}, Point{0_mm, 297_mm}}) {
      EXPECT_NEAR(length(ours->map(corner) - theirs.map(corner)).value, 0, 1e-4);
    }
  }
}

}  // namespace
}  // namespace quoin::press
