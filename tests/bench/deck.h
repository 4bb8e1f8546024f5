#pragma once
#include <filesystem>
#include <string>
#include <vector>

namespace quoin::bench {

/// What tells one face of the measured game from the next: an icon, one of twenty pictures, and
/// three blocks of text.
struct Face {
  std::string id;
  std::string icon;     ///< "icons/07.svg", below art/
  std::string picture;  ///< "03.jpg", below art/
  std::string name;
  std::string rule;
  std::string saying;
};

/// The first `count` faces. Face n is the same in games of any size.
[[nodiscard]] std::vector<Face> faces(int count);

/// Writes the pictures and icons into `folder`, which is made when missing: 12 JPEG of about
/// 75 KB, 4 RGB PNG of about 0.8 MB, 4 RGBA PNG of about 1 MB, each 700 x 700 pixels, and
/// 40 SVG icons of 1 to 4 KB. These are the sizes measured while the pipeline was chosen
/// (docs/decisions/drawing-pipeline.md).
void write_art(const std::filesystem::path& folder);

/// The text of icon `number` of 40, its ids marked with `prefix` so that many may stand in one
/// file. Two in three have gradients, one in five a group that is half clear.
[[nodiscard]] std::string icon_svg(int number, const std::string& prefix);

}  // namespace quoin::bench
