#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "base/world.h"

namespace quoin::outside {

/// What an outside program said, on both of its streams.
struct Answer {
  int exit_code = 0;
  std::string words;
};

/// Runs a program that is not ours. Throws std::runtime_error, naming it, when it is not installed:
/// a check that cannot be made must not pass.
[[nodiscard]] Answer run(const std::vector<std::string>& command);

/// The lines of a text, without empty ones.
[[nodiscard]] std::vector<std::string> lines_of(const std::string& text);
/// The words of a line that blanks separate.
[[nodiscard]] std::vector<std::string> words_of(const std::string& line);

/// A folder of this test's own that goes away with it.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;

  [[nodiscard]] std::string path(const std::string& name) const { return path_ + "/" + name; }
  /// Writes a file and gives its path.
  std::string put(const std::string& name, const Bytes& bytes) const;
  /// The whole file; throws std::runtime_error when there is none.
  [[nodiscard]] Bytes read(const std::string& name) const;
  /// Names of the files in it, sorted.
  [[nodiscard]] std::vector<std::string> files() const;

 private:
  std::string path_;
};

/// Pixels of a screen picture, three bytes each.
struct Pixels {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;
};

/// Reads a binary PPM (P6, 8 bits). Throws std::runtime_error for anything else.
[[nodiscard]] Pixels read_ppm(const Bytes& ppm);

/// How two pictures of one page differ, in steps of 255.
struct Difference {
  double mean = 0;          ///< over all pixels and channels
  int largest_on_flat = 0;  ///< where neither picture has an edge within a pixel
  double flat_share = 0;    ///< how much of the page that is
};

/// Throws std::runtime_error when they are of different sizes.
[[nodiscard]] Difference difference(const Pixels& a, const Pixels& b);

}  // namespace quoin::outside
