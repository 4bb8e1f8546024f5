#include "game/size_check.h"

#include <fmt/format.h>

#include "game/game.h"
#include "game/words.h"

namespace quoin::game {

std::optional<Diagnostic> size_problem(const NamedSize& size, const Origin& where) {
  const auto fits_in = [](Mm side) { return side >= smallest_side && side <= largest_side; };
  if (fits_in(size.size.width) && fits_in(size.size.height)) return std::nullopt;
  Diagnostic problem(
      Id::game_out_of_range, where,
      fmt::format("the size is {} x {} mm; each side can be {} to {} mm",
                  number_text(size.size.width.value), number_text(size.size.height.value),
                  number_text(smallest_side.value), number_text(largest_side.value)));
  return problem.hint("sizes without a unit are millimetres; write \"2.5x3.5in\" for inches");
}

Diagnostic unknown_size(const std::string& text, const Origin& where,
                        const std::vector<NamedSize>& known) {
  std::vector<std::string> names;
  for (const NamedSize& size : known) names.emplace_back(size.name);
  Diagnostic problem(Id::game_unknown_size, where,
                     fmt::format("there is no size {}", in_quotes(text)));
  if (const auto meant = nearest(text, names)) {
    problem.hint(fmt::format("did you mean {}?", in_quotes(*meant)));
  }
  return problem.hint(
      "write width and height, \"63.5x88.9\" or \"2.5x3.5in\", or a name that quoin sizes lists");
}

}  // namespace quoin::game
