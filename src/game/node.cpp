#include "game/node.h"

namespace quoin::game {

const Node* find(const Table& table, std::string_view key) {
  for (const Entry& entry : table) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

}  // namespace quoin::game
