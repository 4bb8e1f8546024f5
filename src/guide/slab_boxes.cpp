#include <algorithm>

#include "guide/slab.h"

namespace quoin::guide {
namespace {

constexpr Mm pad_x{3}, pad_y{1.2};
constexpr int most_cell_lines = 12;

/// Columns of a table, from left to right within the page's column.
struct Columns {
  std::vector<Mm> lefts, widths;
  Mm whole;
};

Columns columns_of(const Table& table, const Look& look) {
  Columns columns;
  double shares = 0;
  for (const double width : table.widths) shares += width;
  const Mm ticks = table.ticks == Table::Ticks::each_row ? Mm{7} : Mm{};
  columns.whole = look.column.size.width;
  Mm left = ticks;
  for (const double width : table.widths) {
    const Mm wide = (columns.whole - ticks) * (width / shares);
    columns.lefts.push_back(left);
    columns.widths.push_back(wide - pad_x);
    left = left + wide;
  }
  return columns;
}

Item rule(Mm width, Mm at, Colour colour, Mm thick) {
  Path path;
  path.move_to({Mm{}, at}).line_to({width, at});
  return line(std::move(path), colour, thick);
}

/// A row whose cells have so many lines that they do not stand on one page goes on in a further
/// one.
std::vector<Slab> row_slabs(const std::vector<std::string>& cells, Voice voice,
                            const Columns& columns, Setting& setting) {
  std::vector<Slab> slabs(1);
  std::vector<Mm> deepest(1);
  const std::size_t count = std::min(cells.size(), columns.lefts.size());
  for (std::size_t column = 0; column < count; ++column) {
    if (cells[column].empty()) continue;
    std::vector<SetWords> parts =
        setting.parts(cells[column], style_of(voice), columns.widths[column], most_cell_lines);
    slabs.resize(std::max(slabs.size(), parts.size()));
    deepest.resize(slabs.size());
    for (std::size_t i = 0; i < parts.size(); ++i) {
      deepest[i] = std::max(deepest[i], parts[i].first_line * parts[i].lines);
      put(slabs[i], std::move(parts[i].item), {columns.lefts[column], pad_y});
    }
  }
  for (std::size_t i = 0; i < slabs.size(); ++i) {
    slabs[i].kind = SlabKind::table_row;
    slabs[i].height = on_grid(deepest[i] + pad_y * 2);
  }
  return slabs;
}

/// A triangle with an exclamation mark.
std::vector<Item> warning_sign(Point at, Mm size) {
  const Mm high = size * 0.88;
  Path triangle;
  triangle.move_to({at.x + size / 2, at.y})
      .line_to({at.x + size, at.y + high})
      .line_to({at.x, at.y + high})
      .close();
  Item sign = shape(std::move(triangle), alarm);
  auto& drawn = std::get<ShapeItem>(sign.what);
  drawn.stroke.paint = alarm;
  drawn.stroke.width = size * 0.14;
  drawn.stroke.join = LineJoin::round;
  const Mm middle = at.x + size / 2;
  Path bar;
  bar.move_to({middle, at.y + high * 0.34}).line_to({middle, at.y + high * 0.68});
  Item stem = line(std::move(bar), white, size * 0.12);
  std::get<ShapeItem>(stem.what).stroke.cap = LineCap::round;
  const Mm dot = size * 0.13;
  return {std::move(sign), std::move(stem),
          shape(Path::ellipse({{middle - dot / 2, at.y + high * 0.82}, {dot, dot}}), white)};
}

/// Words that go into the box of a caution, one under the other.
struct CautionLine {
  SetWords words;
  enum class Mark { none, dot } mark = Mark::none;
};

std::vector<CautionLine> caution_lines(const Caution& caution, Mm width, Setting& setting) {
  std::vector<CautionLine> lines;
  TextStyle title = style_of(Voice::body);
  title.weight = 700;
  title.fill = alarm;
  const auto add = [&](const std::string& words, const TextStyle& style, CautionLine::Mark mark) {
    if (words.empty()) return;
    for (SetWords& part : setting.parts(words, style, width, 6)) {
      lines.push_back({std::move(part), mark});
      mark = CautionLine::Mark::none;
    }
  };
  add(caution.title, title, CautionLine::Mark::none);
  for (const std::string& line : caution.lines) {
    add(line, style_of(Voice::body), CautionLine::Mark::dot);
  }
  return lines;
}

}  // namespace

std::vector<Slab> table_slabs(const Table& table, const Look& look, Setting& setting) {
  std::vector<Slab> slabs;
  if (table.rows.empty() || table.widths.empty()) return slabs;
  const Columns columns = columns_of(table, look);
  // The words of a head are short; what of one is too long for a page's worth of lines is not said.
  Slab head = row_slabs(table.head, Voice::table_head, columns, setting).front();
  head.kind = SlabKind::table_head;
  head.next = Slab::Next::same_page;
  put(head, rule(columns.whole, head.height, accent, Mm{0.4}), {});
  const auto repeated = std::make_shared<const Slab>(head);
  head.gap = grid_step;
  slabs.push_back(std::move(head));
  for (const std::vector<std::string>& cells : table.rows) {
    std::vector<Slab> row = row_slabs(cells, Voice::body, columns, setting);
    if (table.ticks == Table::Ticks::each_row) {
      put(row.front(), tick_box({tick_size / 2, pad_y + Mm{2.55}}), {});
    }
    put(row.back(), rule(columns.whole, row.back().height, hairline, Mm{0.2}), {});
    for (Slab& slab : row) {
      slab.repeated = repeated;
      slabs.push_back(std::move(slab));
    }
  }
  constexpr std::size_t short_table = 8;  // its head and the rows of a sum
  for (std::size_t i = 0; slabs.size() <= short_table && i + 1 < slabs.size(); ++i) {
    slabs[i].next = std::max(slabs[i].next, Slab::Next::rather_same_page);
  }
  return slabs;
}

std::vector<Slab> caution_slabs(const Caution& caution, const Look& look, Setting& setting) {
  constexpr Mm pad{3}, sign{6}, hang{4};
  const Mm left = pad * 2 + sign;
  const Mm width = look.column.size.width - left - pad - hang;
  std::vector<Slab> slabs;
  std::vector<CautionLine> lines = caution_lines(caution, width, setting);
  constexpr std::size_t most_together = 12;  // of up to 6 lines each: half a page
  for (std::size_t first = 0; first < lines.size(); first += most_together) {
    Slab slab;
    slab.kind = SlabKind::caution;
    slab.gap = slabs.empty() ? grid_step * 2 : Mm{};
    std::vector<Item> words;
    Mm at = pad;
    for (std::size_t i = first; i < std::min(first + most_together, lines.size()); ++i) {
      CautionLine& each = lines[i];
      const bool is_title = i == 0;
      const bool has_dot = each.mark == CautionLine::Mark::dot;
      if (has_dot)
        words.push_back(shape(Path::ellipse({{left, at + Mm{2.1}}, {Mm{1.1}, Mm{1.1}}}), alarm));
      words.push_back(moved(std::move(each.words.item), {is_title ? left : left + hang, at}));
      at = at + each.words.first_line * each.words.lines + Mm{0.6};
    }
    slab.height = on_grid(at + pad - Mm{0.6});
    put(slab, shape(Path::rectangle({{}, {look.column.size.width, slab.height}}), alarm_wash), {});
    put(slab, shape(Path::rectangle({{}, {Mm{1.2}, slab.height}}), alarm), {});
    if (first == 0) {
      for (Item& item : warning_sign({pad + Mm{0.6}, pad}, sign)) put(slab, std::move(item), {});
    }
    for (Item& item : words) put(slab, std::move(item), {});
    slabs.push_back(std::move(slab));
  }
  return slabs;
}

}  // namespace quoin::guide
