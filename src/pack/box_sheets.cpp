#include <fmt/format.h>

#include <algorithm>

#include "game/formats.h"
#include "pack/box_files.h"
#include "pack/net_lines.h"
#include "pack/sheet_foot.h"
#include "sheets/nest.h"
#include "sheets/printable.h"

namespace quoin::pack {
namespace {

using sheets::Footprint;

/// How much room nets want: `ample` for bleed and ticks; `close`, two bleeds may lie on each other
/// in the waste, but neither they nor ticks on another net; `least`, for a net alone on its sheet:
/// 1 mm of bleed is printed all round, and ticks may be lost at the edge of the paper.
enum class Room { ample, close, least };

Polygon strip_along(const sheets::MarkLine& tick) {
  const Rect box = grown(rect_between(tick.from, tick.to), Mm{0.3});
  return {{box.left(), box.top()},
          {box.right(), box.top()},
          {box.right(), box.bottom()},
          {box.left(), box.bottom()}};
}

Footprint footprint(const fold::Net& net, Mm bleed, Room room) {
  const std::vector<Region> outline = fold::cut_outline(net);
  const Mm rim = room == Room::ample ? bleed : std::max(Mm{1}, bleed / 2 + Mm{0.05});
  if (room == Room::least) return grown(outline, rim);
  std::vector<Polygon> all;
  for (const Region& region : grown(outline, rim)) all.push_back(region.outer);
  for (const sheets::MarkLine& tick : crease_ticks(net)) all.push_back(strip_along(tick));
  return united(all);
}

/// What lies on the back of sheets, if anything, needs what the printer reaches on both sides.
enum class Sides { front, both };

/// Where nets go on a page of that paper: what is printable, above the foot.
Rect net_room(const game::SheetWishes& wishes, Size paper, Sides sides) {
  Rect room = sides == Sides::both ? sheets::printable_on_both_sides(wishes, paper)
                                   : sheets::printable(wishes, paper);
  room.size.height = std::max(Mm{}, room.size.height - foot_height);
  return room;
}

/// The work of laying the nets of one box on one paper.
struct Laying {
  const game::SheetWishes& wishes;
  Sides sides;
  std::vector<Footprint> ample, close, least;  // of each net

