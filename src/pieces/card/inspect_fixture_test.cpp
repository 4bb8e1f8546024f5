#include <stdexcept>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

/// CRC-32 of PNG (ISO/IEC 15948, annex D), bit by bit.
std::uint32_t checksum(std::string_view bytes) {
  std::uint32_t sum = 0xffffffffU;
  for (const char byte : bytes) {
    sum ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) sum = (sum & 1U) != 0 ? sum >> 1 ^ 0xedb88320U : sum >> 1;
  }
  return ~sum;
}

Bytes big_32(std::uint32_t value) {
  Bytes bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(value >> shift & 255);
  return bytes;
}

Bytes chunk(const std::string& name, const Bytes& body) {
  return big_32(static_cast<std::uint32_t>(body.size())) + name + body +
         big_32(checksum(name + body));
}

/// An opaque PNG of 8-bit RGB.
Bytes png(int width, int height, std::uint32_t (*paint)(int x, int y)) {
  std::vector<std::uint8_t> rgb;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      for (const int shift : {16, 8, 0}) {
        rgb.push_back(static_cast<std::uint8_t>(paint(x, y) >> shift & 255));
      }
    }
  }
  const Bytes header = big_32(static_cast<std::uint32_t>(width)) +
                       big_32(static_cast<std::uint32_t>(height)) + Bytes("\x08\x02\0\0\0", 5);
  return "\x89PNG\r\n\x1a\n" + chunk("IHDR", header) +
         chunk("IDAT", deflate_rows(rgb.data(), height, width * 3, 3)) + chunk("IEND", {});
}

}  // namespace

DrawnFace::DrawnFace() {
  format.corner = Mm{3.5};
  trim_box = {{}, format.size};
  bleed_box = grown(trim_box, format.bleed);
}

Item& DrawnFace::add(std::string element, decltype(Item::what) what) {
  Item item;
  item.element = std::move(element);
  item.origin = {FileName("face.toml"), ++line_, 1, 0};
  item.what = std::move(what);
  scene.items.push_back(std::move(item));
  return scene.items.back();
}

Item& DrawnFace::panel(std::string element, Rect where, Paint fill) {
  return add(std::move(element), ShapeItem{Path::rectangle(where), std::move(fill), Stroke{}});
}

Item& DrawnFace::frame(std::string element, Rect where, Mm width, Colour colour) {
  Stroke stroke;
  stroke.paint = colour;
  stroke.width = width;
  return add(std::move(element), ShapeItem{Path::rectangle(where), NoPaint{}, stroke});
}

Item& DrawnFace::text(std::string element, std::string words, Rect where, double type_points,
                      Colour colour) {
  TextItem item;
  item.block.runs = {TextRun{std::move(words), false, false, nullptr}};
  item.block.style.family = house_family;
  item.block.style.type_size = Mm{type_points * mm_per_inch / points_per_inch};
  item.block.style.smallest_size = item.block.style.type_size;
  item.block.style.fill = colour;
  item.block.box = where.size;
  item.at = where.at;
  return add(std::move(element), std::move(item));
}

PicturePtr DrawnFace::picture_file(const std::string& path, int width, int height,
                                   std::uint32_t (*paint)(int x, int y)) {
  world.put(path, png(width, height, paint));
  Diagnostics met;
  auto opened = shelf.open(path, {}, met);
  if (!opened) throw std::runtime_error(opened.why().front().message);
  return *opened;
}

Item& DrawnFace::picture(std::string element, const PicturePtr& file, Rect to) {
  return add(std::move(element), PictureItem{file, to, to, false});
}

Item& DrawnFace::group(std::string element, std::vector<Item> items) {
  return add(std::move(element), GroupItem{std::move(items)});
}

Item DrawnFace::take_last() {
  Item item = std::move(scene.items.back());
  scene.items.pop_back();
  return item;
}

FaceLook DrawnFace::look() {
  typeset(scene, typesetter);
  return look_at(face(), shelf);
}

Diagnostics DrawnFace::check() {
  const FaceLook seen = look();
  return check_face(face(), limits, seen);
}

std::string whole(const Diagnostic& finding) {
  std::string text = std::string(to_string(finding.severity)) + " " +
                     std::string(facts(finding.id).name) + " " + to_string(finding.origin) +
                     " on " + finding.place.piece + "/" + finding.place.element + "\n" +
                     finding.message + "\n";
  for (const std::string& line : finding.details) text += line + "\n";
  for (const std::string& line : finding.hints) text += "hint: " + line + "\n";
  return text;
}

std::string whole(const Diagnostics& findings) {
  std::string text;
  for (const Diagnostic& finding : findings) text += whole(finding);
  return text;
}

Diagnostics only(Id id, const Diagnostics& findings) {
  Diagnostics kept;
  for (const Diagnostic& finding : findings) {
    if (finding.id == id) kept.push_back(finding);
  }
  return kept;
}

}  // namespace quoin::pieces
