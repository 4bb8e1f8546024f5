#pragma once
#include <map>
#include <utility>

#include "base/diagnostic.h"

namespace quoin::game {

/// Collects what is found while a game is read, so that one mistake made in ten thousand rows
/// neither floods the maker nor the memory: of each id at most `most_of_a_kind` for each file are
/// kept, then one that says how many more there are.
class Findings {
 public:
  static constexpr std::size_t most_of_a_kind = 100;

  void add(Diagnostic found);
  void add(Diagnostics found);

  /// All that was kept, in the order of `in_order`.
  [[nodiscard]] Diagnostics take() &&;

 private:
  struct Kind {
    std::size_t count = 0;
    Origin first_dropped;
  };
  Diagnostics kept_;
  std::map<std::pair<Id, std::string>, Kind> kinds_;
};

}  // namespace quoin::game
