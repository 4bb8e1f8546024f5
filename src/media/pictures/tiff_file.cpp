#include "media/pictures/tiff_file.h"

#include <algorithm>
#include <cstdarg>
#include <cstdio>
#include <cstring>

#include "media/pictures/limits.h"

namespace quoin::pictures {
namespace {

TiffFile::Cursor& cursor(thandle_t handle) { return *static_cast<TiffFile::Cursor*>(handle); }

tmsize_t read_bytes(thandle_t handle, void* to, tmsize_t count) {
  TiffFile::Cursor& c = cursor(handle);
  const std::size_t left = c.bytes.size() - std::min(c.at, c.bytes.size());
  const std::size_t taken = std::min(left, static_cast<std::size_t>(std::max<tmsize_t>(count, 0)));
  if (taken > 0) std::memcpy(to, c.bytes.data() + c.at, taken);
  c.at += taken;
  return static_cast<tmsize_t>(taken);
}

tmsize_t write_nothing(thandle_t /*handle*/, void* /*from*/, tmsize_t /*count*/) { return 0; }

toff_t seek(thandle_t handle, toff_t offset, int whence) {
  TiffFile::Cursor& c = cursor(handle);
  const toff_t base = whence == SEEK_CUR ? c.at : whence == SEEK_END ? c.bytes.size() : 0;
  c.at = static_cast<std::size_t>(base + offset);
  return c.at;
}

int close_nothing(thandle_t /*handle*/) { return 0; }
toff_t size_of(thandle_t handle) { return cursor(handle).bytes.size(); }

int keep_complaint(TIFF* /*tiff*/, void* file, const char* /*module*/, const char* format,
                   va_list arguments) {
  char words[512];
  std::vsnprintf(words, sizeof words, format, arguments);
  static_cast<TiffFile*>(file)->complain(words);
  return 1;
}

int keep_quiet(TIFF*, void*, const char*, const char*, va_list) { return 1; }

}  // namespace

TiffFile::TiffFile(std::string_view bytes) : cursor_{bytes} {
  TIFFOpenOptions* options = TIFFOpenOptionsAlloc();
  TIFFOpenOptionsSetErrorHandlerExtR(options, keep_complaint, this);
  TIFFOpenOptionsSetWarningHandlerExtR(options, keep_quiet, nullptr);
  TIFFOpenOptionsSetMaxSingleMemAlloc(options, static_cast<tmsize_t>(most_unpacked));
  // "m": no memory mapping.
  handle_ = TIFFClientOpenExt("picture", "rm", &cursor_, read_bytes, write_nothing, seek,
                              close_nothing, size_of, nullptr, nullptr, options);
  TIFFOpenOptionsFree(options);
}

TiffFile::~TiffFile() {
  if (handle_ != nullptr) TIFFClose(handle_);
}

}  // namespace quoin::pictures
