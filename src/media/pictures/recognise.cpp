#include "media/pictures/recognise.h"

#include <algorithm>
#include <array>

#include "base/world.h"

namespace quoin::pictures {
namespace {

using namespace std::string_view_literals;

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

/// The start of a text as lower-case bytes, without byte-order mark and leading blanks; a text in
/// UTF-16 loses its zero bytes, which is enough to see what it is.
std::string start_of_text(std::string_view bytes) {
  constexpr std::size_t looked_at = 8192;
  bytes = bytes.substr(0, looked_at);
  std::string text;
  if (bytes.starts_with("\xff\xfe"sv) || bytes.starts_with("\xfe\xff"sv)) {
    std::copy_if(bytes.begin() + 2, bytes.end(), std::back_inserter(text),
                 [](char c) { return c != '\0'; });
  } else {
    if (bytes.starts_with("\xef\xbb\xbf"sv)) bytes.remove_prefix(3);
    text = bytes;
  }
  return lower(text.substr(std::min(text.find_first_not_of(" \t\r\n"), text.size())));
}

bool is_html(std::string_view text) {
  return text.starts_with("<!doctype html") || text.starts_with("<html");
}

/// True for XML whose first element, after declarations and comments, is svg by whatever prefix.
bool is_svg(std::string_view text) {
  while (text.starts_with("<?") || text.starts_with("<!")) {
    const std::string_view end = text.starts_with("<?")     ? "?>"sv
                                 : text.starts_with("<!--") ? "-->"sv
                                                            : ">"sv;
    if (end == ">" && text.substr(0, text.find('>')).find('[') != text.npos) {
      return text.starts_with("<!doctype svg") || text.find("svg") != text.npos;
    }
    const std::size_t at = text.find(end);
    // A prolog longer than the stretch looked at: the XML reader will say what it is.
    if (at == text.npos) return text.find("<svg") != text.npos || end == "-->";
    text.remove_prefix(at + end.size());
    text.remove_prefix(std::min(text.find_first_not_of(" \t\r\n"), text.size()));
  }
  if (!text.starts_with('<')) return false;
  const std::string_view name = text.substr(1, text.find_first_of(" \t\r\n/>", 1) - 1);
  return name == "svg" || name.ends_with(":svg");
}

struct Signature {
  std::size_t at;
  std::string_view bytes;
  std::string_view name;
};
constexpr std::array signatures = {
    Signature{0, "GIF8"sv, "a GIF picture"},
    Signature{0, "BM"sv, "a BMP picture"},
    Signature{0, "%PDF-"sv, "a PDF"},
    Signature{0, "%!PS"sv, "a PostScript file"},
    Signature{0, "\xc5\xd0\xd3\xc6"sv, "a PostScript file"},
    Signature{0, "8BPS"sv, "a layered PSD file"},
    Signature{0, "PK\x03\x04"sv, "a ZIP archive or a document of an office or drawing program"},
    Signature{0, "\x1f\x8b"sv, "a gzip-compressed file, perhaps a compressed SVG (.svgz)"},
    Signature{0, "\x00\x00\x01\x00"sv, "an icon file (ICO)"},
    Signature{4, "ftypavif"sv, "an AVIF picture"},
    Signature{4, "ftyphei"sv, "a HEIC picture"},
    Signature{4, "ftypmif1"sv, "a HEIC picture"},
    Signature{4, "ftyp"sv, "a film"},
    Signature{0, "\xff\x0a"sv, "a JPEG XL picture"},
    Signature{4, "JXL "sv, "a JPEG XL picture"},
    Signature{4, "jP  "sv, "a JPEG 2000 picture"},
    Signature{0, "RIFF"sv, "a sound or a film"},
};

}  // namespace

std::optional<PictureFormat> recognise(std::string_view bytes) {
  if (bytes.starts_with("\x89PNG\r\n\x1a\n"sv)) return PictureFormat::png;
  if (bytes.starts_with("\xff\xd8\xff"sv)) return PictureFormat::jpeg;
  if (bytes.starts_with("RIFF") && bytes.substr(0, 12).ends_with("WEBP")) {
    return PictureFormat::webp;
  }
  for (const std::string_view tiff : {"II*\0"sv, "MM\0*"sv, "II+\0"sv, "MM\0+"sv}) {
    if (bytes.starts_with(tiff)) return PictureFormat::tiff;
  }
  if (is_svg(start_of_text(bytes))) return PictureFormat::svg;
  return std::nullopt;
}

std::string_view looks_like(std::string_view bytes) {
  if (bytes.empty()) return "an empty file";
  for (const Signature& s : signatures) {
    if (bytes.size() >= s.at && bytes.substr(s.at).starts_with(s.bytes)) return s.name;
  }
  const std::string text = start_of_text(bytes);
  if (is_html(text)) return "a web page (HTML)";
  if (text.starts_with("<?xml") || text.starts_with('<')) return "an XML file, but not SVG";
  const std::string_view start = bytes.substr(0, 512);
  if (std::all_of(start.begin(), start.end(), [](char c) { return c == '\0'; })) {
    return "a file of zero bytes only";
  }
  const bool is_text = std::all_of(start.begin(), start.end(), [](char c) {
    return static_cast<unsigned char>(c) >= ' ' || c == '\n' || c == '\r' || c == '\t';
  });
  return is_text ? "a text file" : "a file of a kind that Quoin does not know";
}

std::optional<PictureFormat> format_of_ending(std::string_view path) {
  const std::size_t dot = path.find_last_of("./");
  if (dot == path.npos || path[dot] != '.') return std::nullopt;
  const std::string ending = lower(path.substr(dot + 1));
  if (ending == "svg") return PictureFormat::svg;
  if (ending == "png") return PictureFormat::png;
  if (ending == "jpg" || ending == "jpeg" || ending == "jpe" || ending == "jfif") {
    return PictureFormat::jpeg;
  }
  if (ending == "webp") return PictureFormat::webp;
  if (ending == "tif" || ending == "tiff") return PictureFormat::tiff;
  return std::nullopt;
}

}  // namespace quoin::pictures
