#include "pack/measuring_sheet.h"

#include <fmt/format.h>

#include "game/words.h"
#include "media/text.h"
#include "pack/net_lines.h"

namespace quoin::pack {
namespace {

using press::SheetLayout;
using press::SheetSide;

constexpr Mm thin{0.12}, plain{0.2}, heavy{0.4};
constexpr Mm line_gap{0.15};                           // from the middle of a vernier to its lines
constexpr Mm short_line{2.2}, fifth_line{3.4};         // lengths of a vernier's lines
constexpr Mm vernier_type{1.9}, number_distance{4.6};  // of a vernier's numbers from its middle

Item inked(Path path) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.fill = black;
  Item item;
  item.layer = Layer::mark;
  item.what = std::move(shape);
  return item;
}

Item stroked(Path path, Mm width) {
  return line_item(std::move(path), {Layer::mark, black, width, {}});
}

Item grouped(std::vector<Item> items, const Affine& map) {
  Item group;
  group.layer = Layer::mark;
  group.map = map;
  group.what = GroupItem{std::move(items)};
  return group;
}

Item words(const std::string& text, Point middle, Size room, Mm type) {
  WordsLook look;
  look.type_size = type;
  return words_item(text, middle, room, look);
}

Rect about(Point middle, Mm size) { return grown(Rect{middle, {}}, size / 2); }

Item dots(const std::vector<Point>& places) {
  Path path;
  for (const Point at : places) path.append(Path::ellipse(about(at, press::dot_size)));
  Item item = inked(std::move(path));
  item.element = "dots";
  return item;
}

/// True when the module of a code is black.
bool is_black(std::uint32_t code, int column, int row) {
  const int last = press::code_modules - 1;
  if (column == 0 || row == 0 || column == last || row == last) return true;
  return (code >> (24 - ((row - 1) * 5 + column - 1)) & 1U) != 0;
}

/// Black modules of a row as one rectangle each run, so that no hair of paper shows between them.
Item code_mark(const press::CodeMark& mark) {
  const std::uint32_t code = press::code_bits().at(static_cast<std::size_t>(mark.number));
  const Mm module = press::code_size / press::code_modules;
  const Point corner = about(mark.centre, press::code_size).at;
  constexpr Mm lap{0.01};
  Path path;
  for (int row = 0; row < press::code_modules; ++row) {
    for (int column = 0; column < press::code_modules;) {
      int end = column;
      while (end < press::code_modules && is_black(code, end, row)) ++end;
      if (end > column) {
        const bool last = row == press::code_modules - 1;
        path.append(Path::rectangle({{corner.x + module * column, corner.y + module * row},
                                     {module * (end - column), module + (last ? Mm{} : lap)}}));
      }
      column = std::max(end, column + 1);
    }
  }
  Item item = inked(std::move(path));
  item.element = fmt::format("code-{}", mark.number);
  return item;
}

/// A ring with arms towards its middle, which stays clear for the needle.
Item pin_target(Point at) {
  const Mm radius = press::pin_ring / 2, inner{2.5};
  Path path = Path::ellipse(about(at, press::pin_ring));
  for (const Vec way : {Vec{Mm{1}, Mm{}}, Vec{Mm{-1}, Mm{}}, Vec{Mm{}, Mm{1}}, Vec{Mm{}, Mm{-1}}}) {
    path.move_to(at + way * inner.value).line_to(at + way * radius.value);
  }
  return stroked(std::move(path), plain);
}

/// One half of a vernier about the origin, read across: the front's lines stand up, the back's
/// hang down.
std::vector<Item> vernier_half(SheetSide side) {
  const bool front = side == SheetSide::front;
  const Mm pitch = front ? press::front_pitch : press::back_pitch;
  const int lines = front ? press::front_lines : press::back_lines;
  const double up = front ? -1 : 1;
  Path path;
  std::vector<Item> items;
  for (int line = -lines; line <= lines; ++line) {
    const Mm x = pitch * line;
    const Mm reach = line % 5 == 0 ? fifth_line : short_line;
    path.move_to({x, line_gap * up}).line_to({x, reach * up});
    if (line % 5 != 0) continue;
    const std::string number = line < 0 ? fmt::format("−{}", -line) : std::to_string(line);
    items.push_back(words(number, {x, number_distance * up}, {Mm{4}, Mm{2}}, vernier_type));
  }
  items.push_back(stroked(std::move(path), thin));
  return items;
}

/// On the page frame of the front.
Item vernier(const press::Vernier& where, SheetSide side) {
  std::vector<Item> items = vernier_half(side);
  if (side == SheetSide::front) {
    items.push_back(
        words(fmt::format("({})", where.number), {Mm{-14.6}, Mm{-1.6}}, {Mm{5}, Mm{3}}, Mm{2.6}));
  }
  // Down the sheet, positive numbers below: turned clockwise, the front's half lies to the right.
  const Affine turn = where.across() ? Affine{} : Affine::turn(Angle::degrees(90));
  return grouped(std::move(items), then(turn, Affine::move(where.at - Point{})));
}

std::vector<Item> bar(const press::ScaleBar& bar) {
  const double length = bar.length.value;
  Path path;
  path.move_to({Mm{}, Mm{}}).line_to({bar.length, Mm{}});
  for (int i = 0; i <= static_cast<int>(length); i += 5) {
    const Mm tick{i % 50 == 0 ? 3.0 : i % 10 == 0 ? 2.0 : 1.2};
    path.move_to({Mm{static_cast<double>(i)}, Mm{}}).line_to({Mm{static_cast<double>(i)}, -tick});
  }
  std::vector<Item> items{stroked(std::move(path), thin)};
  items.push_back(words(fmt::format("{} mm", length), {bar.length / 2 + Mm{12}, Mm{1.6}},
                        {Mm{20}, Mm{2.6}}, Mm{2.3}));
  // Upright bars run down the sheet, their ticks to the right.
  const Affine turn = bar.upright ? Affine::turn(Angle::degrees(90)) : Affine{};
  return {grouped(std::move(items), then(turn, Affine::move(bar.from - Point{})))};
}

/// "FRONT" with an arrow that points to the top edge of the page, in the band below the middle.
std::vector<Item> heading(const SheetLayout& sheet, const std::string& text) {
  const Mm y = sheet.paper.height - Mm{14}, x = sheet.paper.width / 2;
  Path arrow;
  const Point tip{x + Mm{26}, y - Mm{5}};
  arrow.move_to({tip.x, y + Mm{4}}).line_to(tip);
  arrow.move_to({tip.x - Mm{2.5}, tip.y + Mm{3}}).line_to(tip);
  arrow.line_to({tip.x + Mm{2.5}, tip.y + Mm{3}});
  return {words(text, {x, y}, {Mm{44}, Mm{9}}, Mm{9}), stroked(std::move(arrow), heavy)};
}

std::string turned_words(const MeasuringSheet& wanted) {
  const char* edge = wanted.flip == game::FlipEdge::long_edge ? "long" : "short";
  return wanted.backs == game::BackPrinting::by_hand
             ? fmt::format("turned about the {} edge by hand", edge)
             : fmt::format("both sides, turned about the {} edge", edge);
}

std::string front_words(const MeasuringSheet& wanted) {
  return fmt::format(
      "**1** Print this at 100 % (actual size), {}, on the stock you use, three sheets or more.\n"
      "**2** Measure the two bars with a ruler, to a fifth of a millimetre.\n"
      "**By eye:** hold the sheet against a light, this side to you. Which letter lies behind A? "
      "At each scale (1) to (8), which line of one side meets a line of the other best? Count in "
      "its number; between two lines, take the half. When lines of different numbers meet, write "
      "both: 4:3 for line 4 of this side and 3 of the other. Numbers grow to the right and "
      "downwards.\n"
      "**With a scanner:** lay the sheet on something soft and prick the middle of the six rings "
      "with a fine needle, straight down. Put black paper behind it, and scan both sides at 300 "
      "ppi, flat.\n"
      "**3** Type quoin printer, and it says how to hand the readings over.",
      turned_words(wanted));
}

std::string back_words(const MeasuringSheet& wanted) {
  return fmt::format(
      "This is the other side of the measuring sheet, {}. Its scales and corner letters are drawn "
      "to be read from the front, against the light.\n"
      "When the letters behind A to D are not E to H, the sheet was turned about the other edge: "
      "choose that edge when printing, or make the sheet for it.",
      turned_words(wanted));
}

Item paragraph(const std::string& text, Rect box) {
  TextItem item;
  std::vector<std::string> unknown;
  item.block.runs = read_markup(text, {}, unknown);
  item.block.style.family = house_family;
  item.block.style.type_size = Mm{3};
  item.block.style.smallest_size = Mm{1.8};
  item.block.style.fill = black;
  item.block.style.paragraph_gap = 0.25;
  item.block.style.vertical = VerticalAlign::middle;
  item.block.box = box.size;
  item.at = box.at;
  Item whole;
  whole.layer = Layer::mark;
  whole.what = std::move(item);
  return whole;
}

std::string title(const MeasuringSheet& wanted, int number) {
  std::string text =
      fmt::format("Measuring sheet, {}, {}", wanted.paper_name, turned_words(wanted));
  if (wanted.sheets > 1) text += fmt::format(", sheet {} of {}", number, wanted.sheets);
  return text;
}

Page blank(const MeasuringSheet& wanted, std::string label) {
  Page page;
  page.media = wanted.paper;
  page.trim = page.bleed = Rect{{}, wanted.paper};
  page.label = std::move(label);
  return page;
}

void add(Page& page, std::vector<Item> items) {
  for (Item& item : items) page.own.items.push_back(std::move(item));
}

/// Marks that both sides have, each at its own places.
void add_side(Page& page, const SheetLayout& sheet, SheetSide side, const std::string& name) {
  page.own.items.push_back(dots(sheet.dots_of(side)));
  for (const press::CodeMark& mark : sheet.codes_of(side))
    page.own.items.push_back(code_mark(mark));
  add(page, heading(sheet, name));
}

Point title_place(const SheetLayout& sheet) { return {sheet.paper.width / 2, Mm{16}}; }
Size title_room(const SheetLayout& sheet) { return {sheet.paper.width - Mm{136}, Mm{10}}; }

Page front_page(const MeasuringSheet& wanted, const SheetLayout& sheet, int number) {
  Page page = blank(wanted, fmt::format("front {}", number));
  add_side(page, sheet, SheetSide::front, "FRONT");
  for (const Point pin : sheet.pins) page.own.items.push_back(pin_target(pin));
  for (const press::Vernier& each : sheet.verniers) {
    page.own.items.push_back(vernier(each, SheetSide::front));
  }
  for (const press::CornerLetter& each : sheet.letters) {
    page.own.items.push_back(words(std::string(1, each.letter), each.at, {Mm{6}, Mm{6}}, Mm{5}));
  }
  for (const press::ScaleBar& each : sheet.bars) add(page, bar(each));
  page.own.items.push_back(
      words(title(wanted, number), title_place(sheet), title_room(sheet), Mm{2.8}));
  page.own.items.push_back(paragraph(front_words(wanted), sheet.words));
  return page;
}

Page back_page(const MeasuringSheet& wanted, const SheetLayout& sheet, int number) {
  Page page = blank(wanted, fmt::format("back {}", number));
  add_side(page, sheet, SheetSide::back, "BACK");
  std::vector<Item> read_from_the_front;
  for (const press::Vernier& each : sheet.verniers) {
    read_from_the_front.push_back(vernier(each, SheetSide::back));
  }
  for (const press::CornerLetter& each : sheet.letters_behind) {
    read_from_the_front.push_back(
        words(std::string(1, each.letter), each.at, {Mm{6}, Mm{6}}, Mm{5}));
  }
  page.own.items.push_back(
      grouped(std::move(read_from_the_front), press::turned_over(wanted.paper, wanted.flip)));
  page.own.items.push_back(
      words(title(wanted, number), title_place(sheet), title_room(sheet), Mm{2.8}));
  page.own.items.push_back(paragraph(back_words(wanted), sheet.words));
  return page;
}

}  // namespace

Document measuring_sheet(const MeasuringSheet& wanted) {
  const SheetLayout sheet = press::sheet_layout(wanted.paper);
  Document document;
  document.title = "Measuring sheet for a printer";
  document.subject = fmt::format("Measuring sheet, {}", wanted.paper_name);
  document.language = "en";
  document.creator = "Quoin";
  if (wanted.backs == game::BackPrinting::printer) {
    document.duplex = wanted.flip == game::FlipEdge::long_edge ? Flip::long_edge : Flip::short_edge;
  }
  for (int number = 1; number <= wanted.sheets; ++number) {
    document.pages.push_back(front_page(wanted, sheet, number));
    document.pages.push_back(back_page(wanted, sheet, number));
  }
  return document;
}

}  // namespace quoin::pack
