#include "base/build_id.h"

#include <elf.h>
#include <link.h>

#include <cstring>
#include <string_view>

namespace quoin {
namespace {

std::string in_hexadecimal(std::string_view bytes) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const char byte : bytes) {
    text += digits[static_cast<unsigned char>(byte) >> 4];
    text += digits[static_cast<unsigned char>(byte) & 15];
  }
  return text;
}

constexpr std::size_t to_four(std::size_t size) { return (size + 3) / 4 * 4; }

/// Walks the notes of one segment: a header, the owner's name and the note itself, each padded to
/// four bytes.
std::string build_note(std::string_view notes) {
  ElfW(Nhdr) head;
  while (notes.size() >= sizeof head) {
    std::memcpy(&head, notes.data(), sizeof head);
    const std::size_t name = to_four(head.n_namesz), body = to_four(head.n_descsz);
    if (name + body > notes.size() - sizeof head) break;
    const std::string_view owner = notes.substr(sizeof head, head.n_namesz);
    if (head.n_type == NT_GNU_BUILD_ID && owner == std::string_view("GNU", 4)) {
      return in_hexadecimal(notes.substr(sizeof head + name, head.n_descsz));
    }
    notes.remove_prefix(sizeof head + name + body);
  }
  return {};
}

/// Looks at the program itself, which is the first object that is loaded, and ends the walk.
int look(dl_phdr_info* object, std::size_t, void* found) {
  auto& id = *static_cast<std::string*>(found);
  for (int i = 0; i < object->dlpi_phnum && id.empty(); ++i) {
    const ElfW(Phdr)& segment = object->dlpi_phdr[i];
    if (segment.p_type != PT_NOTE) continue;
    const auto* start = reinterpret_cast<const char*>(object->dlpi_addr + segment.p_vaddr);
    id = build_note({start, segment.p_memsz});
  }
  return 1;
}

}  // namespace

const std::string& build_id() {
  static const std::string id = [] {
    std::string found;
    dl_iterate_phdr(look, &found);
    return found;
  }();
  return id;
}

}  // namespace quoin
