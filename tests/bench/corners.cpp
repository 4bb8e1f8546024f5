// Photographs cards in simulation and says how often all four corners are found:
// `measured_corners [COUNT] [SEED]`, COUNT photographs of each kind (40), 1600 x 1200, through JPEG
// of quality 80. A card counts as found when its worst corner is within 2 px.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>

#include "known_pictures.h"
#include "trace/photo/photo_testing.h"
#include "trace/photo/quad.h"

namespace quoin::trials {
namespace {

struct Kind {
  const char* name;
  trace::Table table;
  double bow = 0;
};
constexpr Kind kinds[] = {
    {"plain", trace::Table::plain},     {"wood", trace::Table::wood},
    {"clutter", trace::Table::clutter}, {"low contrast", trace::Table::low_contrast},
    {"cloth", trace::Table::cloth},     {"plain, lens 0.03", trace::Table::plain, 0.03}};

struct Tally {
  int all = 0, right = 0, doubted_right = 0, doubted_wrong = 0;
  std::vector<double> off;  // px, of the corners of cards that were found
  double seconds = 0;
};

void add(Tally& to, const Tally& from) {
  to.all += from.all;
  to.right += from.right;
  to.doubted_right += from.doubted_right;
  to.doubted_wrong += from.doubted_wrong;
  to.off.insert(to.off.end(), from.off.begin(), from.off.end());
  to.seconds += from.seconds;
}

double share_of(std::vector<double> sorted, double share) {
  if (sorted.empty()) return 0;
  std::sort(sorted.begin(), sorted.end());
  return sorted[std::size_t(share * double(sorted.size() - 1))];
}

Tally measured(const Kind& kind, int number, int count, unsigned seed) {
  Tally tally;
  for (int i = 0; i < count; ++i) {
    trace::PhotoWishes wishes;
    wishes.table = kind.table;
    wishes.bow = kind.bow;
    wishes.seed = seed + unsigned(100 * number + 7919 * i);
    wishes.turn = i % 3 == 0 ? 180 : 25;
    const trace::Photograph photo = trace::photographed_card(wishes);
    const Raster picture = through_jpeg(photo.picture, 80);
    const auto start = std::chrono::steady_clock::now();
    const auto found = trace::find_cards(picture, {}, "photo", {}, trace::CardCount::one);
    tally.seconds +=
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    const trace::FoundCard& card = found->cards.front();
    const double off = trace::farthest_corner(photo.corners, card.corners);
    ++tally.all;
    const bool doubted = !card.doubts.empty();
    if (off <= 2) {
      ++tally.right;
      tally.off.push_back(off);
      tally.doubted_right += doubted ? 1 : 0;
    } else {
      tally.doubted_wrong += doubted ? 1 : 0;
    }
  }
  return tally;
}

void print(const char* name, const Tally& t) {
  fmt::print(
      "{:<18} within 2 px {:>3} of {:>3} ({:.1f} %)  worst corner median {:.2f} px, 95 % {:.2f}  "
      "doubted {} of {} wrong, {} of {} right  {:.3f} s\n",
      name, t.right, t.all, 100.0 * t.right / t.all, share_of(t.off, 0.5), share_of(t.off, 0.95),
      t.doubted_wrong, t.all - t.right, t.doubted_right, t.right, t.seconds / t.all);
  std::fflush(stdout);
}

}  // namespace
}  // namespace quoin::trials

int main(int argc, char** argv) {
  using namespace quoin::trials;
  const int count = argc > 1 ? std::atoi(argv[1]) : 40;
  const unsigned seed = argc > 2 ? unsigned(std::atoi(argv[2])) : 11;
  if (count < 1) {
    fmt::print(stderr, "measured_corners takes a number of photographs from 1 on\n");
    return 1;
  }
  Tally whole;
  int number = 0;
  for (const Kind& kind : kinds) {
    const Tally tally = measured(kind, number++, count, seed);
    print(kind.name, tally);
    add(whole, tally);
  }
  print("all", whole);
  const int wrong = whole.all - whole.right;
  const bool reached = whole.right >= 0.95 * whole.all && 2 * whole.doubted_wrong >= wrong;
  fmt::print("95 % within 2 px, and half of the others doubted: {}\n",
             reached ? "reached" : "MISSED");
  return reached ? 0 : 1;
}
