#include <gtest/gtest.h>

#include "sheets/mark_lines.h"
#include "sheets/printable.h"
#include "sheets/slug.h"

namespace quoin::sheets {
namespace {

using game::BackPrinting;
using game::FlipEdge;
using game::SheetWishes;

Plan plan_of(Size trim, int count, const SheetWishes& wishes) {
  std::vector<Copy> copies;
  for (int i = 0; i < count; ++i) copies.push_back({i, 0, "", ""});
  Result<Plan> plan = lay(copies, {trim, Mm{3}, Mm{3}, false, "card", {}}, wishes);
  if (!plan) throw std::runtime_error(plan.why().front().message);
  return *std::move(plan);
}

Plan nine_on_a4(const SheetWishes& wishes = {}) {
  return plan_of({Mm{63.5}, Mm{88.9}}, 54, wishes);
}

const Slug tidewrack{"Tidewrack", "front 3 of 11", "uncoated card 250 g/m²", "print the backs"};

const Item* find(const Scene& scene, std::string_view element) {
  for (const Item& item : scene.items) {
    if (item.element == element) return &item;
  }
  return nullptr;
}

std::string text_of(const Item& item) {
  return std::get<TextItem>(item.what).block.runs.front().text;
}

/// Lines down the page at x, as pairs of the upper and the lower end.
std::vector<std::pair<double, double>> marks_at_x(const std::vector<MarkLine>& lines, double x) {
  std::vector<std::pair<double, double>> found;
  for (const MarkLine& line : lines) {
    const bool is_here = std::abs(line.from.x.value - x) < 1e-9 && line.from.x == line.to.x;
    if (is_here) found.emplace_back(line.from.y.value, line.to.y.value);
  }
  return found;
}

TEST(CropMarks, stand_at_both_ends_of_every_trim_line) {
  const std::vector<MarkLine> lines = crop_marks(page_frame(nine_on_a4(), Side::front));
  EXPECT_EQ(lines.size(), 2u * (4 + 4));
  for (const double x : {9.75, 73.25, 136.75, 200.25}) {
    const auto found = marks_at_x(lines, x);
    ASSERT_EQ(found.size(), 2u) << x;
    // Outside 3 mm of bleed, and a hair away from it.
    EXPECT_NEAR(found[0].second, 15.15 - 3 - 0.25, 1e-9);
    EXPECT_NEAR(found[1].first, 297 - 15.15 + 3 + 0.25, 1e-9);
  }
}

TEST(CropMarks, leave_a_row_for_the_slug_and_are_five_millimetres_at_most) {
  const Insets on_a4 = mark_lengths(page_frame(nine_on_a4(), Side::front));
  EXPECT_NEAR(on_a4.left.value, 1.5, 1e-9);               // 9.75 - 5 - 3 - 0.25
  EXPECT_NEAR(on_a4.top.value, 7.15 - 0.25 - 3.0, 1e-9);  // 15.15 - 5 - 3, less the row
  const Plan roomy = plan_of({Mm{40}, Mm{60}}, 1, {});
  EXPECT_EQ(mark_lengths(page_frame(roomy, Side::front)).bottom, Mm{5});
}

TEST(CropMarks, are_left_out_where_there_is_no_room) {
  SheetWishes wishes;
  wishes.paper = {Mm{215.9}, Mm{279.4}};
  wishes.grid = game::GridAsked{3, 3};
  const Insets lengths = mark_lengths(page_frame(nine_on_a4(wishes), Side::front));
  EXPECT_EQ(lengths.top, Mm{0});
  EXPECT_EQ(lengths.bottom, Mm{0});
  EXPECT_GT(lengths.left, Mm{1});
}

TEST(CropMarks, stand_in_gutters_that_leave_two_millimetres_between_the_bleeds) {
  SheetWishes wishes;
  wishes.spacing = game::Spacing::fixed;
  wishes.grid = game::GridAsked{2, 1};
  wishes.orientation = game::Orientation::portrait;
  wishes.gutter = Mm{7.9};
  EXPECT_EQ(crop_marks(page_frame(nine_on_a4(wishes), Side::front)).size(), 2u * (4 + 2));
  wishes.gutter = Mm{8};
  const std::vector<MarkLine> lines = crop_marks(page_frame(nine_on_a4(wishes), Side::front));
  ASSERT_EQ(lines.size(), 2u * (4 + 2) + 2);
  EXPECT_NEAR((lines.back().to.x - lines.back().from.x).value, 1, 1e-9);
  EXPECT_NEAR(lines.back().from.x.value, 104.5, 1e-9);
}

TEST(FoldMarks, stand_dashed_at_both_ends_of_the_fold) {
  SheetWishes wishes;
  wishes.backs = BackPrinting::fold;
  const Plan plan = nine_on_a4(wishes);
  const std::vector<MarkLine> lines = fold_marks(page_frame(plan, Side::front));
  ASSERT_EQ(lines.size(), 2u);
  const Mm fold = plan.sheets[0].front.placed[0].trim.top();
  EXPECT_NEAR((lines[0].from.y - fold).value, 0, 1e-9);
  const Scene scene = marks(plan, Side::front, tidewrack, house_family);
  const Item* item = find(scene, "fold-marks");
  ASSERT_NE(item, nullptr);
  EXPECT_FALSE(std::get<ShapeItem>(item->what).stroke.dash.empty());
}

TEST(RegisterTargets, lie_over_each_other_from_both_sides) {
  for (const FlipEdge flip : {FlipEdge::long_edge, FlipEdge::short_edge}) {
    SheetWishes wishes;
    wishes.flip = flip;
    wishes.dead_margin = {Mm{4}, Mm{5}, Mm{7}, Mm{5}};
    wishes.backs = BackPrinting::by_hand;
    const Plan plan = plan_of({Mm{56}, Mm{87}}, 54, wishes);
    const PageFrame front = page_frame(plan, Side::front), back = page_frame(plan, Side::back);
    const std::vector<Point> in_front = target_places(front, crop_marks(front));
    const std::vector<Point> behind_them = target_places(back, crop_marks(back));
    ASSERT_EQ(in_front.size(), 4u);
    ASSERT_EQ(behind_them.size(), 4u);
    const Affine over = behind(plan.grid.paper, flip);
    for (const Point p : in_front) {
      EXPECT_TRUE(std::any_of(behind_them.begin(), behind_them.end(),
                              [&](Point q) { return length(over(p) - q) < Mm{1e-9}; }));
    }
  }
}

TEST(RegisterTargets, are_drawn_only_where_there_are_two_sides) {
  SheetWishes wishes;
  EXPECT_NE(find(marks(nine_on_a4(wishes), Side::front, {}, house_family), "register-targets"),
            nullptr);
  wishes.backs = BackPrinting::none;
  const Plan plan = nine_on_a4(wishes);
  EXPECT_EQ(find(marks(plan, Side::front, {}, house_family), "register-targets"), nullptr);
  EXPECT_TRUE(marks(plan, Side::back, {}, house_family).items.empty());
}

TEST(MeasuringBar, is_a_hundred_millimetres_between_its_end_ticks) {
  const Scene scene = marks(nine_on_a4(), Side::front, tidewrack, house_family);
  const Item* bar = find(scene, "measuring-bar");
  ASSERT_NE(bar, nullptr);
  const Rect extent = bounds(std::get<ShapeItem>(bar->what).path);
  EXPECT_NEAR(extent.size.width.value, 100, 1e-9);
  EXPECT_EQ(bar->map.a, 1);  // not stretched
  const Item* words = find(scene, "measuring-words");
  ASSERT_NE(words, nullptr);
  EXPECT_EQ(text_of(*words),
            "100 mm - measure this. If it is shorter or longer, print again at 100 % (actual "
            "size).");
}

TEST(MeasuringBar, is_halved_on_small_paper) {
  const SlugRow row{{}, Mm{96}};
  const std::vector<Item> bar = measuring_bar(row, house_family);
  ASSERT_EQ(bar.size(), 2u);
  EXPECT_NEAR(bounds(std::get<ShapeItem>(bar[0].what).path).size.width.value, 50, 1e-9);
  EXPECT_EQ(text_of(bar[1]), "50 mm");
  EXPECT_TRUE(measuring_bar({{}, Mm{50}}, house_family).empty());
}

TEST(SlugLine, joins_what_is_known) {
  EXPECT_EQ(slug_text(tidewrack, Mm{190}),
            "Tidewrack · front 3 of 11 · uncoated card 250 g/m² · print the backs");
  EXPECT_EQ(slug_text({"Tide\nwrack", "front 1 of 1", "", ""}, Mm{190}),
            "Tide wrack · front 1 of 1");
}

TEST(SlugLine, is_cut_off_between_characters_when_it_cannot_fit) {
  Slug slug = tidewrack;
  slug.game = std::string();
  for (int i = 0; i < 300; ++i) slug.game += "ö";
  const std::string text = slug_text(slug, Mm{45});
  EXPECT_EQ(text.size(), 48 * std::string("ö").size() + std::string("…").size());
  EXPECT_EQ(text.substr(text.size() - 3), "…");
}

TEST(SlugLine, stands_upright_at_the_side_when_only_the_sides_have_room) {
  SheetWishes wishes;
  wishes.paper = {Mm{215.9}, Mm{279.4}};
  wishes.grid = game::GridAsked{3, 3};
  const Scene scene = marks(nine_on_a4(wishes), Side::front, tidewrack, house_family);
  const Item* slug = find(scene, "slug");
  ASSERT_NE(slug, nullptr);
  EXPECT_EQ(slug->map.b, -1);  // reads upwards
  EXPECT_LT(slug->map.e.value, 12.7 - 3);
}

TEST(Marks, are_hairlines_on_the_layer_of_marks_with_the_wishes_as_their_origin) {
  SheetWishes wishes;
  wishes.origin = {FileName("game.toml"), 9, 1, 8};
  const Scene scene = marks(nine_on_a4(wishes), Side::back, tidewrack, "Vollkorn");
  ASSERT_FALSE(scene.items.empty());
  for (const Item& item : scene.items) {
    EXPECT_EQ(item.layer, Layer::mark);
    EXPECT_EQ(item.origin, wishes.origin);
    if (const auto* shape = std::get_if<ShapeItem>(&item.what)) {
      EXPECT_EQ(shape->stroke.width, Mm{0.2});
    } else {
      EXPECT_EQ(std::get<TextItem>(item.what).block.style.family, "Vollkorn");
    }
  }
}

}  // namespace
}  // namespace quoin::sheets
