#include "desk/uploads.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdlib.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>

#include "media/picture.h"

namespace quoin::desk {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t longest_stem = 80;
constexpr int most_names_tried = 10'000;
constexpr std::size_t most_in_tray = 2'000, most_bytes_in_tray = 1'000'000'000;

/// ".png" for what the bytes are; why they are of no use else.
std::variant<std::string, Refusal> ending_of(const Bytes& bytes) {
  MemoryWorld world;
  world.put("picture", bytes);
  PictureShelf shelf(world);
  Diagnostics found;
  const auto picture = shelf.open("picture", {}, found);
  if (!picture) {
    const Diagnostic& why = picture.why().front();
    const std::string hint = why.hints.empty() ? "use SVG, PNG, JPEG, WebP or TIFF" : why.hints[0];
    return Refusal{415, why.message, hint};
  }
  switch ((*picture)->facts().format) {
    case PictureFormat::svg:
      return ".svg";
    case PictureFormat::png:
      return ".png";
    case PictureFormat::jpeg:
      return ".jpg";
    case PictureFormat::webp:
      return ".webp";
    case PictureFormat::tiff:
      break;
  }
  return ".tif";
}

Refusal not_written(const std::string& file, int fault) {
  return {500, fmt::format("{} could not be written: {}", file, std::strerror(fault)),
          "make room on the disk, or allow writing in the game's folder"};
}

/// Errno, or 0 when all was written. A file of that name stays as it is (EEXIST).
int write_new(const std::string& path, const Bytes& bytes) {
  const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0644);
  if (file < 0) return errno;
  int fault = 0;
  for (std::size_t done = 0; done < bytes.size() && fault == 0;) {
    const ssize_t went = ::write(file, bytes.data() + done, bytes.size() - done);
    if (went > 0) done += static_cast<std::size_t>(went);
    if (went < 0 && errno != EINTR) fault = errno;
  }
  if (fault == 0 && ::fsync(file) != 0) fault = errno;
  ::close(file);
  if (fault != 0) ::unlink(path.c_str());
  return fault;
}

bool lies_inside(const fs::path& folder, const fs::path& outer) {
  const auto [end, unused] =
      std::mismatch(outer.begin(), outer.end(), folder.begin(), folder.end());
  return end == outer.end();
}

}  // namespace

std::string safe_stem(std::string_view name) {
  const std::size_t slash = name.find_last_of("/\\");
  if (slash != std::string_view::npos) name.remove_prefix(slash + 1);
  if (const std::size_t dot = name.rfind('.'); dot != std::string_view::npos && dot > 0) {
    name = name.substr(0, dot);
  }
  std::string stem;
  for (const char c : name) {
    const bool is_plain = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') ||
                          (c >= 'A' && c <= 'Z') || c == '-' || c == '_' || c == ' ' ||
                          static_cast<unsigned char>(c) >= 0x80;
    if (!is_plain && stem.empty()) continue;
    stem += is_plain ? c : '-';
  }
  if (stem.size() > longest_stem) {
    stem.resize(longest_stem);
    // Not through the middle of a letter.
    while (!stem.empty() && (static_cast<unsigned char>(stem.back()) & 0xC0) == 0x80) {
      stem.pop_back();
    }
    if (!stem.empty() && static_cast<unsigned char>(stem.back()) >= 0xC0) stem.pop_back();
  }
  while (stem.ends_with(' ') || stem.ends_with('-')) stem.pop_back();
  while (stem.starts_with(' ') || stem.starts_with('-')) stem.erase(0, 1);
  return stem.empty() ? "picture" : stem;
}

Uploaded put_picture(const std::string& inside, const std::string& folder, std::string_view name,
                     const Bytes& bytes) {
  const auto ending = ending_of(bytes);
  if (const auto* refusal = std::get_if<Refusal>(&ending)) return *refusal;
  std::error_code fault;
  const fs::path outer = fs::canonical(inside, fault);
  if (fault) return not_written(folder, fault.value());
  fs::create_directories(outer / folder, fault);
  const fs::path place = fs::canonical(outer / folder, fault);
  if (fault) return not_written(folder, fault.value());
  if (!lies_inside(place, outer)) {
    return Refusal{403, fmt::format("{} leads out of the game's folder", folder),
                   "put the picture there yourself"};
  }
  const std::string stem = safe_stem(name);
  for (int number = 1; number <= most_names_tried; ++number) {
    const std::string again = number == 1 ? "" : fmt::format("-{}", number);
    const std::string file = stem + again + std::get<std::string>(ending);
    const int failed = write_new((place / file).string(), bytes);
    if (failed == 0) return folder.empty() ? file : folder + "/" + file;
    if (failed != EEXIST) return not_written(file, failed);
  }
  return Refusal{409, fmt::format("{} files are called {} already", most_names_tried, stem),
                 "give the picture another name"};
}

PictureTray::~PictureTray() { clear(); }

void PictureTray::clear() {
  std::error_code unneeded;
  if (!folder_.empty()) fs::remove_all(folder_, unneeded);
  folder_.clear();
  bytes_ = count_ = 0;
}

Uploaded PictureTray::put(std::string_view name, const Bytes& bytes) {
  if (count_ + 1 > most_in_tray || bytes_ + bytes.size() > most_bytes_in_tray) {
    return Refusal{413, fmt::format("a new game begins with {} pictures at most", most_in_tray),
                   "begin with fewer, and add the others to the game's art folder"};
  }
  if (folder_.empty()) {
    std::error_code fault;
    std::string pattern = (fs::temp_directory_path(fault) / "quoin-pictures-XXXXXX").string();
    if (fault || ::mkdtemp(pattern.data()) == nullptr) return not_written("the picture", errno);
    folder_ = pattern;
  }
  Uploaded put = put_picture(folder_, "", name, bytes);
  if (std::holds_alternative<std::string>(put)) ++count_, bytes_ += bytes.size();
  return put;
}

}  // namespace quoin::desk
