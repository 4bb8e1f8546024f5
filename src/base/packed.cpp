#include "base/packed.h"

namespace quoin {

void PackedWriter::number(std::uint64_t value) {
  for (int i = 0; i < 8; ++i) out_ += static_cast<char>(value >> (8 * i) & 0xff);
}

void PackedWriter::string(std::string_view value) {
  number(value.size());
  out_ += value;
}

std::uint64_t PackedReader::fail() {
  is_sound_ = false;
  left_ = {};
  return 0;
}

std::uint64_t PackedReader::number() {
  if (left_.size() < 8) return fail();
  std::uint64_t value = 0;
  for (std::size_t i = 8; i-- > 0;) value = value << 8 | static_cast<unsigned char>(left_[i]);
  left_.remove_prefix(8);
  return value;
}

int PackedReader::small(int least, int most) {
  const auto value = static_cast<std::int64_t>(number());
  if (value < least || value > most) fail();
  return is_sound_ ? static_cast<int>(value) : least;
}

std::string_view PackedReader::string() {
  const std::uint64_t size = number();
  if (size > left_.size()) fail();
  if (!is_sound_) return {};
  const std::string_view value = left_.substr(0, size);
  left_.remove_prefix(size);
  return value;
}

}  // namespace quoin
