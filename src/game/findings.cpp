#include "game/findings.h"

#include <fmt/format.h>

namespace quoin::game {

void Findings::add(Diagnostic found) {
  Kind& kind = kinds_[{found.id, found.origin.file.str()}];
  ++kind.count;
  if (kind.count == most_of_a_kind + 1) kind.first_dropped = found.origin;
  if (kind.count <= most_of_a_kind) kept_.push_back(std::move(found));
}

void Findings::add(Diagnostics found) {
  for (Diagnostic& one : found) add(std::move(one));
}

Diagnostics Findings::take() && {
  Diagnostics all = in_order(std::move(kept_));
  for (const auto& [key, kind] : kinds_) {
    if (kind.count <= most_of_a_kind) continue;
    const std::size_t more = kind.count - most_of_a_kind;
    all.emplace_back(key.first, kind.first_dropped,
                     fmt::format("from here on {} more of this kind, not listed", more));
  }
  return in_order(std::move(all));
}

}  // namespace quoin::game
