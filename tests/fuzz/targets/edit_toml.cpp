// Changes values, blocks and keys of bytes that are read as TOML; the first bytes choose what.
#include <cstdint>

#include "game/edit/edit.h"
#include "game/edit/node_edit.h"
#include "game/toml_file.h"

namespace {

using quoin::game::Change;
using quoin::game::Node;
using quoin::game::ValuePath;

/// Follows the bytes of `choices` down to some value.
ValuePath some_path(const Node& top, std::uint32_t choices) {
  ValuePath path;
  const Node* at = &top;
  while (choices % 8 != 0) {
    if (at->table() && !at->table()->empty()) {
      const auto& entry = (*at->table())[choices / 8 % at->table()->size()];
      path.emplace_back(entry.key);
      at = &entry.value;
    } else if (at->list() && !at->list()->empty()) {
      const std::size_t index = choices / 8 % at->list()->size();
      path.emplace_back(index);
      at = &(*at->list())[index];
    } else {
      break;
    }
    choices /= 8;
  }
  return path;
}

Change some_change(ValuePath path, std::uint8_t kind) {
  const Node value{{}, std::string("it's \"new\"\n")};
  const auto op = static_cast<quoin::game::ListOp>(kind % 4);
  switch (kind / 4 % 4) {
    case 0:
      return quoin::game::SetValue{"a.toml", path, value};
    case 1:
      return quoin::game::SetValue{"a.toml", path, std::nullopt};
    case 2:
      path.emplace_back("new");
      return quoin::game::SetValue{"a.toml", path, Node{{}, 4.5}};
    default:
      if (op == quoin::game::ListOp::add && path.empty()) path = {"element", std::size_t{0}};
      return quoin::game::EditElement{"a.toml", op, path, kind % 3U,
                                      Node{{}, quoin::game::Table{{"id", {}, value}}}};
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 5) return 0;
  const std::uint32_t choices = data[0] | data[1] << 8 | data[2] << 16 | (data[3] & 0x7F) << 24;
  const quoin::Bytes text(reinterpret_cast<const char*>(data) + 5, size - 5);
  const auto read = quoin::game::read_toml(text, quoin::FileName("a.toml"));
  const Node top{{}, read ? *read : quoin::game::Table{}};
  const Change change = some_change(some_path(top, choices), data[4]);
  const auto claim = quoin::game::claim(change, text);
  if (!claim) return claim.why().empty() ? __builtin_trap(), 0 : 0;
  const auto answer = quoin::game::edit(*claim, text);
  const auto* done = std::get_if<quoin::game::Edited>(&answer);
  if (!done) return 0;
  // What was changed can be changed back.
  const auto back = quoin::game::edit(done->inverse, done->text);
  if (!std::holds_alternative<quoin::game::Edited>(back)) return 0;
  const auto again =
      quoin::game::read_toml(std::get<quoin::game::Edited>(back).text, quoin::FileName("a.toml"));
  if (!again) __builtin_trap();
  return 0;
}
