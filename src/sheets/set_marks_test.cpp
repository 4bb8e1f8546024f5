#include <gtest/gtest.h>

#include "sheets/printable.h"
#include "sheets/sheets.h"

// The words on a sheet, set in the house face: what was estimated before setting must hold after.

namespace quoin::sheets {
namespace {

using game::SheetWishes;

Plan plan_of(Size trim, const SheetWishes& wishes) {
  std::vector<Copy> copies;
  for (int i = 0; i < 54; ++i) copies.push_back({i, 0, "", ""});
  Result<Plan> plan = lay(copies, {trim, Mm{3}, Mm{3}, false, "card", {}}, wishes);
  if (!plan) throw std::runtime_error(plan.why().front().message);
  return *std::move(plan);
}

SheetWishes on(Size paper) {
  SheetWishes wishes;
  wishes.paper = paper;
  return wishes;
}

constexpr Size poker{Mm{63.5}, Mm{88.9}};
constexpr Size a4{Mm{210}, Mm{297}}, a5{Mm{148}, Mm{210}}, letter{Mm{215.9}, Mm{279.4}};

Scene set_marks(const Plan& plan, const Slug& slug) {
  Scene scene = marks(plan, Side::front, slug, house_family);
  Typesetter typesetter({});
  typeset(scene, typesetter);
  return scene;
}

/// Ink of the words on the page; fails when there are none.
void expect_words_are_clear(const Plan& plan, const Scene& scene) {
  const Rect area = printable(plan.wishes, plan.grid.paper);
  int words = 0;
  for (const Item& item : scene.items) {
    if (!std::holds_alternative<TextItem>(item.what)) continue;
    ++words;
    const TextItem& text = std::get<TextItem>(item.what);
    const TextFacts& set = text.set.facts();
    EXPECT_TRUE(set.fits) << item.element;
    EXPECT_EQ(set.lines, 1) << item.element;
    EXPECT_TRUE(set.missing_glyphs.empty());
    EXPECT_FALSE(set.family_missing);
    const Rect unmoved{text.at + Vec{set.ink.at.x, set.ink.at.y}, set.ink.size};
    EXPECT_TRUE(lies_in(unmoved, bounds(*item.clip))) << item.element << " is cut by its row";
    const Rect on_page = bounds(item.map, unmoved);
    EXPECT_TRUE(lies_in(on_page, area)) << item.element;
    for (const Placed& p : plan.sheets[0].front.placed) {
      EXPECT_FALSE(overlap(on_page, p.window)) << item.element;
    }
  }
  EXPECT_EQ(words, 2);
}

TEST(SetMarks, keep_their_words_in_their_rows) {
  const Slug slug{"Tidewrack", "front 3 of 11", "uncoated card 250 g/m²", "print the backs"};
  for (const Size paper : {a4, letter, a5}) {
    const Plan plan = plan_of(poker, on(paper));
    expect_words_are_clear(plan, set_marks(plan, slug));
  }
}

TEST(SetMarks, keep_their_words_in_upright_rows) {
  SheetWishes wishes = on(letter);
  wishes.grid = game::GridAsked{3, 3};
  const Plan plan = plan_of(poker, wishes);
  expect_words_are_clear(plan, set_marks(plan, {"Jägerpfad", "front 1 of 6", "", "qjpyg ÄÖÜ"}));
}

TEST(SetMarks, shrink_a_long_line_to_the_row) {
  Slug slug{"", "front 3 of 11", "uncoated card 250 g/m²", "print the backs"};
  while (slug.game.size() < 400) slug.game += "Tide and Wrack ";
  const Plan plan = plan_of(poker, on(a4));
  const Scene scene = set_marks(plan, slug);
  expect_words_are_clear(plan, scene);
}

TEST(SetMarks, are_six_points_high_where_there_is_room) {
  const Scene scene = set_marks(plan_of(poker, on(a4)), {"Tidewrack", "front 3 of 11", "", ""});
  for (const Item& item : scene.items) {
    if (item.element != "slug") continue;
    const Mm set = std::get<TextItem>(item.what).set.facts().type_size;
    EXPECT_NEAR(set.value, 6 * mm_per_inch / points_per_inch, 1e-9);
  }
}

}  // namespace
}  // namespace quoin::sheets
