#pragma once
#include <optional>
#include <string>
#include <vector>

#include "fold/fold.h"
#include "game/rules_wishes.h"
#include "geometry/geometry.h"

namespace quoin::rules {

/// Where a page is printed: on which leaf, on which side, which way up. Leaves are the pieces of
/// paper of one copy of the rules, outermost first.
struct PagePlace {
  int leaf = 0;
  enum class Side { front, back } side = Side::front;
  /// In the frame of that side, as it is seen: top left corner of the leaf at (0, 0). The back is
  /// seen with the leaf turned over about an upright line.
  Rect at;
  enum class Way { upright, upside_down } way = Way::upright;
  int panel = 0;  ///< of the leaf's net in the model
  /// How far what is printed is moved across the page so that it stands in its middle once the
  /// fore edge is cut: away from the fold where positive. Only in a booklet.
  Mm creep;
};

/// A line to fold along, on the front of every leaf.
struct FoldLine {
  Point from, to;
  enum class Way { away, towards_reader } way = Way::away;
};

/// A way to fold the rules: flat, with its pages in reading order, and folding. Millimetres; a
/// leaf's front has its top left corner at (0, 0).
struct Form {
  game::RulesForm kind = game::RulesForm::flat;
  int panels = 1;  ///< side by side on a leaf
  int leaves = 1;
  enum class Sides { one, both } sides = Sides::both;
  Size page, leaf;
  std::vector<PagePlace> pages;
  std::vector<FoldLine> folds;
  std::optional<fold::Slit> slit;  ///< on the front, along the fold in the middle
  int layers = 1;                  ///< of paper when it is folded
  Size folded;                     ///< page and what inner leaves stick out
  Mm thickness;                    ///< folded
  fold::Model model;               ///< a part for each leaf; a panel for each page of a front

  [[nodiscard]] int page_count() const { return static_cast<int>(pages.size()); }
  /// Folds made by hand in one copy.
  [[nodiscard]] int fold_count() const { return static_cast<int>(folds.size()) * leaves; }
};

/// Thickness of folded rules: layers x caliper, and 0.1 mm for each fold that lies over another,
/// since a fold made by hand does not press quite flat (a choice of ours, no source).
[[nodiscard]] Mm folded_thickness(int layers, int folds, Mm caliper);

/// How far each leaf of a booklet sticks out of the one round it: pi/2 x caliper.
///
/// Derived: leaf i, counted from the innermost, runs round the spine on a half circle of radius
/// (i + 1/2) t about the fold, so pi (i + 1/2) t of its width goes into the bend, and each of its
/// halves is pi/2 t shorter than that of the leaf within it. Holds while the leaves lie close.
[[nodiscard]] Mm creep_of(Mm caliper);

/// The forms. `page` is the size of one page, `caliper` the thickness of the paper.
[[nodiscard]] Form flat_form(Size page, Mm caliper, Form::Sides sides);
/// Folded once: 4 pages.
[[nodiscard]] Form half_form(Size page, Mm caliper);
/// Folded to and fro: `panels` pages on the front from left to right, then as many on the back.
[[nodiscard]] Form accordion_form(int panels, Size page, Mm caliper, Form::Sides sides);
/// Two rows of four, printed on one side, slit between the middle four: 8 pages.
[[nodiscard]] Form eight_pages_form(Size page, Mm caliper);
/// Leaves folded once, in each other, stitched in the fold: 4 pages a leaf.
[[nodiscard]] Form booklet_form(int leaves, Size page, Mm caliper);

/// "an accordion of 4 panels", "a booklet of 2 leaves".
[[nodiscard]] std::string form_words(const Form& form);

}  // namespace quoin::rules
