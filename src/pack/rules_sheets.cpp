#include <fmt/format.h>

#include <algorithm>

#include "game/paper_classes.h"
#include "pack/rules_files.h"
#include "pack/sheet_foot.h"
#include "sheets/printable.h"
#include "sheets/wording.h"

namespace quoin::pack {
namespace {

/// For ticks: between two trims, and between a trim and the end of what is printed.
constexpr Mm tick_room{4}, edge_room{3};

/// Where leaves go on a page of that paper: what the printer reaches on both sides, above the foot.
Rect rules_room(const game::SheetWishes& wishes, Size paper, rules::Form::Sides sides) {
  Rect room = sides == rules::Form::Sides::both ? sheets::printable_on_both_sides(wishes, paper)
                                                : sheets::printable(wishes, paper);
  room.size.height = std::max(Mm{}, room.size.height - foot_height);
  return room;
}

Rect within_ticks(Rect room) {
  const Size inner{room.size.width - edge_room * 2, room.size.height - edge_room * 2};
  return {room.at + Vec{edge_room, edge_room},
          {std::max(Mm{}, inner.width), std::max(Mm{}, inner.height)}};
}

rules::Form::Sides printed_sides(const game::SheetWishes& wishes) {
  return sheets::has_back_forms(wishes) ? rules::Form::Sides::both : rules::Form::Sides::one;
}

Size upright(Size paper) {
  return {std::min(paper.width, paper.height), std::max(paper.width, paper.height)};
}

int along(Mm room, Mm one) {
  return static_cast<int>((room + tick_room + epsilon) / (one + tick_room));
}

/// Places for leaves on a page, row by row, in its middle.
std::vector<Point> leaf_places(Rect room, Size leaf) {
  const Rect inner = within_ticks(room);
  const int across = along(inner.size.width, leaf.width);
  const int down = along(inner.size.height, leaf.height);
  const auto used = [](int count, Mm one) { return (one + tick_room) * count - tick_room; };
  const Point at = inner.at + Vec{(inner.size.width - used(across, leaf.width)) / 2,
                                  (inner.size.height - used(down, leaf.height)) / 2};
  std::vector<Point> places;
  for (int row = 0; row < down; ++row) {
    for (int column = 0; column < across; ++column) {
      places.push_back(at +
                       Vec{(leaf.width + tick_room) * column, (leaf.height + tick_room) * row});
    }
  }
  return places;
}

/// One sheet with the leaves of a list of numbers in the first places.
RulesSheet sheet_with(Size paper, const std::vector<Point>& places, Size leaf,
                      const std::vector<int>& leaves, int times) {
  RulesSheet sheet{paper, {}, times};
  for (std::size_t i = 0; i < leaves.size(); ++i) {
    sheet.leaves.push_back({leaves[i], Affine::move(places[i] - Point{}), {places[i], leaf}});
  }
  return sheet;
}

}  // namespace

rules::Rooms rules_rooms(const game::Game& game) {
  const game::SheetWishes& wishes = game.sheets;
  rules::Rooms rooms;
  rooms.box = rules::room_in_box(game);
  rooms.paper = upright(wishes.paper);
  rooms.sides = printed_sides(wishes);
  for (const Size paper : {rooms.paper, turned(rooms.paper)}) {
    rooms.usable.push_back(within_ticks(rules_room(wishes, paper, rooms.sides)).size);
  }
  rooms.dead_margin = sheets::dead_margin(wishes, rooms.paper);
  return rooms;
}

int RulesSheets::count() const {
  int all = 0;
  for (const RulesSheet& sheet : sheets) all += sheet.times;
  return all;
}

RulesSheets lay_rules(const game::Game& game, const rules::Leaflet& leaflet, int copies) {
  RulesSheets laid;
  laid.copies = copies = std::max(1, copies);
  const rules::Form& form = leaflet.form;
  const Size paper = upright(game.sheets.paper);
  if (leaflet.whole_sheet) {
    laid.sheets.push_back({paper, {{0, {}, {{}, form.leaf}}}, copies});
    return laid;
  }
  Size page = paper;
  std::vector<Point> places;
  for (const Size way : {paper, turned(paper)}) {
    std::vector<Point> these = leaf_places(rules_room(game.sheets, way, form.sides), form.leaf);
    if (these.size() <= places.size()) continue;
    places = std::move(these);
    page = way;
  }
  const int room = static_cast<int>(places.size());
  if (room == 0) return laid;
  if (form.leaves > room) {
    laid.on_a_sheet = 0;
    for (int first = 0; first < form.leaves; first += room) {
      std::vector<int> leaves;
      for (int i = first; i < std::min(first + room, form.leaves); ++i) leaves.push_back(i);
      laid.sheets.push_back(sheet_with(page, places, form.leaf, leaves, copies));
    }
    return laid;
  }
  const int together = std::min(copies, room / form.leaves);
  laid.on_a_sheet = room / form.leaves;
  const auto add = [&](int sets, int times) {
    std::vector<int> leaves;
    for (int set = 0; set < sets; ++set) {
      for (int i = 0; i < form.leaves; ++i) leaves.push_back(i);
    }
    laid.sheets.push_back(sheet_with(page, places, form.leaf, leaves, times));
  };
  add(together, copies / together);
  if (copies % together > 0) add(copies % together, 1);
  return laid;
}

std::string rules_paper_words(const game::RulesWishes& wishes) {
  const game::PaperClass* paper = game::find_paper_class(wishes.paper.paper_class);
  return fmt::format("{}, {:g} g/m²", paper ? paper->title : "paper",
                     wishes.paper.grammage.value_or(90));
}

std::vector<std::string> rules_lines(const game::Game& game, const rules::Leaflet& leaflet,
                                     const RulesSheets& sheets) {
  std::vector<std::string> lines = leaflet.choices;
  if (!game.rules || sheets.sheets.empty()) return lines;
  std::string paper = fmt::format("{} of {}, {}", sheets::counted(sheets.count(), "sheet"),
                                  game.sheets.paper_name, rules_paper_words(*game.rules));
  if (sheets.on_a_sheet > 1) paper += fmt::format(", room for {} on each", sheets.on_a_sheet);
  lines.push_back(std::move(paper));
  return lines;
}

}  // namespace quoin::pack
