// Makes random boxes of every kind and counts what becomes of them: `measured_boxes [COUNT
// [SEED]]`.
//
// Cards of 40 to 120 mm, 10 to 200 of them, cards and board of 0.2 to 0.6 mm. Each box must fold
// shut without a plate passing through another, hold the thickest deck, and leave it no more room
// than the slack; or an error must say why not. Also measured: the median time from a changed
// number of cards to the new net, folded and checked, in processor time of the one thread it takes.
// Exit status 1 when a target is missed.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <ctime>
#include <string_view>
#include <vector>

#include "chance.h"
#include "pieces/box/box.h"

namespace quoin::bench {
namespace {

using pieces::Box;
using pieces::Contents;

constexpr double median_target = 5;  // ms

struct Asked {
  game::BoxWishes wishes;
  Contents contents;
};

Asked asked(Chance& chance, std::string_view kind) {
  Asked one;
  one.wishes.kind = kind;
  one.wishes.ends = chance.fraction() < 0.5 ? game::Ends::reverse : game::Ends::straight;
  one.wishes.locks = chance.fraction() < 0.5 ? game::Locks::slits : game::Locks::none;
  one.wishes.board.caliper = Mm{chance.between(0.2, 0.6)};
  one.contents.cards = 10 + chance.below(191);
  one.contents.card = {Mm{chance.between(40, 120)}, Mm{chance.between(40, 120)}};
  one.contents.stock.caliper = Mm{chance.between(0.2, 0.6)};
  return one;
}

/// What became of the boxes of one kind.
struct Tally {
  int made = 0, warned = 0, collided = 0, crushed = 0, slack = 0, open = 0, refused = 0;
  Mm widest;  ///< most room over the thickest deck, on any axis
  std::vector<double> times;
};

std::array<std::pair<Mm, Mm>, 3> rooms(const Box& box) {
  const fold::Block &room = box.fit.clear.size, deck = pieces::thickest(box.deck);
  return {{{room.width, deck.width}, {room.height, deck.height}, {room.depth, deck.depth}}};
}

void count(Tally& tally, const Asked& one, const Checked<std::optional<Box>>& made) {
  if (!made.value) {
    ++tally.refused;
    for (const Diagnostic& d : made.found) fmt::print("  refused: {}\n", d.message);
    return;
  }
  ++tally.made;
  tally.collided += made.value->fit.collisions.empty() ? 0 : 1;
  for (const fold::Collision& c : made.value->fit.collisions) {
    fmt::print("  {} and {} by {:.3f} mm at {:.3f}\n", fold::panel(made.value->model, c.a).name,
               fold::panel(made.value->model, c.b).name, c.depth.value, c.progress);
  }
  bool crushed = false, slack = false;
  for (const auto& [room, deck] : rooms(*made.value)) {
    crushed |= room < deck;
    slack |= room - deck > one.wishes.slack;
    tally.widest = std::max(tally.widest, room - deck);
  }
  tally.crushed += crushed;
  tally.slack += slack;
  const auto is = [&](Id id) {
    return std::any_of(made.found.begin(), made.found.end(),
                       [&](const Diagnostic& d) { return d.id == id; });
  };
  tally.open += is(Id::box_cannot_close);
  tally.warned += quoin::count(made.found).warnings > 0;
}

double median(std::vector<double> times) {
  if (times.empty()) return 0;
  std::nth_element(times.begin(), times.begin() + std::ssize(times) / 2, times.end());
  return times[times.size() / 2];
}

Tally tally_of(std::string_view kind, int boxes, std::uint64_t seed) {
  Chance chance(seed);
  Tally tally;
  for (int i = 0; i < boxes; ++i) {
    const Asked one = asked(chance, kind);
    const std::clock_t started = std::clock();
    const auto made = pieces::make_box(one.wishes, one.contents);
    const double took = static_cast<double>(std::clock() - started) / CLOCKS_PER_SEC;
    tally.times.push_back(took * 1000);
    count(tally, one, made);
  }
  return tally;
}

/// Prints one row; true when all targets are met.
bool print_row(std::string_view kind, const Tally& tally) {
  const double typical = median(tally.times);
  fmt::print("{:<8}{:>7}{:>9}{:>10}{:>9}{:>8}{:>7}{:>9}{:>14.2f}{:>11.2f}\n", kind, tally.made,
             tally.refused, tally.collided, tally.crushed, tally.slack, tally.open, tally.warned,
             tally.widest.value, typical);
  const int failures = tally.refused + tally.collided + tally.crushed + tally.slack + tally.open;
  return failures == 0 && typical < median_target;
}

int number(const char* text, int otherwise) {
  int value = otherwise;
  const std::string_view all(text);
  std::from_chars(all.data(), all.data() + all.size(), value);
  return value;
}

}  // namespace
}  // namespace quoin::bench

int main(int argc, char** argv) {
  const int boxes = argc > 1 ? quoin::bench::number(argv[1], 2000) : 2000;
  const int seed = argc > 2 ? quoin::bench::number(argv[2], 1) : 1;
  fmt::print("{:<8}{:>7}{:>9}{:>10}{:>9}{:>8}{:>7}{:>9}{:>14}{:>11}\n", "kind", "made", "refused",
             "colliding", "crushed", "slack", "open", "warned", "most room mm", "median ms");
  bool met = true;
  for (const quoin::pieces::BoxKind& kind : quoin::pieces::box_kinds()) {
    met &= quoin::bench::print_row(kind.word, quoin::bench::tally_of(kind.word, boxes, seed));
  }
  fmt::print("targets: none refused, colliding, crushed, slack or open; median under {} ms: {}\n",
             quoin::bench::median_target, met ? "met" : "MISSED");
  return met ? 0 : 1;
}
