#include "media/pictures/jpeg_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>
#include <map>

#include "media/pictures/byte_order.h"
#include "media/pictures/limits.h"

namespace quoin::pictures {
namespace {

using namespace std::string_view_literals;

constexpr std::uint32_t start_of_picture = 0xd8, end_of_picture = 0xd9, start_of_scan = 0xda;
constexpr std::uint32_t app1 = 0xe1, app2 = 0xe2, app14 = 0xee;

bool is_start_of_frame(std::uint32_t marker) {
  return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
}
bool stands_alone(std::uint32_t marker) {
  return marker == 0x01 || (marker >= 0xd0 && marker <= 0xd7) || marker == start_of_picture;
}

/// Walks from marker to marker; keeps the pieces of the profile by number until all are there.
class Walker {
 public:
  explicit Walker(const SourceFile& file) : file_(file), bytes_(file.bytes) {}

  Result<JpegParts> walk() {
    while (!ended_) {
      Outcome step = next();
      if (!step) return std::move(step).why();
    }
    if (parts_.width == 0 || parts_.scans == 0) return damaged(file_, "there are no pixels in it");
    if (pieces_.size() == piece_count_) {
      for (const auto& [number, piece] : pieces_) parts_.profile.push_back(piece);
    }
    return std::move(parts_);
  }

 private:
  [[nodiscard]] Diagnostic ends_early() const {
    return damaged(file_,
                   fmt::format("it ends at byte {}, before the picture does", bytes_.size()));
  }

  Outcome next() {
    if (at_ + 1 >= bytes_.size()) return ends_early();
    if (byte_at(bytes_, at_) != 0xff) {
      return damaged(file_, fmt::format("something else stands at byte {}, where a part of the "
                                        "picture should start",
                                        at_));
    }
    const std::uint32_t marker = byte_at(bytes_, at_ + 1);
    if (marker == 0xff) return ++at_, Done{};  // filling
    at_ += 2;
    if (stands_alone(marker)) return Done{};
    if (marker == end_of_picture) return ended_ = true, Done{};
    if (at_ + 2 > bytes_.size()) return ends_early();
    const std::size_t length = big_16(bytes_, at_);
    if (length < 2) return damaged(file_, fmt::format("the part at byte {} has no length", at_));
    if (length > bytes_.size() - at_) return ends_early();
    const std::string_view body = bytes_.substr(at_ + 2, length - 2);
    at_ += length;
    return take(marker, body);
  }

  Outcome take(std::uint32_t marker, std::string_view body) {
    if (is_start_of_frame(marker)) return take_frame(marker, body);
    if (marker == start_of_scan) return take_scan();
    if (marker == app1 && body.starts_with("Exif\0\0"sv) && parts_.exif.empty()) {
      parts_.exif = body.substr(6);
    } else if (marker == app2 && body.starts_with("ICC_PROFILE\0"sv) && body.size() > 14) {
      pieces_.emplace(byte_at(body, 12), body.substr(14));
      piece_count_ = byte_at(body, 13);
    } else if (marker == app14 && body.starts_with("Adobe") && body.size() >= 12) {
      parts_.has_adobe = true;
      parts_.adobe_transform = byte_at(body, 11);
    }
    return Done{};
  }

  Outcome take_frame(std::uint32_t marker, std::string_view body) {
    if (body.size() < 6) return damaged(file_, "its header is too short");
    if (parts_.width != 0) return damaged(file_, "it has two headers");
    Outcome size = check_size(file_, big_16(body, 3), big_16(body, 1));
    if (!size) return size;
    parts_.coding = marker;
    parts_.height = static_cast<int>(big_16(body, 1));
    parts_.width = static_cast<int>(big_16(body, 3));
    parts_.components = static_cast<int>(byte_at(body, 5));
    const std::uint32_t bits = byte_at(body, 0);
    if (bits != 8) return unusual(file_, fmt::format("as a JPEG with {} bits a sample", bits));
    if (parts_.components != 1 && parts_.components != 3 && parts_.components != 4) {
      return unusual(file_, fmt::format("as a JPEG of {} channels", parts_.components));
    }
    const bool readable = parts_.is_usual_coding() || marker == 0xc9 || marker == 0xca;
    if (!readable) return unusual(file_, "as a lossless or layered JPEG");
    return Done{};
  }

  /// Skips the coded pixels: to the next marker that is neither a stuffed zero nor a restart.
  Outcome take_scan() {
    ++parts_.scans;
    const std::int64_t pixels = std::int64_t{parts_.width} * parts_.height;
    if (parts_.scans > most_scans || parts_.scans * pixels > most_scanned_pixels) {
      Diagnostic d = about(Id::picture_too_large, file_,
                           fmt::format("repeats its {} x {} px more than {} times", parts_.width,
                                       parts_.height, parts_.scans - 1));
      return d.hint("save it again as a JPEG of one scan (not progressive)");
    }
    for (;;) {
      at_ = std::min(bytes_.find('\xff', at_), bytes_.size());
      if (at_ + 1 >= bytes_.size()) return ends_early();
      const std::uint32_t marker = byte_at(bytes_, at_ + 1);
      if (marker == 0xff)
        ++at_;
      else if (marker == 0 || (marker >= 0xd0 && marker <= 0xd7))
        at_ += 2;
      else
        return Done{};
    }
  }

  const SourceFile& file_;
  std::string_view bytes_;
  std::size_t at_ = 2;
  bool ended_ = false;
  JpegParts parts_;
  std::map<std::uint32_t, std::string_view> pieces_;
  std::size_t piece_count_ = 0;
};

}  // namespace

Bytes JpegParts::joined_profile() const {
  Bytes all;
  for (const std::string_view piece : profile) all += piece;
  return all;
}

Result<JpegParts> read_jpeg_parts(const SourceFile& file) { return Walker(file).walk(); }

}  // namespace quoin::pictures
