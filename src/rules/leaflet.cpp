#include "rules/leaflet.h"

#include <fmt/format.h>

#include <algorithm>

#include "game/paper_classes.h"
#include "rules/choose_form.h"
#include "rules/set_lines.h"

namespace quoin::rules {
namespace {

/// The text of one page: its columns, and its number below.
std::vector<Scene> pages_of(const SettingWork& work, const PageShape& shape, Mm type,
                            const std::vector<Filled>& columns, int at_least) {
  const int across = shape.columns;
  const int filled = (static_cast<int>(columns.size()) + across - 1) / across;
  std::vector<Scene> pages(static_cast<std::size_t>(std::max(filled, at_least)));
  for (std::size_t i = 0; i < columns.size(); ++i) {
    Scene& page = pages[i / static_cast<std::size_t>(across)];
    const double nth = static_cast<double>(i % static_cast<std::size_t>(across));
    const Vec to{shape.margins.left + (shape.column_width() + shape.gutter) * nth,
                 shape.margins.top};
    for (const Item& item : columns[i].items) page.items.push_back(moved(item, to));
  }
  if (shape.folio == PageShape::Folio::none) return pages;
  TextStyle style = style_of(work.look, Voice::folio, type);
  style.align = TextAlign::centre;
  Setting setting(work.typesetter);
  for (int i = 1; i < filled; ++i) {
    SetWords number = setting.set({{std::to_string(i + 1), false, false, nullptr}}, style,
                                  shape.text().size.width);
    const Mm down = shape.text().bottom() + Mm{1.6};
    pages[static_cast<std::size_t>(i)].items.push_back(
        moved(std::move(number.item), {shape.margins.left, down}));
  }
  return pages;
}

Diagnostic too_long(const game::RulesWishes& wishes, const Form& form, int needed, Mm type) {
  Diagnostic problem(Id::rules_too_long, wishes.place("form"),
                     fmt::format("the rules need {} pages at {}, and {} has {}", needed,
                                 type_words(type), form_words(form), form.page_count()));
  if (wishes.form != game::RulesForm::automatic) {
    return problem.hint("leave form out, so that one with enough pages is chosen");
  }
  return problem.hint("shorten the text, or allow smaller type with minimum = 6");
}

Diagnostic shrunk(const game::RulesWishes& wishes, Mm good, Mm type, const Form& form) {
  Diagnostic problem(Id::rules_small_type, wishes.place("type"),
                     fmt::format("the rules are set at {}, since at {} they do not go on {}",
                                 type_words(type), type_words(good), form_words(form)));
  return problem.hint("shorten the text, or choose a form with more pages");
}

/// What the maker gave is larger than the room in the box.
std::optional<Diagnostic> larger_than_box(const game::RulesWishes& wishes, const Form& form,
                                          const std::optional<Size>& room) {
  if (!room) return std::nullopt;
  if (fits(form.folded.width, room->width) && fits(form.folded.height, room->height)) {
    return std::nullopt;
  }
  return Diagnostic(
             Id::rules_larger_than_box, wishes.place("size"),
             fmt::format(
                 "the folded rules are {:.1f} x {:.1f} mm, and the box has {:.1f} x {:.1f} mm",
                 form.folded.width.value, form.folded.height.value, room->width.value,
                 room->height.value))
      .hint(fmt::format("write size = [{:.0f}, {:.0f}], or leave size out",
                        (room->width - play_in_box).value - 0.5,
                        (room->height - play_in_box).value - 0.5));
}

Diagnostic larger_than_sheet(const game::RulesWishes& wishes, const Form& form,
                             const game::Game& game) {
  return Diagnostic(Id::rules_larger_than_sheet, wishes.place("form"),
                    fmt::format("{} is {:.0f} x {:.0f} mm when it is open, too large for {}",
                                form_words(form), form.leaf.width.value, form.leaf.height.value,
                                game.sheets.paper_name))
      .hint("use fewer panels, another form, or larger paper");
}

/// The printer of the cards prints one side only, and the rules take more than one page.
std::optional<Diagnostic> one_sided(const game::RulesWishes& wishes, const Rooms& rooms,
                                    const Form& form, const game::Game& game) {
  const bool chosen = wishes.sides != game::RulesSides::automatic;
  if (chosen || rooms.sides == Form::Sides::both || form.page_count() == 1) return std::nullopt;
  return Diagnostic(Id::rules_one_side, game.sheets.origin,
                    "the rules are printed on one side, as the sheets of cards are")
      .hint("write sides = \"both\" under [rules] when your printer does both on thin paper");
}

void tell_choice(Leaflet& leaflet, const game::RulesWishes& wishes) {
  const Form& form = leaflet.form;
  const bool automatic = wishes.form == game::RulesForm::automatic;
  std::string first = fmt::format(
      "{}: {} of {:.1f} x {:.1f} mm, type {}", form_words(form),
      form.page_count() == 1 ? std::string("1 page") : fmt::format("{} pages", form.page_count()),
      form.page.width.value, form.page.height.value, type_words(leaflet.type));
  if (automatic) first += "; the least work that the text goes into";
  leaflet.choices.push_back(std::move(first));
  for (const Option& option : leaflet.options) {
    if (option.verdict == Option::Verdict::too_few_pages) leaflet.choices.push_back(option.words);
  }
  if (form.layers > 1) {
    leaflet.choices.push_back(fmt::format(
        "folded it is {:.1f} mm thick: {} layers of {:.2f} mm, and {} {} that {} not press flat",
        form.thickness.value, form.layers, leaflet.caliper.value, form.folds.size() * form.leaves,
        form.fold_count() == 1 ? "fold" : "folds", form.fold_count() == 1 ? "does" : "do"));
  }
}

}  // namespace

Mm rules_caliper(const game::RulesWishes& wishes) {
  const auto range = pieces::caliper_of(wishes.paper.caliper, wishes.paper.grammage,
                                        wishes.paper.paper_class, "uncoated");
  return range ? range->typical : Mm{0.12};
}

std::optional<Size> room_in_box(const game::Game& game) {
  if (!game.box) return std::nullopt;
  const game::BoxWishes& box = *game.box;
  if (box.inside) return Size{(*box.inside)[0], (*box.inside)[1]};
  Size face = game.card.size;
  if (box.sleeves) face = {(*box.sleeves)[0], (*box.sleeves)[1]};
  return Size{face.width + box.clearance[0], face.height + box.clearance[1]};
}

Checked<std::optional<Leaflet>> make_leaflet(const pieces::Studio& studio, Typesetter& typesetter,
                                             const Rooms& rooms,
                                             const std::vector<std::string>& credits) {
  Checked<std::optional<Leaflet>> made;
  const game::Game& game = studio.game();
  if (!game.rules) return made;
  const game::RulesWishes& wishes = *game.rules;
  Checked<Manuscript> read = read_manuscript(studio, wishes, credits);
  made.found = std::move(read.found);
  if (read.value.parts.empty()) return made;
  const Look look = look_of(studio, wishes, made.found);
  const CardArt cards = card_art(studio, typesetter, read.value);
  const SettingWork work{game, read.value, look, cards, typesetter};

  const Mm caliper = rules_caliper(wishes);
  const std::vector<Candidate> candidates = candidates_for(wishes, game, rooms, caliper);
  const bool any = std::any_of(candidates.begin(), candidates.end(), [](const Candidate& one) {
    return one.on_paper == Candidate::OnPaper::yes;
  });
  if (!any) {
    const Form asked =
        candidates.empty() ? half_form(game.card.size, caliper) : candidates.front().form;
    made.found.push_back(larger_than_sheet(wishes, asked, game));
    return made;
  }
  Measuring measuring(work);
  Choice choice = choose_form(candidates, wishes, rooms, measuring);
  const Candidate& chosen = candidates[choice.candidate];

  Leaflet leaflet;
  leaflet.form = chosen.form;
  leaflet.whole_sheet = chosen.whole_sheet;
  leaflet.type = choice.type;
  leaflet.caliper = caliper;
  leaflet.options = std::move(choice.options);
  leaflet.shape = page_shape(chosen, wishes, rooms, choice.type);
  leaflet.words = read.value.words;
  leaflet.counts = read.value.counts;
  const Column column{leaflet.shape.column_width(), leaflet.shape.text().size.height, choice.type};
  Checked<std::vector<Slab>> slabs = slabs_of(work, column);
  for (Diagnostic& problem : slabs.found) made.found.push_back(std::move(problem));
  const std::vector<Filled> columns = fill_columns(slabs.value, column.height);
  leaflet.filled = choice.needed;
  leaflet.pages = pages_of(work, leaflet.shape, choice.type, columns, leaflet.form.page_count());
  tell_choice(leaflet, wishes);

  const Mm good = wishes.type.value_or(std::max(usual_type, wishes.minimum));
  if (!choice.fits) {
    made.found.push_back(too_long(wishes, leaflet.form, choice.needed, choice.type));
  } else if (choice.type < good - epsilon) {
    made.found.push_back(shrunk(wishes, good, choice.type, leaflet.form));
  }
  if (auto problem = larger_than_box(wishes, leaflet.form, rooms.box)) {
    made.found.push_back(std::move(*problem));
  }
  if (auto note = one_sided(wishes, rooms, leaflet.form, game)) {
    made.found.push_back(std::move(*note));
  }
  made.value = std::move(leaflet);
  return made;
}

}  // namespace quoin::rules
