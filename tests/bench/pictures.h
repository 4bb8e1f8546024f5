#pragma once
#include <cstdint>
#include <filesystem>
#include <vector>

namespace quoin::bench {

/// A made picture: smooth colour with grain on it, which compresses about as badly as scanned
/// paintings do. Rows from the top, `channels` bytes a pixel (3: RGB, 4: RGB and alpha).
struct Pixels {
  int side = 0;
  int channels = 3;
  std::vector<std::uint8_t> bytes;
};

/// The picture of number `seed`, always the same for the same arguments. `channels` 4 gives a soft
/// oval edge. `grain` is the largest step away from the smooth colour, of 255.
[[nodiscard]] Pixels painted(std::uint64_t seed, int side, int channels, int grain);

/// Write baseline JPEG at `quality` (of 100), or 8-bit PNG. Throw std::runtime_error, naming the
/// file, when it cannot be written.
void write_jpeg(const std::filesystem::path& file, const Pixels& picture, int quality);
void write_png(const std::filesystem::path& file, const Pixels& picture);

}  // namespace quoin::bench
