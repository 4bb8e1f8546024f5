#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "rules/set_lines.h"
#include "scene/shapes.h"

namespace quoin::rules {
namespace {

/// In tables of more cells the widths of words are estimated.
constexpr std::size_t many_cells = 400;
constexpr double letter_width = 0.55;  // of the type size

struct ColumnWidths {
  std::vector<Mm> least, natural, used;
};

/// The parts of a text between blanks; a symbol counts as a word.
std::vector<Words> single_words(const Words& cell) {
  std::vector<Words> words;
  for (const TextRun& run : cell.runs) {
    if (run.symbol) {
      words.push_back({{run}, cell.origin});
      continue;
    }
    std::size_t from = 0;
    while (from < run.text.size()) {
      const std::size_t to = std::min(run.text.find_first_of(" \n", from), run.text.size());
      TextRun word = run;
      word.text = run.text.substr(from, to - from);
      if (!word.text.empty()) words.push_back({{std::move(word)}, cell.origin});
      from = to + 1;
    }
  }
  return words;
}

/// Widths of the columns: each what its longest line wants when there is room for all, else its
/// longest word and a share of what is left.
ColumnWidths widths_of(const Part& table, const TextStyle& head, const TextStyle& body, Mm gap,
                       Mm room, LineSetter& setter) {
  const std::size_t count = table.aligns.size();
  ColumnWidths widths;
  widths.least.resize(count);
  widths.natural.resize(count);
  const bool estimate = table.rows.size() * count > many_cells;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const TextStyle& style = row == 0 ? head : body;
    for (std::size_t i = 0; i < std::min(count, table.rows[row].size()); ++i) {
      const Words& cell = table.rows[row][i];
      if (cell.empty()) continue;
      widths.natural[i] = std::max(widths.natural[i], setter.natural_width(cell, style));
      for (const Words& word : single_words(cell)) {
        const TextRun& run = word.runs.front();
        const Mm wide =
            estimate && !run.symbol
                ? style.type_size * (letter_width * static_cast<double>(run.text.size()))
                : setter.natural_width(word, style);
        widths.least[i] = std::max(widths.least[i], wide);
      }
    }
  }
  const auto sum = [](const std::vector<Mm>& all) {
    return std::accumulate(all.begin(), all.end(), Mm{});
  };
  const Mm free = room - gap * (static_cast<double>(count) - 1);
  const Mm natural = sum(widths.natural), least = sum(widths.least);
  for (std::size_t i = 0; i < count; ++i) {
    Mm used = widths.natural[i] + Mm{0.05};
    if (natural > free) {
      const Mm more = widths.natural[i] - widths.least[i];
      const double share = natural > least ? std::max(0.0, (free - least) / (natural - least)) : 0;
      used = least > free ? widths.least[i] * std::max(0.0, free / least)
                          : widths.least[i] + more * share + Mm{0.05};
    }
    widths.used.push_back(std::max(used, Mm{1}));
  }
  return widths;
}

TextAlign align_of_cell(CellAlign align) {
  if (align == CellAlign::right) return TextAlign::right;
  return align == CellAlign::centre ? TextAlign::centre : TextAlign::start;
}

/// A table while it is set.
class TableSetter {
 public:
  TableSetter(const Part& table, Place place, LineSetter& setter)
      : table_(table),
        place_(place),
        setter_(setter),
        body_(style_of(setter.work().look, Voice::table, setter.column().type)),
        head_(style_of(setter.work().look, Voice::table_head, setter.column().type)),
        gap_(setter.column().type * 0.9),
        pad_(setter.column().type * 0.22) {}

