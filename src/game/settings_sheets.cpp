#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "game/formats.h"
#include "game/reading.h"
#include "game/section.h"
#include "game/size_check.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// The meaning that stands at the place of the word in the schema's list of words.
template <typename T>
T meaning(const Section& section, std::string_view key, std::initializer_list<T> meanings) {
  const std::string word = section.text(key);
  const std::vector<std::string_view>& words = property_facts("sheets", key)->words;
  const auto at = std::find(words.begin(), words.end(), word) - words.begin();
  return *(meanings.begin() + std::min<std::ptrdiff_t>(at, std::ssize(meanings) - 1));
}

std::optional<GridAsked> read_grid(std::string_view text) {
  GridAsked grid;
  const char* end = text.data() + text.size();
  const auto columns = std::from_chars(text.data(), end, grid.columns);
  if (columns.ec != std::errc{} || columns.ptr == end || *columns.ptr != 'x') return std::nullopt;
  const auto rows = std::from_chars(columns.ptr + 1, end, grid.rows);
  const bool whole = rows.ec == std::errc{} && rows.ptr == end;
  const auto fits = [](int n) { return n >= 1 && n <= 100; };
  if (!whole || !fits(grid.columns) || !fits(grid.rows)) return std::nullopt;
  return grid;
}

void read_grid(Reading& reading, const Section& section) {
  const std::string text = section.text("grid");
  if (text == "auto") return;
  reading.game.sheets.grid = read_grid(text);
  if (reading.game.sheets.grid) return;
  Diagnostic problem(Id::game_unknown_word, section.origin("grid"),
                     fmt::format("grid cannot be {}", in_quotes(text)));
  problem.detail("it can be \"auto\", or columns and rows from 1 to 100");
  reading.found.add(
      problem.hint("write grid = \"3x3\" for three cards side by side in three rows"));
}

void read_spacing(SheetWishes& sheets, const Section& section) {
  const Node spacing = section.value("spacing");
  if (const double* gutter = spacing.number()) {
    sheets.spacing = Spacing::fixed;
    sheets.gutter = Mm{*gutter};
  } else {
    sheets.spacing =
        meaning(section, "spacing", {Spacing::automatic, Spacing::shared, Spacing::gutters});
  }
}

void read_paper(Reading& reading, const Section& section) {
  SheetWishes& sheets = reading.game.sheets;
  const std::string name = section.text("paper");
  const Origin where = section.has("paper") ? section.origin("paper") : sheets.origin;
  const std::optional<NamedSize> size = find_size(name, paper_sizes());
  if (!size) {
    reading.found.add(unknown_size(name, where, paper_sizes()));
    return;
  }
  if (auto problem = size_problem(*size, where)) {
    reading.found.add(std::move(*problem));
    return;
  }
  sheets.paper = size->size;
  sheets.paper_name = size->name.empty() ? name : std::string(size->name);
}

Insets read_margin(const Node& margin) {
  if (const double* all = margin.number()) return Insets::all(Mm{*all});
  const auto edge = [&](std::size_t i) { return Mm{*margin.list()->at(i).number()}; };
  return {edge(0), edge(1), edge(2), edge(3)};
}

void read_printer(Game& game, const Table& settings) {
  const Section section("printer", table_under(settings, "printer"));
  game.sheets.dead_margin = read_margin(section.value("margin"));
  PrinterWishes& printer = game.printer;
  printer.margin_given = section.has("margin");
  printer.profile = std::string(trimmed(section.text("profile")));
  printer.origin = section.has("profile") ? section.origin("profile") : game.sheets.origin;
  const std::string kind = section.text("kind");
  if (kind == "inkjet") printer.kind = PrinterKind::inkjet;
  if (kind == "copy-shop") printer.kind = PrinterKind::copy_shop;
}

void read_off(Reading& reading, const Section& section) {
  std::vector<std::string> known;
  for (const IdFacts& facts : all_diagnostics()) known.emplace_back(facts.name);
  for (const Node& node : section.texts("off")) {
    const std::string& name = *node.text();
    const auto facts = std::find_if(all_diagnostics().begin(), all_diagnostics().end(),
                                    [&](const IdFacts& one) { return one.name == name; });
    if (facts != all_diagnostics().end() && facts->severity != Severity::error) {
      reading.game.limits.off.push_back(name);
    } else if (facts != all_diagnostics().end()) {
      Diagnostic problem(Id::game_unknown_check, node.origin,
                         fmt::format("{} is an error and cannot be off", name));
      reading.found.add(problem.hint("only warnings and notes can be off"));
    } else {
      Diagnostic problem(Id::game_unknown_check, node.origin,
                         fmt::format("there is no check {}", in_quotes(name)));
      const std::string hint = instead_of(name, known);
      reading.found.add(hint.empty() ? problem.hint("copy the name from the brackets at the end "
                                                    "of a finding")
                                     : problem.hint(hint));
    }
  }
}

void read_limits(Reading& reading, const Table* table) {
  const Section section("checks", table);
  Limits& limits = reading.game.limits;
  limits.good_ppi = section.number("good-ppi");
  limits.poor_ppi = section.number("poor-ppi");
  limits.smallest_type = section.points("smallest-type");
  limits.smallest_type_knocked_out = section.points("smallest-type-knocked-out");
  limits.thinnest_line = section.length("thinnest-line");
  limits.thinnest_line_knocked_out = section.length("thinnest-line-knocked-out");
  limits.contrast = section.number("contrast");
  limits.contrast_large = section.number("contrast-large");
  limits.suit_difference = section.number("suit-difference");
  read_off(reading, section);
}

}  // namespace

void read_sheets(Reading& reading, const Table& settings) {
  SheetWishes& sheets = reading.game.sheets;
  const Node* whole = find(settings, "sheets");
  sheets.origin = whole ? whole->origin : Origin{FileName("game.toml")};
  const Section section("sheets", table_under(settings, "sheets"));
  read_paper(reading, section);
  read_grid(reading, section);
  read_spacing(sheets, section);
  sheets.flip = meaning(section, "flip", {FlipEdge::long_edge, FlipEdge::short_edge});
  sheets.backs = meaning(
      section, "backs",
      {BackPrinting::printer, BackPrinting::by_hand, BackPrinting::fold, BackPrinting::none});
  sheets.pile = meaning(section, "pile", {Pile::face_down, Pile::face_up});
  sheets.order =
      meaning(section, "order", {SheetOrder::list, SheetOrder::cut_and_stack, SheetOrder::by_suit});
  sheets.turn = meaning(section, "turn", {Turn::automatic, Turn::upright, Turn::turned});
  sheets.orientation =
      meaning(section, "orientation",
              {Orientation::automatic, Orientation::portrait, Orientation::landscape});
  sheets.back_bleed = section.length("back-bleed");
  read_printer(reading.game, settings);
  read_limits(reading, table_under(settings, "checks"));
}

}  // namespace quoin::game
