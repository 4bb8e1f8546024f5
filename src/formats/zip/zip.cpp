#include "formats/zip/zip.h"

#include <fmt/format.h>
#include <zip.h>

#include <algorithm>
#include <array>
#include <memory>

namespace quoin {
namespace {

// APPNOTE 4.4.6: bits 0-4 day, 5-8 month, 9-15 years since 1980. 1980-01-01 00:00:00.
constexpr zip_uint16_t first_day = (1 << 5) | 1, midnight = 0;
// APPNOTE 4.4.15 with Unix as the system: a regular file, rw-r--r--.
constexpr zip_uint32_t plain_file = 0100644U << 16;

struct Discard {
  void operator()(zip_t* archive) const { zip_discard(archive); }
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};
using Archive = std::unique_ptr<zip_t, Discard>;
using Source = std::unique_ptr<zip_source_t, Discard>;

Diagnostic no_archive(const char* words) {
  return Diagnostic(Id::share_not_written, {},
                    fmt::format("the archive could not be made: {}", words));
}

bool is_packed(std::string_view path) {
  constexpr std::array<std::string_view, 6> endings{".pdf",  ".png",  ".jpg",
                                                    ".jpeg", ".webp", ".glb"};
  return std::any_of(endings.begin(), endings.end(),
                     [&](std::string_view ending) { return path.ends_with(ending); });
}

bool add(zip_t* archive, const ZipEntry& entry) {
  zip_source_t* source = zip_source_buffer(archive, entry.bytes.data(), entry.bytes.size(), 0);
  if (source == nullptr) return false;
  const zip_int64_t added = zip_file_add(archive, entry.path.c_str(), source, ZIP_FL_ENC_UTF_8);
  if (added < 0) {
    zip_source_free(source);
    return false;
  }
  const auto at = static_cast<zip_uint64_t>(added);
  const zip_int32_t method = is_packed(entry.path) ? ZIP_CM_STORE : ZIP_CM_DEFLATE;
  return zip_file_set_dostime(archive, at, midnight, first_day, 0) == 0 &&
         zip_file_set_external_attributes(archive, at, 0, ZIP_OPSYS_UNIX, plain_file) == 0 &&
         zip_set_file_compression(archive, at, method, 9) == 0;
}

}  // namespace

Result<Bytes> write_zip(const std::vector<ZipEntry>& entries) {
  zip_error_t error;
  zip_error_init(&error);
  Source whole(zip_source_buffer_create(nullptr, 0, 0, &error));
  if (!whole) return no_archive(zip_error_strerror(&error));
  Archive archive(zip_open_from_source(whole.get(), ZIP_TRUNCATE, &error));
  if (!archive) return no_archive(zip_error_strerror(&error));
  zip_source_keep(whole.get());  // it is read after the archive is closed
  for (const ZipEntry& entry : entries) {
    if (!add(archive.get(), entry)) return no_archive(zip_strerror(archive.get()));
  }
  if (zip_close(archive.get()) != 0) return no_archive(zip_strerror(archive.get()));
  (void)archive.release();  // closed
  zip_stat_t facts;
  zip_stat_init(&facts);
  if (zip_source_stat(whole.get(), &facts) != 0 || zip_source_open(whole.get()) != 0) {
    return no_archive("it cannot be read back");
  }
  Bytes bytes(facts.size, '\0');
  const zip_int64_t read = zip_source_read(whole.get(), bytes.data(), bytes.size());
  zip_source_close(whole.get());
  if (read != static_cast<zip_int64_t>(bytes.size())) return no_archive("it cannot be read back");
  return bytes;
}

std::optional<std::vector<std::string>> paths_in_zip(const Bytes& bytes) {
  if (bytes.empty()) return std::nullopt;  // the library takes nothing for an empty archive
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  if (source == nullptr) return std::nullopt;
  const Archive archive(zip_open_from_source(source, ZIP_RDONLY, &error));
  if (!archive) {
    zip_source_free(source);
    return std::nullopt;
  }
  std::vector<std::string> paths;
  const zip_int64_t count = zip_get_num_entries(archive.get(), 0);
  for (zip_int64_t i = 0; i < count; ++i) {
    const char* name = zip_get_name(archive.get(), static_cast<zip_uint64_t>(i), 0);
    if (name != nullptr) paths.emplace_back(name);
  }
  return paths;
}

}  // namespace quoin
