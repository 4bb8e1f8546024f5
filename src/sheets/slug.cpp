#include "sheets/slug.h"

#include "sheets/wording.h"

namespace quoin::sheets {
namespace {

constexpr Mm type_size{6 * mm_per_inch / points_per_inch};
constexpr Mm smallest_type{4.5 * mm_per_inch / points_per_inch};
/// A letter takes at most about this of the type size: English words measure 0.44 to 0.46 in the
/// house face, capitals more.
constexpr double letter_width = 0.57;

/// How many characters a row holds in the smallest type.
int characters_in(Mm length) {
  return std::max(0, static_cast<int>(length / (smallest_type * letter_width)));
}

bool begins_a_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) != 0x80; }

/// At most `most` characters of UTF-8 text, the last one "…" when some were cut off.
std::string cut_off(const std::string& text, int most) {
  int count = 0;
  std::size_t end_of_all_but_one = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!begins_a_character(text[i])) continue;
    ++count;
    if (count == most) end_of_all_but_one = i;
    if (count > most) return text.substr(0, end_of_all_but_one) + "…";
  }
  return text;
}

Item words(const std::string& text, Mm from, Mm length, const SlugRow& row,
           const std::string& family) {
  TextItem item;
  item.block.runs = {{text, false, false, nullptr}};
  item.block.style.family = family;
  item.block.style.type_size = type_size;
  item.block.style.smallest_size = smallest_type;
  item.block.style.vertical = VerticalAlign::middle;
  // The box is deeper than the row so that a face with tall lines is not shrunk for its empty
  // parts; the letters stand in the row's middle all the same.
  constexpr Mm box_height{4};
  // Measured: a line in the house face then has its ink, accents to descenders, inside the row.
  constexpr Mm raised{0.15};
  // A first letter such as J may reach left of where it begins.
  constexpr Mm overhang{0.3};
  item.block.box = {length - overhang, box_height};
  item.at = {from + overhang, (slug_row - box_height) / 2 - raised};
  Item whole;
  whole.layer = Layer::mark;
  whole.map = row.map;
  whole.clip = Path::rectangle({{from, Mm{0}}, {length, slug_row}});
  whole.what = std::move(item);
  return whole;
}

/// Ticks stand on a line at the row's foot: long at the ends, middling at the middle, short at the
/// tens.
Path bar_path(Mm length) {
  constexpr Mm ten{10};
  constexpr Mm end_tick{2.2}, middle_tick{1.7}, short_tick{1.1};
  const Mm foot = slug_row - Mm{0.2};
  Path path;
  path.move_to({mark_width / 2, foot}).line_to({mark_width / 2 + length, foot});
  const int tens = static_cast<int>(std::lround(length / ten));
  for (int i = 0; i <= tens; ++i) {
    const Mm x = mark_width / 2 + ten * i;
    const bool is_end = i == 0 || i == tens;
    const Mm height = is_end ? end_tick : (i * 2 == tens ? middle_tick : short_tick);
    path.move_to({x, foot}).line_to({x, foot - height});
  }
  return path;
}

/// A row in the page's frame: `zone` is upright or across.
SlugRow row_in(Rect zone, SlugPlace place) {
  if (place == SlugPlace::across) {
    return {Affine::move({zone.left(), zone.top()}), zone.size.width};
  }
  const Affine upwards = Affine::turn(Angle::degrees(-90));
  return {then(upwards, Affine::move({zone.left(), zone.bottom()})), zone.size.height};
}

/// What stands beside the bar: all of it, the length alone, or nothing, as there is room.
std::string bar_words(Mm length, Mm room) {
  const std::string brief = millimetres(length);
  const std::string whole =
      brief + " - measure this. If it is shorter or longer, print again at 100 % (actual size).";
  const auto has_room_for = [&](const std::string& text) {
    return static_cast<int>(text.size()) <= characters_in(room);
  };
  if (has_room_for(whole)) return whole;
  return has_room_for(brief) ? brief : "";
}

/// Shortens the zone so that it keeps clear of every target beside it.
Rect clear_of_targets(Rect zone, const std::vector<Point>& targets, SlugPlace place) {
  constexpr Mm clearance{1};
  const Mm reach = target_size / 2 + clearance;
  const bool across = place == SlugPlace::across;
  Mm from = across ? zone.left() : zone.top(), to = across ? zone.right() : zone.bottom();
  const Mm middle = (from + to) / 2;
  for (const Point target : targets) {
    if (!overlap(zone, grown(Rect{target, {}}, reach))) continue;
    const Mm at = across ? target.x : target.y;
    if (at < middle) from = std::max(from, at + reach);
    if (at >= middle) to = std::min(to, at - reach);
  }
  if (across) return {{from, zone.top()}, {std::max(Mm{0}, to - from), zone.size.height}};
  return {{zone.left(), from}, {zone.size.width, std::max(Mm{0}, to - from)}};
}

