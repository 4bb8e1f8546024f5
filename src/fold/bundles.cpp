#include "fold/bundles.h"

#include <algorithm>
#include <map>
#include <set>

namespace quoin::fold {
namespace {

/// What must be painted before what, among bundles of pieces.
class Ordering {
 public:
  explicit Ordering(const std::vector<Piece>& pieces) : pieces_(pieces) {
    std::map<int, int> bundle_of_face;
    for (const Piece& piece : pieces) {
      const auto at = bundle_of_face.try_emplace(piece.face, bundles_).first;
      if (at->second == bundles_) ++bundles_;
      bundle_of_.push_back(at->second);
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      for (std::size_t k = i + 1; k < pieces.size(); ++k) {
        if (pieces[i].face == pieces[k].face || !may_meet(pieces[i], pieces[k])) continue;
        if (overlap(pieces[i].outline, pieces[k].outline)) before_.push_back({i, k});
      }
    }
  }

  /// The bundles in order, each as numbers of pieces.
  [[nodiscard]] std::vector<std::vector<std::size_t>> ordered() {
    for (;;) {
      std::vector<int> order = sorted();
      if (std::ssize(order) == bundles_) return in_order(order);
      take_apart_one_of(order);
    }
  }

 private:
  /// The bundles, each after those that it must follow, else as the first of their pieces; those in
  /// a ring and behind one are missing.
  [[nodiscard]] std::vector<int> sorted() const {
    std::vector<std::set<int>> later(static_cast<std::size_t>(bundles_));
    std::vector<int> waits_for(static_cast<std::size_t>(bundles_), 0);
    for (const auto& [first, second] : before_) {
      const int a = bundle_of_[first], b = bundle_of_[second];
      if (later[static_cast<std::size_t>(a)].insert(b).second) ++waits_for[b];
    }
    std::vector<std::size_t> first_piece(static_cast<std::size_t>(bundles_), pieces_.size());
    for (std::size_t i = pieces_.size(); i-- > 0;) first_piece[bundle_of_[i]] = i;
    std::set<std::pair<std::size_t, int>> free;
    for (int k = 0; k < bundles_; ++k) {
      if (waits_for[k] == 0) free.insert({first_piece[k], k});
    }
    std::vector<int> order;
    while (!free.empty()) {
      const int next = free.begin()->second;
      free.erase(free.begin());
      order.push_back(next);
      for (const int each : later[static_cast<std::size_t>(next)]) {
        if (--waits_for[each] == 0) free.insert({first_piece[each], each});
      }
    }
    return order;
  }

  /// Makes each piece of the smallest bundle of several that could not be put in order a bundle of
  /// its own. There is one: single pieces are in order.
  void take_apart_one_of(const std::vector<int>& order) {
    std::vector<double> areas(static_cast<std::size_t>(bundles_), 0);
    std::vector<int> counts(static_cast<std::size_t>(bundles_), 0);
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      areas[bundle_of_[i]] += area(pieces_[i].outline);
      ++counts[bundle_of_[i]];
    }
    for (const int placed : order) counts[placed] = 0;
    int smallest = -1;
    for (int k = 0; k < bundles_; ++k) {
      if (counts[k] > 1 && (smallest < 0 || areas[k] < areas[smallest])) smallest = k;
    }
    bool is_first = true;
    for (int& bundle : bundle_of_) {
      if (bundle != smallest) continue;
      if (!is_first) bundle = bundles_++;
      is_first = false;
    }
  }

  [[nodiscard]] std::vector<std::vector<std::size_t>> in_order(
      const std::vector<int>& order) const {
    std::vector<std::vector<std::size_t>> members(static_cast<std::size_t>(bundles_));
    for (std::size_t i = 0; i < pieces_.size(); ++i) members[bundle_of_[i]].push_back(i);
    std::vector<std::vector<std::size_t>> all;
    for (const int bundle : order) all.push_back(members[bundle]);
    return all;
  }

  const std::vector<Piece>& pieces_;
  std::vector<int> bundle_of_;  ///< of each piece
  std::vector<std::pair<std::size_t, std::size_t>> before_;
  int bundles_ = 0;
};

}  // namespace

bool may_meet(const Piece& a, const Piece& b) {
  return quoin::overlap(a.round, b.round).has_value();
}

std::vector<Shown> bundled(const std::vector<Piece>& pieces) {
  std::vector<Shown> shown;
  for (const std::vector<std::size_t>& members : Ordering(pieces).ordered()) {
    Shown& one = shown.emplace_back();
    one.face = pieces[members.front()].face;
    for (const std::size_t i : members) one.pieces.push_back(pieces[i].outline);
  }
  return shown;
}

}  // namespace quoin::fold
