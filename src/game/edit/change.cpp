#include "game/edit/change.h"

namespace quoin::game {

const std::string& file_of(const Change& change) {
  return std::visit([](const auto& each) -> const std::string& { return each.file; }, change);
}

}  // namespace quoin::game