  /// `times` times these nets on one sheet.
  [[nodiscard]] std::optional<NetSheet> on_one(Size paper, const std::vector<int>& nets,
                                               int times) const {
    const bool alone = nets.size() == 1 && times == 1;
    for (const auto* prints : {&ample, &close, &least}) {
      if (prints == &least && !alone) break;
      for (const Size page : {paper, turned(paper)}) {
        if (auto sheet = nested(page, *prints, nets, times)) return sheet;
      }
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] std::optional<NetSheet> nested(Size page, const std::vector<Footprint>& prints,
                                               const std::vector<int>& nets, int times) const {
    std::vector<Footprint> pieces;
    NetSheet sheet{page, {}, 1};
    for (int k = 0; k < times; ++k) {
      for (const int net : nets) {
        pieces.push_back(prints[static_cast<std::size_t>(net)]);
        sheet.nets.push_back({net, {}});
      }
    }
    const auto maps = sheets::nest(pieces, net_room(wishes, page, sides));
    if (!maps) return std::nullopt;
    for (std::size_t i = 0; i < maps->size(); ++i) sheet.nets[i].map = (*maps)[i];
    return sheet;
  }
};

Sides sides_of(const BoxArt& art, game::NetLines lines) {
  const bool inside = std::any_of(
      art.begin(), art.end(), [](const pieces::NetArt& one) { return !one.inside.items.empty(); });
  return inside || lines == game::NetLines::back ? Sides::both : Sides::front;
}

Laying laying(const game::Game& game, const std::vector<BoxNet>& nets, const BoxArt& art,
              Sides sides) {
  Laying work{game.sheets, sides, {}, {}, {}};
  for (std::size_t i = 0; i < nets.size(); ++i) {
    const Mm bleed = bleed_of(art, i);
    work.ample.push_back(footprint(*nets[i].net, bleed, Room::ample));
    work.close.push_back(footprint(*nets[i].net, bleed, Room::close));
    work.least.push_back(footprint(*nets[i].net, bleed, Room::least));
  }
  return work;
}

/// Nets that share a sheet, in their order: all of them when they go on one, else each joins the
/// first sheet that takes it.
std::vector<std::vector<int>> grouped(const Laying& work, Size paper,
                                      const std::vector<int>& nets) {
  std::vector<std::vector<int>> groups;
  for (const int net : nets) {
    bool found = false;
    for (std::vector<int>& group : groups) {
      group.push_back(net);
      found = work.on_one(paper, group, 1).has_value();
      if (found) break;
      group.pop_back();
    }
    if (!found) groups.push_back({net});
  }
  return groups;
}

/// The sheets for `boxes` times one group of nets.
void add_sheets(const Laying& work, Size paper, const std::vector<int>& group, int boxes,
                std::vector<NetSheet>& sheets) {
  constexpr int most_on_a_sheet = 12;
  std::optional<NetSheet> full = work.on_one(paper, group, 1);
  int together = 1;
  while (together < std::min(boxes, most_on_a_sheet)) {
    auto more = work.on_one(paper, group, together + 1);
    if (!more) break;
    full = std::move(more);
    ++together;
  }
  full->times = boxes / together;
  sheets.push_back(std::move(*full));
  if (boxes % together == 0) return;
  if (auto rest = work.on_one(paper, group, boxes % together)) sheets.push_back(std::move(*rest));
}

bool is_american(std::string_view name) {
  return name == "Letter" || name == "Legal" || name == "Tabloid" || name.ends_with("in");
}

/// Whether paper of that name can be had by who prints on `own`: sheets of the ISO A series beside
/// each other and beside paper without a name, the American ones beside each other. RA and SRA are
/// a print shop's untrimmed sheets, B and C are for posters and envelopes.
bool same_family(std::string_view name, std::string_view own) {
  if (is_american(own)) return is_american(name);
  return name.size() >= 2 && name[0] == 'A' && name[1] >= '0' && name[1] <= '9';
}

bool is_for_home(std::string_view name) { return same_family(name, "A4") || is_american(name); }

/// The smallest named paper that takes the net: of the own family, else of the other; null when
/// none does.
const game::NamedSize* next_paper(const Laying& work, int net, const std::string& own) {
  const auto area = [](Size size) { return size.width.value * size.height.value; };
  const auto rank = [&](const game::NamedSize& named) {
    return std::pair(same_family(named.name, own) ? 0 : 1, area(named.size));
  };
  const game::NamedSize* best = nullptr;
  for (const game::NamedSize& named : game::paper_sizes()) {
    if (!is_for_home(named.name) || (best != nullptr && rank(*best) <= rank(named))) continue;
    if (area(named.size) <= area(work.wishes.paper)) continue;
    if (work.on_one(named.size, {net}, 1)) best = &named;
  }
  return best;
}

Diagnostic too_large(const game::Game& game, const BoxNet& net, const game::NamedSize* larger) {
  const Rect room = net_room(game.sheets, game.sheets.paper, Sides::front);
  Diagnostic found(
      Id::box_larger_than_sheet, game.box ? game.box->origin : Origin{},
      fmt::format("the net of the box is {:.1f} x {:.1f} mm, and {} has {:.1f} x {:.1f} mm for it",
                  net.bounds.size.width.value, net.bounds.size.height.value, game.sheets.paper_name,
                  room.size.width.value, room.size.height.value));
  found.on(net.name).detail(
      "home/box.pdf is without it; the files for a shop and a cutter have it");
  if (larger != nullptr) found.hint(fmt::format("{} takes it", larger->name));
  found.hint("have shop/box.pdf printed, or cut it from cutter/" + net.name + ".svg");
  return found;
}

Diagnostic lines_on_inside(const game::Game& game) {
  Diagnostic found(Id::box_lines_on_inside, game.box ? game.box->place("lines") : Origin{},
                   "the inside of the box is printed, so the lines are on the front");
  found.detail("lines on the back would lie on what is printed there");
  return found.hint("write lines = \"front\", or leave it out");
}

}  // namespace

Checked<BoxSheets> lay_box(const game::Game& game, const pieces::Box& box, const BoxArt& art,
                           int boxes) {
  Checked<BoxSheets> made;
  BoxSheets& laid = made.value;
  laid.lines = game.box ? game.box->lines : game::NetLines::front;
  const bool inside = sides_of(art, game::NetLines::front) == Sides::both;
  if (inside && laid.lines == game::NetLines::back) {
    laid.lines = game::NetLines::front;
    made.found.push_back(lines_on_inside(game));
  }
  const std::vector<BoxNet> nets = box_nets(box, game.title);
  const Laying work = laying(game, nets, art, sides_of(art, laid.lines));
  std::vector<int> fitting;
  for (int net = 0; net < std::ssize(nets); ++net) {
    if (work.on_one(game.sheets.paper, {net}, 1)) {
      fitting.push_back(net);
    } else {
      made.found.push_back(too_large(game, nets[static_cast<std::size_t>(net)],
                                     next_paper(work, net, game.sheets.paper_name)));
    }
  }
  for (const std::vector<int>& group : grouped(work, game.sheets.paper, fitting)) {
    add_sheets(work, game.sheets.paper, group, std::max(boxes, 1), laid.sheets);
  }
  return made;
}

namespace {

Diagnostic in_two_parts(const game::Game& game, const pieces::Box& whole) {
  const std::vector<BoxNet> nets = box_nets(whole, "");
  const auto large = std::max_element(nets.begin(), nets.end(), [](const auto& a, const auto& b) {
    return a.bounds.size.width < b.bounds.size.width;
  });
  Diagnostic found(
      Id::box_two_parts, game.box->origin,
      fmt::format("the net would be {:.1f} x {:.1f} mm in one part, too large for {}, so it comes "
                  "in two",
                  large->bounds.size.width.value, large->bounds.size.height.value,
                  game.sheets.paper_name));
  found.detail("the back half has a joining flap that is glued inside the right side");
  return found.hint("write parts = \"one\" under [box] to keep it in one part");
}

Checked<std::optional<pieces::Box>> made_with(const game::Game& game, game::NetParts parts) {
  game::BoxWishes wishes = *game.box;
  wishes.parts = parts;
  return pieces::make_box(wishes, pieces::contents_of(game));
}

bool all_fit(const game::Game& game, const pieces::Box& box) {
  const Diagnostics found = lay_box(game, box, {}, 1).found;
  return std::none_of(found.begin(), found.end(),
                      [](const Diagnostic& one) { return one.id == Id::box_larger_than_sheet; });
}

}  // namespace

Checked<std::optional<pieces::Box>> box_for_paper(const game::Game& game) {
  if (!game.box) return {};
  auto whole = made_with(game, game.box->parts);
  if (!whole.value) return whole;
  const bool in_two = whole.value->kind->in_two == pieces::BoxKind::InTwo::possible;
  if (game.box->parts == game::NetParts::two && !in_two) {
    Diagnostic found(
        Id::box_not_in_two, game.box->place("parts"),
        fmt::format("the nets of a {} are not drawn in two parts", whole.value->kind->title));
    whole.found.push_back(
        found.hint("leave parts out, or write kind = \"tuck\" or kind = \"sleeve\""));
  }
  if (game.box->parts != game::NetParts::automatic || !in_two) return whole;
  if (all_fit(game, *whole.value)) return whole;
  auto halves = made_with(game, game::NetParts::two);
  if (!halves.value || any_errors(halves.found) || !all_fit(game, *halves.value)) return whole;
  halves.found.push_back(in_two_parts(game, *whole.value));
  return halves;
}

}  // namespace quoin::pack
