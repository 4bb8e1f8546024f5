#include <algorithm>
#include <numeric>

#include "game/game.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// Longer words than this are texts, not misspelt names; comparing them would only cost time.
constexpr std::size_t longest_name = 64;

/// Edit distance with neighbouring letters swapped counted as one step (optimal string alignment).
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before, last(b.size() + 1), now(b.size() + 1);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] != b[j - 1]);
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) now[j] = std::min(now[j], before[j - 2] + 1);
    }
    before = last;
    last = now;
  }
  return last[b.size()];
}

std::size_t common_start(std::string_view a, std::string_view b) {
  const auto [end, other] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
  return static_cast<std::size_t>(end - a.begin());
}

/// Without capitals, spaces, '-' and '_': what is only written differently is the nearest of all.
std::string plain(std::string_view word) {
  std::string kept;
  for (const char c : lower_case(word)) {
    if (c != ' ' && c != '-' && c != '_') kept += c;
  }
  return kept;
}

}  // namespace

std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& known) {
  if (word.empty() || word.size() > longest_name) return std::nullopt;
  const std::string asked = plain(word);
  const std::size_t near_enough = std::max<std::size_t>(1, (asked.size() + 1) / 3);
  const std::string* best = nullptr;
  std::size_t least = near_enough + 1, longest_start = 0;
  for (const std::string& candidate : known) {
    if (candidate.size() > longest_name || candidate.empty()) continue;
    const std::string name = plain(candidate);
    const std::size_t longer = std::max(name.size(), asked.size());
    if (longer - std::min(name.size(), asked.size()) > near_enough) continue;
    const std::size_t steps = distance(asked, name);
    // A distance as long as the word itself shares nothing with it.
    if (steps >= longer || steps > near_enough || steps > least) continue;
    const std::size_t same = common_start(asked, name);
    if (steps < least || same > longest_start) {
      least = steps;
      longest_start = same;
      best = &candidate;
    }
  }
  return best ? std::optional(*best) : std::nullopt;
}

}  // namespace quoin::game
