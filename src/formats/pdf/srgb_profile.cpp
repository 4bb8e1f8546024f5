#include "formats/pdf/srgb_profile.h"

#include <array>
#include <cmath>
#include <cstdint>
#include <string_view>
#include <vector>

namespace quoin::pdf {
namespace {

void put_16(Bytes& to, unsigned value) {
  to.push_back(static_cast<char>(value >> 8 & 0xff));
  to.push_back(static_cast<char>(value & 0xff));
}

void put_32(Bytes& to, std::uint32_t value) {
  put_16(to, value >> 16);
  put_16(to, value & 0xffff);
}

/// s15Fixed16Number.
void put_fixed(Bytes& to, double value) {
  put_32(to, static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(value * 65536))));
}

Bytes xyz(double x, double y, double z) {
  Bytes tag("XYZ \0\0\0\0", 8);
  for (const double part : {x, y, z}) put_fixed(tag, part);
  return tag;
}

/// textDescriptionType: ASCII, then empty Unicode and script parts.
Bytes description(std::string_view text) {
  Bytes tag("desc\0\0\0\0", 8);
  put_32(tag, static_cast<std::uint32_t>(text.size() + 1));
  tag.append(text);
  tag.append(1 + 4 + 4 + 2 + 1 + 67, '\0');
  return tag;
}

Bytes plain_text(std::string_view text) {
  Bytes tag("text\0\0\0\0", 8);
  tag.append(text);
  tag.push_back('\0');
  return tag;
}

double linear(double encoded) {
  return encoded <= 0.04045 ? encoded / 12.92 : std::pow((encoded + 0.055) / 1.055, 2.4);
}

Bytes curve() {
  constexpr int steps = 1024;
  Bytes tag("curv\0\0\0\0", 8);
  put_32(tag, steps);
  for (int i = 0; i < steps; ++i) {
    const double value = linear(static_cast<double>(i) / (steps - 1));
    put_16(tag, static_cast<unsigned>(std::lround(value * 65535)));
  }
  return tag;
}

struct Tag {
  std::string_view signature;
  Bytes data;
};

/// All but the green and blue curves, which share the red one's bytes.
std::vector<Tag> tags() {
  return {{"desc", description("sRGB")},
          {"cprt", plain_text("No rights reserved")},
          {"wtpt", xyz(0.9505, 1, 1.0891)},
          {"rXYZ", xyz(0.4360747, 0.2225045, 0.0139322)},
          {"gXYZ", xyz(0.3850649, 0.7168786, 0.0971045)},
          {"bXYZ", xyz(0.1430804, 0.0606169, 0.7141733)},
          {"rTRC", curve()}};
}

Bytes header(std::size_t size) {
  Bytes head;
  put_32(head, static_cast<std::uint32_t>(size));
  put_32(head, 0);           // no preferred colour engine
  put_32(head, 0x02100000);  // version 2.1
  head += "mntrRGB XYZ ";
  for (const unsigned part : {2000u, 1u, 1u, 0u, 0u, 0u}) put_16(head, part);
  head += "acsp";
  head.append(64 - head.size(), '\0');                                    // platform, flags, device
  put_32(head, 0);                                                        // perceptual
  for (const double part : {0.9642, 1.0, 0.8249}) put_fixed(head, part);  // D50
  head.append(128 - head.size(), '\0');
  return head;
}

Bytes build() {
  const std::vector<Tag> all = tags();
  const std::size_t entries = all.size() + 2;
  Bytes table, body;
  put_32(table, static_cast<std::uint32_t>(entries));
  const std::size_t start = 128 + 4 + 12 * entries;
  const auto entry = [&](std::string_view signature, std::size_t offset, std::size_t size) {
    table.append(signature);
    put_32(table, static_cast<std::uint32_t>(offset));
    put_32(table, static_cast<std::uint32_t>(size));
  };
  for (const Tag& tag : all) {
    const std::size_t offset = start + body.size();
    entry(tag.signature, offset, tag.data.size());
    if (tag.signature == "rTRC") {
      entry("gTRC", offset, tag.data.size());
      entry("bTRC", offset, tag.data.size());
    }
    body += tag.data;
    body.append((4 - body.size() % 4) % 4, '\0');
  }
  return header(start + body.size()) + table + body;
}

}  // namespace

const Bytes& srgb_profile() {
  static const Bytes profile = build();
  return profile;
}

}  // namespace quoin::pdf
