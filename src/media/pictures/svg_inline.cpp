#include "media/pictures/svg_inline.h"

#include <fmt/format.h>
#include <glib.h>

#include <algorithm>

#include "media/pictures/limits.h"
#include "media/pictures/png_write.h"
#include "media/pictures/raster.h"
#include "media/pictures/readers.h"

namespace quoin::pictures {
namespace {

/// Undoes %20 and the like.
std::string percent_decoded(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool coded = text[i] == '%' && i + 2 < text.size() && g_ascii_isxdigit(text[i + 1]) &&
                       g_ascii_isxdigit(text[i + 2]);
    if (!coded) {
      out += text[i];
      continue;
    }
    out += static_cast<char>(g_ascii_xdigit_value(text[i + 1]) * 16 +
                             g_ascii_xdigit_value(text[i + 2]));
    i += 2;
  }
  return out;
}

/// "http:" of an address that starts with a scheme (RFC 3986, 3.1); empty for a relative one.
std::string_view scheme_of(std::string_view address) {
  const std::size_t colon = address.find_first_of(":/?#");
  if (colon == address.npos || address[colon] != ':' || colon == 0) return {};
  return address.substr(0, colon + 1);
}

Bytes base64_decoded(const std::string& text) {
  gsize size = 0;
  guchar* bytes = g_base64_decode(text.c_str(), &size);
  Bytes result(reinterpret_cast<const char*>(bytes), size);
  g_free(bytes);
  return result;
}

std::string base64(std::string_view bytes) {
  char* text = g_base64_encode(reinterpret_cast<const guchar*>(bytes.data()), bytes.size());
  std::string result(text);
  g_free(text);
  return result;
}

std::string_view mime_type(PictureFormat format) {
  return format == PictureFormat::svg    ? "image/svg+xml"
         : format == PictureFormat::jpeg ? "image/jpeg"
                                         : "image/png";
}

/// Whether the SVG renderer shows the file's own pixels as they are meant.
bool goes_in_as_it_is(const PictureFacts& facts) {
  const bool known = facts.format == PictureFormat::png || facts.format == PictureFormat::jpeg;
  return known && facts.bits <= 8 && !facts.has_profile && facts.exif_orientation == 1 &&
         facts.model != ColourModel::cmyk;
}

std::int64_t pixels_of(const PictureFacts& facts) {
  return static_cast<std::int64_t>(facts.width) * static_cast<std::int64_t>(facts.height);
}

/// The folder a file lies in, with its '/', or nothing.
std::string folder_of(const std::string& path) {
  const std::size_t slash = path.find_last_of('/');
  return slash == path.npos ? std::string{} : path.substr(0, slash + 1);
}

Inlined will_not_load(std::string why, Diagnostics remarks = {}) {
  return {.why_not = std::move(why), .remarks = std::move(remarks)};
}

}  // namespace

Result<Inlined> Inliner::inline_picture(const std::string& href, int line) {
  const std::string_view scheme = scheme_of(href);
  if (g_ascii_strncasecmp(href.c_str(), "data:", 5) == 0) return inline_data(href, line);
  if (scheme == "http:" || scheme == "https:") {
    return will_not_load("nothing is fetched from the web");
  }
  if (!scheme.empty() || href.starts_with('/')) {
    return will_not_load("only files of the game folder, by relative paths, are read");
  }
  return inline_file(href);
}

Result<Inlined> Inliner::inline_file(const std::string& href) {
  const std::string relative = percent_decoded(href.substr(0, href.find_first_of("?#")));
  const std::string path = normal_path(folder_of(nesting_.paths.back()) + relative);
  if (path.empty()) return will_not_load("it lies outside the game folder");
  const auto& open = nesting_.paths;
  if (std::find(open.begin(), open.end(), path) != open.end()) {
    return about(Id::picture_svg_circular, file_,
                 fmt::format("brings in {}, of which it is part", path))
        .hint("take out the reference that leads back");
  }
  if (const auto known = known_.find(path); known != known_.end()) {
    Outcome counted = count(known->second);
    if (!counted) return std::move(counted).why();
    Inlined again = known->second;
    again.remarks.clear();  // said the first time
    return again;
  }
  Result<std::shared_ptr<const Bytes>> bytes = read_file(around_.world, path);
  if (!bytes) {
    const Diagnostic& why = bytes.why().front();
    return will_not_load(why.message);
  }
  nesting_.paths.push_back(path);
  Result<Inlined> inlined = inline_bytes({path, **bytes});
  nesting_.paths.pop_back();
  if (inlined && !inlined->address.empty()) known_.emplace(path, *inlined);
  return inlined;
}

