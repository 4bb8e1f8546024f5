#pragma once
#include <cstdint>
#include <string>
#include <string_view>

namespace quoin {

// How Quoin keeps values between runs: numbers of 8 bytes, little-endian, and strings with their
// length before them, one after another.

class PackedWriter {
 public:
  void number(std::uint64_t value);
  void string(std::string_view value);
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

/// Reads what PackedWriter wrote. Once something is not there, or outside the range asked for, all
/// that follows is 0 or empty, and `ended_well` is false. Strings point into the bytes read.
class PackedReader {
 public:
  explicit PackedReader(std::string_view bytes) : left_(bytes) {}

  [[nodiscard]] std::uint64_t number();
  /// A number between `least` and `most`; `least` when it is none.
  [[nodiscard]] int small(int least, int most);
  [[nodiscard]] std::string_view string();
  /// True as long as everything asked for was there.
  [[nodiscard]] bool is_sound() const { return is_sound_; }
  [[nodiscard]] bool ended_well() const { return is_sound_ && left_.empty(); }

 private:
  std::uint64_t fail();

  std::string_view left_;
  bool is_sound_ = true;
};

}  // namespace quoin
