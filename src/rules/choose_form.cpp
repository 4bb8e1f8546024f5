#include "rules/choose_form.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "rules/set_lines.h"

namespace quoin::rules {
namespace {

constexpr Mm quarter_point{0.25 * mm_per_inch / points_per_inch};
constexpr Mm may_grow{1.5 * mm_per_inch / points_per_inch};
constexpr int most_leaves = 12, most_panels = 8, fewest_panels = 3;
/// The folio stands below the text in a strip so high.
constexpr Mm folio_strip{2.8};
/// Letters of a text are half an em wide on the average (measured on English in the house's type:
/// 0.47 to 0.50), so 75 of them are so many ems.
constexpr double longest_line = 37;

Size within(std::optional<Size> box, const game::CardFormat& card) {
  // Without a box the rules are as large as a card.
  const Size room =
      box.value_or(Size{card.size.width + play_in_box, card.size.height + play_in_box});
  const auto rounded = [](Mm length) { return Mm{std::floor(length.value * 2 + 1e-6) / 2}; };
  return {rounded(room.width - play_in_box), rounded(room.height - play_in_box)};
}

bool goes_on(Size leaf, const std::vector<Size>& usable) {
  return std::any_of(usable.begin(), usable.end(), [&](Size room) {
    return fits(leaf.width, room.width) && fits(leaf.height, room.height);
  });
}

/// How many leaves lie on one sheet, upright side by side.
int leaves_on_sheet(Size leaf, const std::vector<Size>& usable) {
  int most = 0;
  for (const Size room : usable) {
    const auto along = [](Mm of, Mm one) { return static_cast<int>((of + Mm{4}) / (one + Mm{4})); };
    most = std::max(most, along(room.width, leaf.width) * along(room.height, leaf.height));
  }
  return most;
}

Candidate candidate(Form form, const Rooms& rooms) {
  Candidate made;
  if (!goes_on(form.leaf, rooms.usable)) made.on_paper = Candidate::OnPaper::no;
  const int together = std::max(1, leaves_on_sheet(form.leaf, rooms.usable));
  made.sheets = (form.leaves + together - 1) / together;
  made.form = std::move(form);
  return made;
}

/// A page that is a sheet of the paper.
Candidate whole_sheet(const Rooms& rooms, Mm caliper, Form::Sides sides) {
  Candidate made;
  made.form = flat_form(rooms.paper, caliper, sides);
  made.whole_sheet = true;
  return made;
}

bool is_wanted(const Candidate& one, const game::RulesWishes& wishes) {
  if (wishes.form == game::RulesForm::automatic) return true;
  if (wishes.form != one.form.kind) return false;
  return one.form.kind != game::RulesForm::accordion || !wishes.panels ||
         *wishes.panels == one.form.panels;
}

Form::Sides sides_of(const game::RulesWishes& wishes, const Rooms& rooms) {
  if (wishes.sides == game::RulesSides::one) return Form::Sides::one;
  if (wishes.sides == game::RulesSides::both) return Form::Sides::both;
  return rooms.sides;
}

std::string plural_pages(int count) {
  return count == 1 ? std::string("1 page") : fmt::format("{} pages", count);
}

}  // namespace

std::vector<Candidate> candidates_for(const game::RulesWishes& wishes, const game::Game& game,
                                      const Rooms& rooms, Mm caliper) {
  const Size page = wishes.size.value_or(within(rooms.box, game.card));
  const Form::Sides sides = sides_of(wishes, rooms);
  const bool both = sides == Form::Sides::both;
  std::vector<Candidate> all;
  const auto add = [&](Candidate one) {
    if (is_wanted(one, wishes)) all.push_back(std::move(one));
  };
  for (const Form::Sides printed : {Form::Sides::one, Form::Sides::both}) {
    if (printed == Form::Sides::both && !both) continue;
    if (!rooms.box && !wishes.size) {
      add(whole_sheet(rooms, caliper, printed));
    } else {
      add(candidate(flat_form(page, caliper, printed), rooms));
    }
  }
  if (both) add(candidate(half_form(page, caliper), rooms));
  for (int panels = fewest_panels; panels <= most_panels; ++panels) {
    if (panels == 5) add(candidate(eight_pages_form(page, caliper), rooms));
    add(candidate(accordion_form(panels, page, caliper, sides), rooms));
  }
  for (int leaves = 2; both && leaves <= most_leaves; ++leaves) {
    // Inner leaves stick out, so that all are a little narrower.
    Size narrower = page;
    narrower.width -= creep_of(caliper) * (leaves - 1);
    add(candidate(booklet_form(leaves, narrower, caliper), rooms));
  }
  return all;
}

Rect PageShape::text() const {
  return {{margins.left, margins.top},
          {page.width - margins.left - margins.right, page.height - margins.top - margins.bottom}};
}

Mm PageShape::column_width() const {
  return (text().size.width - gutter * (columns - 1)) / columns;
}

PageShape page_shape(const Candidate& candidate, const game::RulesWishes& wishes,
                     const Rooms& rooms, Mm type) {
  PageShape shape;
  shape.page = candidate.form.page;
  const Mm usual = std::clamp(shape.page.width / 13, Mm{4}, Mm{20});
  const Mm margin = wishes.margin.value_or(usual);
  shape.margins = Insets::all(margin);
  if (candidate.whole_sheet) {
    shape.margins.top = std::max(margin, rooms.dead_margin.top + Mm{2});
    shape.margins.right = std::max(margin, rooms.dead_margin.right + Mm{2});
    shape.margins.bottom = std::max(margin, rooms.dead_margin.bottom + Mm{2});
    shape.margins.left = std::max(margin, rooms.dead_margin.left + Mm{2});
  }
  if (candidate.form.page_count() <= 2) shape.folio = PageShape::Folio::none;
  if (shape.folio == PageShape::Folio::shown) shape.margins.bottom += folio_strip;
  shape.gutter = std::max(type * 2, Mm{4});
  const Mm wide = shape.text().size.width;
  const int usual_columns =
      std::max(1, static_cast<int>(std::ceil(wide / (type * longest_line) - 0.02)));
  shape.columns = wishes.columns.value_or(usual_columns);
  while (shape.columns > 1 && shape.column_width() < type * 8) --shape.columns;
  return shape;
}

int Measuring::pages(const PageShape& shape, Mm type) {
  const Key key{{shape.column_width(), shape.text().size.height}, shape.columns, type};
  for (const auto& [known, count] : known_) {
    if (known == key) return count;
  }
  const Column column{key.column.width, key.column.height, type};
  const int columns = columns_for(slabs_of(work_, column).value, column.height);
  const int count = std::max(1, (columns + shape.columns - 1) / shape.columns);
  known_.emplace_back(key, count);
  return count;
}

namespace {

/// The work of choosing.
struct Choosing {
  const std::vector<Candidate>& all;
  const game::RulesWishes& wishes;
  const Rooms& rooms;
  Measuring& measuring;