  std::vector<Slab> slabs() {
    widths_ = widths_of(table_, head_, body_, gap_, place_.width, setter_);
    check_width();
    std::vector<Slab> all;
    std::shared_ptr<const Slab> repeated;
    for (std::size_t row = 0; row < table_.rows.size(); ++row) {
      std::vector<Slab> more = row_slabs(table_.rows[row], row == 0);
      const bool is_head = row == 0;
      Slab& last = more.back();
      last.items.push_back(under(last.height, is_head));
      for (Slab& slab : more) {
        slab.kind = is_head ? SlabKind::table_head : SlabKind::table_row;
        if (is_head) slab.keeps_next = true;
        if (!is_head) slab.repeated = repeated;
        all.push_back(std::move(slab));
      }
      if (is_head && more.size() == 1) repeated = std::make_shared<const Slab>(all.back());
    }
    keep_short_table(all);
    return all;
  }

 private:
  void check_width() {
    Mm least = gap_ * (static_cast<double>(table_.aligns.size()) - 1);
    for (const Mm one : widths_.least) least += one;
    if (fits(least, place_.width)) return;
    setter_.report(
        Diagnostic(
            Id::rules_table_too_wide, table_.origin,
            fmt::format("the table needs {:.1f} mm for its longest words, and its column has "
                        "{:.1f} mm",
                        least.value, place_.width.value))
            .on("rules")
            .hint("use fewer columns or shorter words, or turn the table into a list"));
  }

  std::vector<Slab> row_slabs(const std::vector<Words>& cells, bool is_head) {
    const TextStyle& plain = is_head ? head_ : body_;
    std::vector<SetText> texts;
    std::vector<TextStyle> styles;
    int deepest = 1;
    for (std::size_t i = 0; i < table_.aligns.size(); ++i) {
      TextStyle style = plain;
      style.hyphenate = false;
      style.align = align_of_cell(table_.aligns[i]);
      const bool filled = i < cells.size() && !cells[i].empty();
      texts.push_back(filled ? setter_.set(cells[i], style, widths_.used[i]) : SetText{});
      styles.push_back(style);
      if (filled) deepest = std::max(deepest, texts.back().facts().lines);
    }
    const Mm line = line_of(plain);
    const int most = std::max(1, static_cast<int>((setter_.column().height * 0.6) / line));
    std::vector<Slab> slabs;
    for (int first = 0; first < deepest; first += most) {
      const int count = std::min(most, deepest - first);
      Slab slab;
      slab.height = line * count + pad_ * 2;
      slab.gap = slabs.empty() && is_head ? setter_.half_line() : Mm{};
      slab.origin = table_.origin;
      Mm left = place_.left;
      for (std::size_t i = 0; i < texts.size(); ++i) {
        if (texts[i].state() != nullptr && first < texts[i].facts().lines) {
          for (Item& item : setter_.piece(cells[i], texts[i], styles[i], first, count).items) {
            slab.items.push_back(moved(std::move(item), {left, pad_}));
          }
        }
        left += widths_.used[i] + gap_;
      }
      slabs.push_back(std::move(slab));
    }
    return slabs;
  }

  [[nodiscard]] Mm whole_width() const {
    Mm all = gap_ * (static_cast<double>(widths_.used.size()) - 1);
    for (const Mm one : widths_.used) all += one;
    return std::min(all, place_.width);
  }

  [[nodiscard]] Item under(Mm at, bool is_head) const {
    Path path;
    path.move_to({place_.left, at}).line_to({place_.left + whole_width(), at});
    Colour colour = setter_.work().look.accent;
    if (!is_head) colour.alpha *= 0.35;
    return line(std::move(path), colour, Mm{is_head ? 0.3 : 0.15});
  }

  void keep_short_table(std::vector<Slab>& all) const {
    Mm height;
    for (const Slab& slab : all) height += slab.gap + slab.height;
    if (height > setter_.column().height * 0.7) return;
    for (std::size_t i = 0; i + 1 < all.size(); ++i) all[i].keeps_next = true;
  }

  const Part& table_;
  Place place_;
  LineSetter& setter_;
  TextStyle body_, head_;
  Mm gap_, pad_;
  ColumnWidths widths_;
};

}  // namespace

std::vector<Slab> rules_table(const Part& part, Place place, LineSetter& setter) {
  if (part.rows.empty() || part.aligns.empty()) return {};
  return TableSetter(part, place, setter).slabs();
}

}  // namespace quoin::rules
