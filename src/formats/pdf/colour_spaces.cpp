#include "formats/pdf/colour_spaces.h"

#include <array>
#include <string_view>

#include "formats/pdf/srgb_profile.h"

namespace quoin::pdf {
namespace {

int parts_of(ColourModel model) {
  switch (model) {
    case ColourModel::grey:
      return 1;
    case ColourModel::rgb:
      return 3;
    case ColourModel::cmyk:
      return 4;
  }
  return 3;
}

std::string_view signature_of(ColourModel model) {
  switch (model) {
    case ColourModel::grey:
      return "GRAY";
    case ColourModel::rgb:
      return "RGB ";
    case ColourModel::cmyk:
      return "CMYK";
  }
  return {};
}

}  // namespace

bool suits(const Bytes& profile, ColourModel model) {
  // ICC.1, 7.2: class at byte 12, space at 16, "acsp" at 36. ISO 32000-1, 8.6.5.5 names the four
  // classes that an ICC-based space may use.
  if (profile.size() < 128) return false;
  const std::string_view head(profile.data(), 128);
  constexpr std::array<std::string_view, 4> classes{"scnr", "mntr", "prtr", "spac"};
  bool known = false;
  for (const std::string_view each : classes) known = known || head.substr(12, 4) == each;
  return known && head.substr(16, 4) == signature_of(model) && head.substr(36, 4) == "acsp";
}

Object ColourSpaces::based_on(const Bytes& profile, int parts) {
  const auto known = profiles_.find(profile);
  if (known != profiles_.end()) return known->second;
  Object stream = file_.newStream(profile);
  stream.getDict().replaceKey("/N", Object::newInteger(parts));
  const Object space =
      file_.makeIndirectObject(Object::newArray(std::vector<Object>{name("ICCBased"), stream}));
  profiles_.emplace(profile, space);
  return space;
}

Object ColourSpaces::srgb() {
  if (!srgb_) srgb_ = based_on(srgb_profile(), 3);
  return *srgb_;
}

Object ColourSpaces::defaults() {
  if (!defaults_) {
    Object spaces = Object::newDictionary();
    spaces.replaceKey("/DefaultRGB", srgb());
    defaults_ = file_.makeIndirectObject(spaces);
  }
  return *defaults_;
}

Object ColourSpaces::of(const PreparedImage& image) {
  Object base;
  if (suits(image.profile, image.model)) {
    base = based_on(image.profile, parts_of(image.model));
  } else if (image.model == ColourModel::rgb) {
    base = srgb();
  } else {
    base = name(image.model == ColourModel::grey ? "DeviceGray" : "DeviceCMYK");
  }
  if (image.palette.empty()) return base;
  const std::string table(image.palette.begin(), image.palette.end());
  const auto last = static_cast<long long>(image.palette.size() / 3) - 1;
  return Object::newArray(std::vector<Object>{name("Indexed"), base, Object::newInteger(last),
                                              Object::newString(table)});
}

}  // namespace quoin::pdf