  [[nodiscard]] int needed(std::size_t i, Mm type) const {
    return measuring.pages(page_shape(all[i], wishes, rooms, type), type);
  }
  [[nodiscard]] bool is_possible(std::size_t i) const {
    return all[i].on_paper == Candidate::OnPaper::yes;
  }
  [[nodiscard]] bool fits_at(std::size_t i, Mm type) const {
    if (!is_possible(i)) return false;
    // On narrower pages the text takes no fewer of them: the text need not be set again to know.
    const int capacity = all[i].form.page_count();
    const bool narrower = all[i].form.page.width < all.front().form.page.width &&
                          all[i].form.page.height == all.front().form.page.height;
    if (narrower && needed(0, type) > capacity + 1) return false;
    return needed(i, type) <= capacity;
  }
  [[nodiscard]] std::optional<std::size_t> first_at(Mm type) const {
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (fits_at(i, type)) return i;
    }
    return std::nullopt;
  }
  /// The one with most pages.
  [[nodiscard]] std::size_t largest() const {
    std::size_t best = all.size();
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (!is_possible(i)) continue;
      const bool more =
          best == all.size() || all[i].form.page_count() > all[best].form.page_count();
      if (more) best = i;
    }
    return best;
  }
};

Option option_of(const Choosing& choosing, std::size_t i, const Choice& choice, Mm good) {
  const Candidate& one = choosing.all[i];
  Option option;
  option.kind = one.form.kind;
  option.panels = one.form.panels;
  option.leaves = one.form.leaves;
  option.pages = one.form.page_count();
  option.type = i == choice.candidate ? choice.type : good;
  const std::string name = form_words(one.form);
  if (!choosing.is_possible(i)) {
    option.verdict = Option::Verdict::larger_than_sheet;
    option.words = fmt::format("{} is {:.0f} x {:.0f} mm when it is open, too large for the paper",
                               name, one.form.leaf.width.value, one.form.leaf.height.value);
    return option;
  }
  option.needed = choosing.needed(i, option.type);
  if (i == choice.candidate) {
    option.verdict = Option::Verdict::chosen;
    option.words = fmt::format("{} has {}, and the text takes {} at {}", name,
                               plural_pages(option.pages), option.needed, type_words(option.type));
    return option;
  }
  const bool enough = option.needed <= option.pages;
  option.verdict = enough ? Option::Verdict::more_work : Option::Verdict::too_few_pages;
  option.words =
      fmt::format("{} has {}, and the text {} {} at {}", name, plural_pages(option.pages),
                  enough ? "takes" : "needs", option.needed, type_words(option.type));
  return option;
}

}  // namespace

Choice choose_form(const std::vector<Candidate>& candidates, const game::RulesWishes& wishes,
                   const Rooms& rooms, Measuring& measuring) {
  const Choosing choosing{candidates, wishes, rooms, measuring};
  const Mm good = wishes.type.value_or(std::max(usual_type, wishes.minimum));
  Choice choice;
  choice.type = good;
  std::optional<std::size_t> found = choosing.first_at(good);
  const bool hopeless = !found && !choosing.first_at(wishes.minimum);
  if (hopeless) choice.type = wishes.minimum;
  for (Mm type = good; !found && !hopeless && type > wishes.minimum + epsilon / 10;) {
    type = std::max(wishes.minimum, type - quarter_point);
    choice.type = type;
    found = choosing.first_at(type);
  }
  choice.fits = found.has_value();
  choice.candidate = found.value_or(choosing.largest());
  if (found && !wishes.type && choice.type == good) {
    while (choice.type < good + may_grow &&
           choosing.fits_at(choice.candidate, choice.type + quarter_point)) {
      choice.type += quarter_point;
    }
  }
  choice.needed = choosing.needed(choice.candidate, choice.type);
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    // Of what is more work only the next ones are told.
    if (i > choice.candidate + 3) break;
    if (i > choice.candidate && !choosing.is_possible(i)) continue;
    choice.options.push_back(option_of(choosing, i, choice, good));
  }
  return choice;
}

}  // namespace quoin::rules
