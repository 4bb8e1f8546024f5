#include <fmt/format.h>

#include "pieces/card/element.h"

namespace quoin::pieces {
namespace {

constexpr int most_copies = 500;

enum class Arrange { row, column, grid, ring, places };

/// One copy: the middle of where it lies, and its turn.
struct Place {
  Point centre;
  Angle turn;
};

struct Pattern {
  Arrange arrange = Arrange::row;
  int count = 1;
  Size each;
  Mm gap;
  int columns = 3;
  bool upright = true;
};

/// 0, 0.5 or 1: where a smaller thing lies in a larger one.
double share(const Properties& properties, std::string_view key) {
  return properties
      .word<double>(key, {{"left", 0.0},
                          {"start", 0.0},
                          {"top", 0.0},
                          {"centre", 0.5},
                          {"middle", 0.5},
                          {"right", 1.0},
                          {"end", 1.0},
                          {"bottom", 1.0}})
      .value_or(0.5);
}

std::vector<Place> in_columns(const Pattern& pattern, int columns, Rect box, double across,
                              double down) {
  const int rows = (pattern.count + columns - 1) / columns;
  const auto span = [&](int n, Mm size) { return size * n + pattern.gap * (n - 1); };
  const Mm top = box.at.y + (box.size.height - span(rows, pattern.each.height)) * down;
  std::vector<Place> places;
  for (int i = 0; i < pattern.count; ++i) {
    const int row = i / columns, column = i % columns;
    const int in_row = std::min(columns, pattern.count - row * columns);
    const Mm left = box.at.x + (box.size.width - span(in_row, pattern.each.width)) * across;
    places.push_back({{left + (pattern.each.width + pattern.gap) * column + pattern.each.width / 2,
                       top + (pattern.each.height + pattern.gap) * row + pattern.each.height / 2},
                      {}});
  }
  return places;
}

std::vector<Place> in_a_ring(const Pattern& pattern, Rect box) {
  const Mm across = (box.size.width - pattern.each.width) / 2;
  const Mm down = (box.size.height - pattern.each.height) / 2;
  std::vector<Place> places;
  for (int i = 0; i < pattern.count; ++i) {
    const Angle angle = Angle::degrees(360.0 * i / pattern.count);
    const SinCos turn = sin_cos(angle);
    places.push_back({{box.centre().x + across * turn.sin, box.centre().y - down * turn.cos},
                      pattern.upright ? Angle{} : angle});
  }
  return places;
}

std::vector<Place> by_hand(const Properties& properties, Rect box, std::optional<int> count) {
  std::vector<Place> places;
  const game::Node* there = properties.node("places");
  if (!there || !there->list()) return places;
  for (const game::Node& place : *there->list()) {
    if (count && static_cast<int>(places.size()) == *count) break;
    const game::List* parts = place.list();
    const auto number = [&](std::size_t i) -> const double* {
      return parts && i < parts->size() ? (*parts)[i].number() : nullptr;
    };
    if (!number(0) || !number(1)) {
      properties.report(Id::face_not_a_number, place.origin,
                        "a place is two numbers, and a third for the turn",
                        "write it as [0.5, 0.5] or [0.5, 0.5, 180]");
      return {};
    }
    places.push_back(
        {{box.at.x + box.size.width * *number(0), box.at.y + box.size.height * *number(1)},
         Angle::degrees(number(2) ? *number(2) : 0)});
  }
  return places;
}

std::vector<Place> places_of(const Properties& properties, const Pattern& pattern, Rect box,
                             std::optional<int> asked) {
  const double across = share(properties, "align"), down = share(properties, "valign");
  switch (pattern.arrange) {
    case Arrange::row:
      return in_columns(pattern, std::max(1, pattern.count), box, across, down);
    case Arrange::column:
      return in_columns(pattern, 1, box, across, down);
    case Arrange::grid:
      return in_columns(pattern, pattern.columns, box, across, down);
    case Arrange::ring:
      return in_a_ring(pattern, box);
    case Arrange::places:
      return by_hand(properties, box, asked);
  }
  return {};
}

/// How many copies; nothing (reported) when the number makes no sense.
std::optional<int> read_count(const Properties& properties) {
  const std::optional<double> count = properties.number("count");
  if (!count) return std::nullopt;
  if (*count >= 0 && *count <= most_copies) return static_cast<int>(*count);
  properties.report(
      Id::face_too_many, properties.origin("count"),
      fmt::format("{} copies are asked for; a repeat can draw 0 to {}", *count, most_copies), "");
  return 0;
}

PicturePtr picture_of(const Properties& properties) {
  if (const std::optional<std::string> name = properties.text("symbol")) {
    const auto& symbols = properties.sitting().studio.symbols();
    if (const auto found = symbols.find(*name); found != symbols.end()) {
      return found->second->picture;
    }
    std::vector<std::string> known;
    for (const auto& [symbol, picture] : symbols) known.push_back(symbol);
    const auto meant = game::nearest(*name, known);
    properties.report(Id::face_unknown_word, properties.origin("symbol"),
                      fmt::format("there is no symbol \"{}\"", *name),
                      meant ? fmt::format("did you mean \"{}\"?", *meant)
                            : "declare it under [symbols] in game.toml");
    return nullptr;
  }
  const std::optional<std::string> path = properties.text("picture");
  return path ? open_picture(properties, *path, properties.origin("picture")) : nullptr;
}

}  // namespace

Drawn draw_repeat(const Properties& properties, Rect box, const Item& like) {
  const std::optional<int> asked = read_count(properties);
  Pattern pattern;
  pattern.count = asked.value_or(1);
  pattern.arrange = properties
                        .word<Arrange>("arrange", {{"row", Arrange::row},
                                                   {"column", Arrange::column},
                                                   {"grid", Arrange::grid},
                                                   {"ring", Arrange::ring},
                                                   {"places", Arrange::places}})
                        .value_or(Arrange::row);
  const Mm shorter = std::min(box.size.width, box.size.height);
  const Vec each = properties.pair("each").value_or(Vec{shorter, shorter});
  pattern.each = {each.x, each.y};
  pattern.gap = properties.length("gap").value_or(Mm{0});
  pattern.columns = std::max(1, static_cast<int>(properties.number("columns").value_or(3)));
  pattern.upright = properties.flag("upright").value_or(true);
  if (pattern.count == 0) return std::nullopt;
  const PicturePtr picture = picture_of(properties);
  if (!picture) return std::nullopt;
  GroupItem group;
  for (const Place& place : places_of(properties, pattern, box, asked)) {
    const Rect to{{place.centre.x - each.x / 2, place.centre.y - each.y / 2}, pattern.each};
    Item copy;
    copy.element = like.element;
    copy.origin = like.origin;
    copy.role = like.role;
    copy.map = Affine::turn_about(place.centre, place.turn);
    copy.what = PictureItem{
        picture, fitted(picture->facts(), to, PictureFit::contain, {Mm{0.5}, Mm{0.5}}), to, false};
    group.items.push_back(std::move(copy));
  }
  if (group.items.empty()) return std::nullopt;
  return group;
}

}  // namespace quoin::pieces
