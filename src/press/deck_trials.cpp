#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "press/tolerance.h"

namespace quoin::press {
namespace {

/// Normal quantities two at a time: G. E. P. Box, M. E. Muller, "A note on the generation of random
/// normal deviates", Ann. Math. Statist. 29 (1958), in M. G. Marsaglia's polar form. The standard
/// library's own differs from one library to the next, and with it the answer.
class Normal {
 public:
  explicit Normal(std::uint64_t seed) : random_(seed) {}
  double operator()() {
    if (has_spare_) {
      has_spare_ = false;
      return spare_;
    }
    double x = 0, y = 0, s = 0;
    do {
      x = uniform();
      y = uniform();
      s = x * x + y * y;
    } while (s >= 1 || s == 0);
    const double factor = std::sqrt(-2 * std::log(s) / s);
    spare_ = y * factor;
    has_spare_ = true;
    return x * factor;
  }

 private:
  /// From -1 to 1, of 53 bits.
  double uniform() { return static_cast<double>(random_() >> 11) * 0x1.0p-52 - 1; }
  std::mt19937_64 random_;
  double spare_ = 0;
  bool has_spare_ = false;
};

/// How far out the four cuts are on one face: left, right, top, bottom; positive shows paper.
using Out = std::array<double, 4>;

bool is_spoilt(const Out& out, const Margins& margins) {
  return std::any_of(out.begin(), out.end(), [&](double side) {
    return side > margins.bleed.value || -side > margins.safe.value;
  });
}

bool is_crooked(const Out& out, const Margins& margins, double evenness) {
  const double border = margins.border.value;
  if (border <= 0) return false;
  for (const std::size_t i : {std::size_t{0}, std::size_t{2}}) {
    const double a = border + out[i], b = border + out[i + 1];
    if (std::min(a, b) < evenness * std::max(a, b)) return true;
  }
  return false;
}

/// The same cuts as seen on the back, which strays from the front. The turn counts as the shift
/// that it makes at the end of each side, as in `chances`.
Out behind(const Out& out, const DeckCard& card, Normal& normal) {
  const ErrorBudget& e = card.back_errors;
  const double turn = e.turn.radians * normal();
  const double x = e.shift_x.value * normal() + turn * card.back.trim.height.value / 2;
  const double y = e.shift_y.value * normal() + turn * card.back.trim.width.value / 2;
  return {out[1] + x, out[0] - x, out[2] + y, out[3] - y};
}

}  // namespace

DeckTrials simulated_deck(const std::vector<DeckCard>& deck, Trials trials, double evenness) {
  Normal normal(trials.seed);
  std::vector<int> decks_with(deck.size() + 1, 0);
  long spoilt = 0, crooked = 0;
  for (int trial = 0; trial < trials.count; ++trial) {
    int in_this = 0;
    for (const DeckCard& card : deck) {
      const ErrorBudget& e = card.errors;
      const Out front{e.cut_left.value * normal(), e.cut_right.value * normal(),
                      e.cut_top.value * normal(), e.cut_bottom.value * normal()};
      const Out back = behind(front, card, normal);
      in_this += is_spoilt(front, card.front) || is_spoilt(back, card.back) ? 1 : 0;
      crooked += is_crooked(front, card.front, evenness) || is_crooked(back, card.back, evenness);
    }
    spoilt += in_this;
    ++decks_with[static_cast<std::size_t>(in_this)];
  }
  DeckTrials result;
  if (trials.count < 1) return result;
  result.spoilt = static_cast<double>(spoilt) / trials.count;
  result.lopsided = static_cast<double>(crooked) / trials.count;
  for (int below = 0; below < 0.95 * trials.count; ++result.spoilt_at_most) {
    below += decks_with[static_cast<std::size_t>(result.spoilt_at_most)];
    if (below >= 0.95 * trials.count) break;
  }
  return result;
}

}  // namespace quoin::press