Result<Inlined> Inliner::inline_data(const std::string& href, int line) {
  const std::size_t comma = href.find(',');
  if (comma == href.npos) return will_not_load("there is no picture in it");
  const std::string_view head = std::string_view(href).substr(0, comma);
  const bool is_base64 =
      head.size() > 7 &&
      g_ascii_strcasecmp(std::string(head.substr(head.size() - 7)).c_str(), ";base64") == 0;
  const std::string text = percent_decoded(std::string_view(href).substr(comma + 1));
  const Bytes bytes = is_base64 ? base64_decoded(text) : text;
  // What it refers to is relative to the file it stands in.
  const std::string here = nesting_.paths.back();
  nesting_.paths.push_back(here);
  Result<Inlined> inlined =
      inline_bytes({fmt::format("the picture inside {}:{}", file_.path, line), bytes});
  nesting_.paths.pop_back();
  return inlined;
}

Result<Inlined> Inliner::inline_bytes(const SourceFile& picture) {
  if (nesting_.paths.size() > most_svg_levels) {
    return about(Id::picture_too_large, file_,
                 fmt::format("has pictures more than {} deep inside each other", most_svg_levels))
        .hint("bring the innermost drawings in as paths");
  }
  Result<FirstLook> look = look_at(picture, around_, nesting_);
  if (!look) {
    for (const Diagnostic& d : look.why()) {
      if (d.id == Id::picture_svg_circular) return d;
    }
    return will_not_load("it cannot be used", look.why());
  }
  const Result<Bytes> bytes = safe_bytes(picture, *look);
  if (!bytes) return will_not_load("it cannot be used", bytes.why());
  const bool as_it_is = look->facts.is_vector() || goes_in_as_it_is(look->facts);
  const PictureFormat format = as_it_is ? look->facts.format : PictureFormat::png;
  Inlined inlined{.address = fmt::format("data:{};base64,{}", mime_type(format), base64(*bytes)),
                  .bytes = bytes->size(),
                  .pixels = look->facts.is_vector() ? 0 : pixels_of(look->facts),
                  .remarks = std::move(look->remarks)};
  Outcome counted = count(inlined);
  if (!counted) return std::move(counted).why();
  return inlined;
}

/// What the renderer gets: the safe text of an SVG, the file itself, or its pixels as a PNG.
Result<Bytes> Inliner::safe_bytes(const SourceFile& picture, const FirstLook& look) {
  if (look.facts.is_vector()) return look.safe_svg;
  if (nesting_.inlined_pixels + pixels_of(look.facts) > most_pixels) {
    return Bytes();  // `count` refuses it; there is no use in decoding it before
  }
  Result<Bitmap> bitmap = decode_raster(picture, look.facts.format);
  if (!bitmap) return std::move(bitmap).why();
  if (goes_in_as_it_is(look.facts)) return Bytes(picture.bytes);
  return png_of(upright(*bitmap, look.facts.exif_orientation));
}

Outcome Inliner::count(const Inlined& inlined) {
  nesting_.inlined_bytes += inlined.bytes;
  nesting_.inlined_pixels += inlined.pixels;
  const bool fits =
      nesting_.inlined_bytes <= most_inlined && nesting_.inlined_pixels <= most_pixels;
  if (fits) return Done{};
  return about(Id::picture_too_large, file_,
               fmt::format("brings in pictures of more than {} MiB or {} megapixels together",
                           most_inlined >> 20, most_pixels / 1'000'000))
      .hint("bring them in smaller, or place them on the card by themselves");
}

}  // namespace quoin::pictures
