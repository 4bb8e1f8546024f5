#include "rules/folding.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <numbers>

namespace quoin::rules {
namespace {

constexpr Size small_page{Mm{62}, Mm{88}};
constexpr Mm thin{0.115};

/// What a reader of the folded rules finds: page after page, each the right way up.
void expect_read_in_order(const Form& form) {
  SCOPED_TRACE(form_words(form));
  std::vector<ReadPage> printed;
  for (const ReadPage& read : read_folded(form)) {
    if (read.page >= 0) printed.push_back(read);
  }
  ASSERT_EQ(printed.size(), form.pages.size());
  for (std::size_t i = 0; i < printed.size(); ++i) {
    EXPECT_EQ(printed[i].page, static_cast<int>(i)) << "at place " << i;
    EXPECT_GT(printed[i].upright, 0.95) << "page " << printed[i].page + 1;
  }
}

TEST(FoldedRules, are_read_in_order_when_folded_once) {
  expect_read_in_order(half_form(small_page, thin));
}

TEST(FoldedRules, are_read_in_order_as_a_booklet_of_any_number_of_leaves) {
  for (const int leaves : {2, 3, 5, 8, 12}) {
    expect_read_in_order(booklet_form(leaves, small_page, thin));
  }
}

TEST(FoldedRules, are_read_in_order_when_one_slit_sheet_is_folded_to_eight_pages) {
  expect_read_in_order(eight_pages_form(small_page, thin));
}

/// An accordion is read open: its front from left to right, then its back. Folded, page 1 lies in
/// front, every page is upright, and each panel has its own two pages on it.
TEST(FoldedRules, lie_to_and_fro_as_an_accordion) {
  for (const int panels : {3, 4, 5, 8}) {
    const Form form = accordion_form(panels, small_page, thin, Form::Sides::both);
    SCOPED_TRACE(form_words(form));
    const std::vector<ReadPage> read = read_folded(form);
    ASSERT_EQ(read.size(), 2U * static_cast<std::size_t>(panels));
    EXPECT_EQ(read.front().page, 0);
    for (int i = 0; i < panels; ++i) {
      const int front = i, back = 2 * panels - 1 - i;
      const bool faces_reader = i % 2 == 0;
      const auto at = static_cast<std::size_t>(2 * i);
      EXPECT_EQ(read[at].page, faces_reader ? front : back) << "panel " << i + 1;
      EXPECT_EQ(read[at + 1].page, faces_reader ? back : front) << "panel " << i + 1;
      EXPECT_GT(read[at].upright, 0.95);
      EXPECT_GT(read[at + 1].upright, 0.95);
    }
  }
}

/// Where a page is printed on its sheet is where its panel lies there: on the front as it is, on
/// the back at x what lies behind W - x of the front, W the width of the leaf.
TEST(FoldedRules, are_printed_on_the_panels_that_are_read) {
  for (const Form& form :
       {half_form(small_page, thin), accordion_form(4, small_page, thin, Form::Sides::both),
        accordion_form(5, small_page, thin, Form::Sides::one), eight_pages_form(small_page, thin),
        booklet_form(1, small_page, thin), booklet_form(4, small_page, thin)}) {
    ASSERT_FALSE(form.pages.empty());
    for (std::size_t i = 0; i < form.pages.size(); ++i) {
      SCOPED_TRACE(form_words(form) + ", page " + std::to_string(i + 1));
      const PagePlace& place = form.pages[i];
      const std::size_t part =
          form.kind == game::RulesForm::booklet ? static_cast<std::size_t>(place.leaf) : 0;
      const Rect panel =
          bounds(form.model.parts[part].net.panels[static_cast<std::size_t>(place.panel)].outline);
      const double left = place.side == PagePlace::Side::front
                              ? panel.left().value
                              : (form.leaf.width - panel.right()).value;
      EXPECT_NEAR(place.at.left().value, left, 1e-9);
      EXPECT_NEAR(place.at.top().value, panel.top().value, 1e-9);
      EXPECT_NEAR(place.at.size.width.value, panel.size.width.value, 1e-9);
    }
  }
}

/// The pages that can be seen together on one side of the open paper follow each other.
TEST(FoldedRules, of_an_accordion_follow_each_other_from_left_to_right) {
  const Form form = accordion_form(4, small_page, thin, Form::Sides::both);
  for (int i = 0; i < form.page_count(); ++i) {
    const PagePlace& place = form.pages[static_cast<std::size_t>(i)];
    EXPECT_EQ(place.side, i < 4 ? PagePlace::Side::front : PagePlace::Side::back);
    EXPECT_NEAR(place.at.left().value, small_page.width.value * (i % 4), 1e-9);
  }
}

/// The eighth panel is joined to the first by a fold that no hinge of the model makes: while the
/// paper is folded both must stay together there, or it would tear.
TEST(FoldedRules, of_one_slit_sheet_hang_together_while_they_are_folded) {
  const Form form = eight_pages_form(small_page, thin);
  const Mm right = form.leaf.width, left = right - small_page.width, fold = small_page.height;
  double steps = 0;
  for (double at = 0; at <= 3; at += 0.05) {
    const auto places = fold::pose(form.model, at)[0];
    for (const Mm x : {left, right}) {
      const fold::Vec3 first = places[0](fold::lifted({x, fold}));
      const fold::Vec3 last = places[7](fold::lifted({x, fold}));
      EXPECT_LT(length(first - last), 0.3) << "at " << at;
      ++steps;
    }
  }
  EXPECT_GT(steps, 100);
}

TEST(FoldedRules, have_sound_nets) {
  for (const Form& form :
       {half_form(small_page, thin), accordion_form(5, small_page, thin, Form::Sides::one),
        eight_pages_form(small_page, thin), booklet_form(3, small_page, thin)}) {
    for (const fold::Part& part : form.model.parts) {
      EXPECT_EQ(fold::faults_of(part.net), std::vector<std::string>{}) << form_words(form);
    }
  }
}

/// A test that the reader can fail: two pages changed, or one upside down.
TEST(FoldedRules, would_be_found_wrong) {
  Form form = eight_pages_form(small_page, thin);
  std::swap(form.pages[2], form.pages[5]);
  std::vector<int> order;
  for (const ReadPage& read : read_folded(form)) {
    if (read.page >= 0) order.push_back(read.page);
  }
  EXPECT_EQ(order, (std::vector<int>{0, 1, 5, 3, 4, 2, 6, 7}));
  form = half_form(small_page, thin);
  form.pages[3].way = PagePlace::Way::upside_down;
  EXPECT_LT(read_folded(form)[3].upright, -0.95);
}

TEST(FoldedThickness, is_layers_times_caliper_and_a_tenth_for_each_fold) {
  EXPECT_NEAR(half_form(small_page, Mm{0.1}).thickness.value, 0.3, 1e-9);
  EXPECT_NEAR(accordion_form(4, small_page, Mm{0.1}, Form::Sides::both).thickness.value, 0.7, 1e-9);
  EXPECT_NEAR(eight_pages_form(small_page, Mm{0.1}).thickness.value, 1.2, 1e-9);
  EXPECT_NEAR(booklet_form(3, small_page, Mm{0.1}).thickness.value, 0.9, 1e-9);
}

/// The arcs themselves, bent one after another round the innermost: half circles through the middle
/// of each leaf's thickness. What is left of each leaf reaches less far.
TEST(Creep, is_what_bending_leaf_round_leaf_takes_of_their_width) {
  const double t = 0.12, width = 124;
  const auto reach = [&](int from_inside) {
    const double bend = std::numbers::pi * (from_inside + 0.5) * t;
    return (width - bend) / 2;
  };
  EXPECT_NEAR(creep_of(Mm{t}).value, reach(0) - reach(1), 1e-12);
  EXPECT_NEAR(creep_of(Mm{t}).value * 4, reach(0) - reach(4), 1e-12);
  const Form form = booklet_form(5, {Mm{width / 2}, Mm{88}}, Mm{t});
  EXPECT_NEAR(form.folded.width.value, width / 2 + reach(0) - reach(4), 1e-12);
  // The print of the innermost leaf goes that far towards the fold.
  EXPECT_NEAR(form.pages[8].creep.value, -(reach(0) - reach(4)), 1e-12);
}

}  // namespace
}  // namespace quoin::rules
