#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "pieces/box/stack.h"
#include "rules/form.h"
#include "rules/look.h"
#include "rules/manuscript.h"
#include "scene/scene.h"

namespace quoin::rules {

/// What the rules must go into and onto.
struct Rooms {
  /// Width and height of what lies loosely in the box; nothing without a box.
  std::optional<Size> box;
  Size paper;  ///< of the sheets, upright
  /// What a sheet has for the rules, upright and laid the other way: within the dead margins of
  /// both sides, above the foot.
  std::vector<Size> usable;
  /// The dead margins, for a page that is the whole sheet.
  Insets dead_margin;
  Form::Sides sides = Form::Sides::both;  ///< on which the printer of the game prints
};

/// How much less than the room in the box the folded rules are wide and high: cut and folded by
/// hand they come out up to half a millimetre larger (common practice, no source), and they have to
/// be taken out again.
inline constexpr Mm play_in_box{1.5};

/// The room in the game's box: the deck's face and the clearance; nothing without a box.
[[nodiscard]] std::optional<Size> room_in_box(const game::Game& game);

/// One way in which the rules could be folded, for whoever chooses.
struct Option {
  game::RulesForm kind = game::RulesForm::flat;
  int panels = 1, leaves = 1;
  int pages = 0;   ///< it has
  int needed = 0;  ///< the text needs at `type`
  Mm type;
  enum class Verdict {
    chosen,
    too_few_pages,
    more_work,
    larger_than_sheet
  } verdict = Verdict::more_work;
  std::string words;  ///< "an accordion of 3 panels has 6 pages, and the text needs 7"
};

/// A page of the rules with nothing left open.
struct PageShape {
  Size page;
  Insets margins;
  int columns = 1;
  Mm gutter;
  enum class Folio { none, shown } folio = Folio::shown;

  /// The text of a page, its columns and what is between them.
  [[nodiscard]] Rect text() const;
  [[nodiscard]] Mm column_width() const;
};

/// The rules of a game, set on their pages and folded.
struct Leaflet {
  Form form;
  PageShape shape;
  Mm type;                   ///< size of the text
  Mm caliper;                ///< of the paper
  bool whole_sheet = false;  ///< its page is a whole sheet of the paper: nothing is cut
  /// In reading order, each in the frame of its trim; texts set. At least as many as `form` has;
  /// more when the text does not go on it (`rules.too-long`).
  std::vector<Scene> pages;
  int filled = 0;  ///< pages that have words
  int words = 0;
  std::vector<CountUse> counts;
  std::vector<Option> options;
  std::vector<std::string> choices;  ///< one line each: form, type size, and why
};

/// The rules of the game, set and folded; nothing when it has none or they cannot be read.
///
/// Where the maker does not choose the form it is the first of flat, half, accordion of 3, 4 …
/// panels, eight pages, booklet of 2, 3 … leaves that goes on one sheet of the paper (a booklet: on
/// the fewest), has the box's size when folded, and has enough pages for the text at a good size:
/// `type`, or 8 pt. The type then grows by up to 1.5 pt while the text stays on those pages. Only
/// when no form is enough the text is set smaller, down to `minimum`, with `rules.small-type`.
/// With a form of the maker's own the type shrinks first. `docs/decisions/rules-leaflet.md` says
/// why.
///
/// Finds what `read_manuscript` and `slabs_of` find, and `rules.too-long`, `rules.small-type`,
/// `rules.larger-than-sheet`, `rules.larger-than-box`, `rules.one-side`.
[[nodiscard]] Checked<std::optional<Leaflet>> make_leaflet(const pieces::Studio& studio,
                                                           Typesetter& typesetter,
                                                           const Rooms& rooms,
                                                           const std::vector<std::string>& credits);

/// The thickness of the rules' paper.
[[nodiscard]] Mm rules_caliper(const game::RulesWishes& wishes);

/// The good size where the maker says nothing.
inline constexpr Mm usual_type{8 * mm_per_inch / points_per_inch};

}  // namespace quoin::rules