/// Rows begin in line with the first trim when that leaves enough of them.
Rect in_line_with_trims(Rect zone, Mm first_trim, SlugPlace place) {
  constexpr Mm enough{190};
  if (place == SlugPlace::across) {
    if (zone.right() - first_trim < enough) return zone;
    const Mm from = std::max(zone.left(), first_trim);
    return {{from, zone.top()}, {zone.right() - from, zone.size.height}};
  }
  // Upright rows begin at the bottom.
  if (first_trim - zone.top() < enough) return zone;
  return {zone.at, {zone.size.width, std::min(zone.bottom(), first_trim) - zone.top()}};
}

/// From the bleed to the row's near edge: past the crop marks, a little further where it can be.
Mm row_distance(Mm strip, Mm mark_length) {
  constexpr Mm pleasant_gap{1.2};
  const Mm marks = mark_clearance + mark_length;
  return std::min(marks + pleasant_gap, strip - slug_row);
}

}  // namespace

std::optional<SlugRows> slug_rows(const PageFrame& frame, const std::vector<Point>& targets) {
  const SlugPlace place = slug_place(frame);
  if (place == SlugPlace::none) return std::nullopt;
  const Insets strip = strips(frame), marks = mark_lengths(frame);
  const Rect& u = frame.usable;
  Rect words, bar;
  if (place == SlugPlace::across) {
    const Size size{u.size.width, slug_row};
    const Mm above = row_distance(strip.top, marks.top);
    const Mm below = row_distance(strip.bottom, marks.bottom);
    words = {{u.left(), frame.bleed.top() - above - slug_row}, size};
    bar = {{u.left(), frame.bleed.bottom() + below}, size};
  } else {
    const Size size{slug_row, u.size.height};
    const Mm before = row_distance(strip.left, marks.left);
    const Mm after = row_distance(strip.right, marks.right);
    words = {{frame.bleed.left() - before - slug_row, u.top()}, size};
    bar = {{frame.bleed.right() + after, u.top()}, size};
  }
  const Mm first_trim = place == SlugPlace::across ? frame.xs.front() : frame.ys.back();
  const auto row = [&](Rect zone) {
    const Rect clear = clear_of_targets(zone, targets, place);
    return row_in(in_line_with_trims(clear, first_trim, place), place);
  };
  return SlugRows{row(words), row(bar)};
}

std::string slug_text(const Slug& slug, Mm row_length) {
  std::string text;
  for (const std::string& part : {slug.game, slug.sheet, slug.stock, slug.printer, slug.next}) {
    if (part.empty()) continue;
    text += (text.empty() ? "" : " · ") + part;
  }
  for (char& c : text) {
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  }
  constexpr int fewest_worth_reading = 8;
  const int most = characters_in(row_length);
  return most < fewest_worth_reading ? "" : cut_off(text, most);
}

std::optional<Item> slug_line(const Slug& slug, const SlugRow& row, const std::string& family) {
  const std::string text = slug_text(slug, row.length);
  if (text.empty()) return std::nullopt;
  Item line = words(text, Mm{0}, row.length, row, family);
  line.element = "slug";
  return line;
}

std::vector<Item> measuring_bar(const SlugRow& row, const std::string& family) {
  constexpr Mm gap{2.5};
  constexpr Mm whole{100}, half{50};
  if (!fits(shortest_bar, row.length)) return {};
  const Mm length = fits(whole + mark_width, row.length) ? whole : half;
  ShapeItem shape;
  shape.path = bar_path(length);
  shape.stroke.paint = black;
  shape.stroke.width = mark_width;
  Item bar;
  bar.element = "measuring-bar";
  bar.layer = Layer::mark;
  bar.map = row.map;
  bar.what = std::move(shape);
  const Mm from = length + mark_width + gap;
  const Mm left = row.length - from;
  const std::string says = bar_words(length, left);
  if (says.empty()) return {bar};
  Item text = words(says, from, left, row, family);
  text.element = "measuring-words";
  return {bar, text};
}

}  // namespace quoin::sheets
