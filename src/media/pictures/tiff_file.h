#pragma once
#include <tiffio.h>

#include <string>
#include <string_view>

namespace quoin::pictures {

/// A TIFF in memory, opened with libtiff; bounded in what it may allocate. Its first complaint is
/// kept instead of printed.
class TiffFile {
 public:
  explicit TiffFile(std::string_view bytes);
  ~TiffFile();
  TiffFile(const TiffFile&) = delete;
  TiffFile& operator=(const TiffFile&) = delete;

  [[nodiscard]] TIFF* handle() const { return handle_; }
  [[nodiscard]] const std::string& complaint() const { return complaint_; }

  /// A number of the first page's directory, or what the format says it is when absent.
  template <typename Number>
  [[nodiscard]] Number field(std::uint32_t tag, Number absent = 0) const {
    Number value = absent;
    return TIFFGetFieldDefaulted(handle_, tag, &value) == 1 ? value : absent;
  }

  struct Cursor {
    std::string_view bytes;
    std::size_t at = 0;
  };
  void complain(std::string words) {
    if (complaint_.empty()) complaint_ = std::move(words);
  }

 private:
  Cursor cursor_;
  std::string complaint_;
  TIFF* handle_ = nullptr;
};

}  // namespace quoin::pictures
