#include "job/settled.h"

#include <algorithm>

namespace quoin::job {

Diagnostics settled(const game::Game& game, Diagnostics found) {
  const std::vector<std::string>& off = game.limits.off;
  std::erase_if(found, [&](const Diagnostic& problem) {
    const std::string name(facts(problem.id).name);
    return problem.severity != Severity::error &&
           std::find(off.begin(), off.end(), name) != off.end();
  });
  return in_order(std::move(found));
}

void add(Diagnostics more, Diagnostics& found) {
  for (Diagnostic& problem : more) found.push_back(std::move(problem));
}

}  // namespace quoin::job
