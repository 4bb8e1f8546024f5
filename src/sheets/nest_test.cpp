#include "sheets/nest.h"

#include <gtest/gtest.h>

#include <random>

namespace quoin::sheets {
namespace {

Polygon block(double left, double top, double right, double bottom) {
  return {
      {Mm{left}, Mm{top}}, {Mm{right}, Mm{top}}, {Mm{right}, Mm{bottom}}, {Mm{left}, Mm{bottom}}};
}

Footprint rectangle(double width, double height) { return {{block(0, 0, width, height), {}}}; }

/// An L of that size whose two arms are so wide.
Footprint angle_piece(double size, double arm) {
  return united({block(0, 0, arm, size), block(0, size - arm, size, size)});
}

double shared(const Footprint& a, const Footprint& b) {
  double sum = 0;
  for (const Region& one : a) {
    for (const Region& other : b) sum += area(common(one.outer, other.outer));
  }
  return sum;
}

/// Boost.Geometry says that no two pieces share an area; all lie in the space.
void expect_sound(const std::vector<Footprint>& pieces, const std::vector<Affine>& maps,
                  Rect space) {
  ASSERT_EQ(maps.size(), pieces.size());
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Footprint laid = mapped(pieces[i], maps[i]);
    EXPECT_TRUE(lies_in(bounds(laid), space)) << i;
    EXPECT_NEAR(area(laid), area(pieces[i]), 1e-6) << i;
    EXPECT_NEAR(maps[i].determinant(), 1, 1e-12) << i;
    for (std::size_t k = 0; k < i; ++k) {
      EXPECT_LT(shared(laid, mapped(pieces[k], maps[k])), 1e-9) << i << " and " << k;
    }
  }
}

constexpr Rect space{{10_mm, 20_mm}, {200_mm, 280_mm}};

TEST(Nest, lays_one_piece_upright_in_the_middle) {
  const std::vector<Footprint> pieces{rectangle(100, 60)};
  const auto maps = nest(pieces, space);
  ASSERT_TRUE(maps);
  EXPECT_EQ(bounds(mapped(pieces[0], maps->front())).centre(), space.centre());
  EXPECT_EQ(maps->front().a, 1);
}

TEST(Nest, turns_a_piece_that_goes_in_only_turned) {
  const std::vector<Footprint> pieces{rectangle(270, 150)};
  const auto maps = nest(pieces, space);
  ASSERT_TRUE(maps);
  EXPECT_EQ(maps->front().a, 0);
  expect_sound(pieces, *maps, space);
}

TEST(Nest, takes_a_piece_just_as_large_as_the_room) {
  EXPECT_TRUE(nest({rectangle(200, 280)}, space));
  EXPECT_FALSE(nest({rectangle(200.1, 280)}, space));
  EXPECT_FALSE(nest({rectangle(10, 10)}, {{}, {5_mm, 0_mm}}));
}

TEST(Nest, puts_angles_into_each_other_where_their_rectangles_would_not_go) {
  // Two rectangles of 150 mm need 300 mm; the space is 200 by 280.
  const std::vector<Footprint> pieces{angle_piece(150, 40), angle_piece(150, 40)};
  const auto maps = nest(pieces, space);
  ASSERT_TRUE(maps);
  expect_sound(pieces, *maps, space);
}

TEST(Nest, of_random_pieces_never_lays_two_in_one_place) {
  std::mt19937_64 chance(5);
  const auto size = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(chance() >> 11) * 0x1p-53;
  };
  int laid = 0;
  for (int i = 0; i < 25; ++i) {
    std::vector<Footprint> pieces;
    for (int k = 0; k < 4; ++k) {
      pieces.push_back(k % 2 ? rectangle(size(20, 110), size(20, 110))
                             : angle_piece(size(60, 140), size(10, 40)));
    }
    const auto maps = nest(pieces, space);
    if (!maps) continue;
    ++laid;
    expect_sound(pieces, *maps, space);
  }
  EXPECT_GT(laid, 10);
}

TEST(Nest, is_the_same_for_the_same_pieces) {
  const std::vector<Footprint> pieces{angle_piece(120, 30), rectangle(50, 70), rectangle(90, 20)};
  EXPECT_EQ(nest(pieces, space), nest(pieces, space));
}

}  // namespace
}  // namespace quoin::sheets
