#include "media/pictures/icc.h"

#include <fmt/format.h>
#include <lcms2.h>

#include <array>

namespace quoin::pictures {
namespace {

class Profile {
 public:
  explicit Profile(const Bytes& bytes)
      : handle_(cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size()))) {}
  explicit Profile(cmsHPROFILE handle) : handle_(handle) {}
  ~Profile() {
    if (handle_ != nullptr) cmsCloseProfile(handle_);
  }
  Profile(const Profile&) = delete;
  Profile& operator=(const Profile&) = delete;
  [[nodiscard]] cmsHPROFILE handle() const { return handle_; }

 private:
  cmsHPROFILE handle_;
};

cmsUInt32Number samples_type(ColourModel model, bool has_alpha) {
  const cmsUInt32Number type = model == ColourModel::grey  ? TYPE_GRAY_8
                               : model == ColourModel::rgb ? TYPE_RGB_8
                                                           : TYPE_CMYK_8;
  return has_alpha ? type | EXTRA_SH(1) : type;
}

/// Whether lcms may fold the whole way of CMYK into one table first. That takes 30 ms and makes
/// each megapixel take 75 ms instead of 300, but moves strong colours, which sRGB does not have, by
/// up to 20 of 255 in one channel (measured on 500,000 random colours; 0.3 on average).
enum class Precision { exact, folded };

cmsHTRANSFORM transform_to_srgb(const Bytes& profile, ColourModel model, bool has_alpha,
                                Precision precision) {
  const Profile from(profile);
  const Profile to(cmsCreate_sRGBProfile());
  if (from.handle() == nullptr || to.handle() == nullptr) return nullptr;
  const cmsUInt32Number how = precision == Precision::exact ? cmsFLAGS_NOOPTIMIZE : 0;
  return cmsCreateTransform(from.handle(), samples_type(model, has_alpha), to.handle(), TYPE_RGB_8,
                            INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_BLACKPOINTCOMPENSATION | how);
}

std::string_view name_of(cmsColorSpaceSignature space) {
  switch (space) {
    case cmsSigGrayData:
      return "grey";
    case cmsSigRgbData:
      return "RGB";
    case cmsSigCmykData:
      return "CMYK";
    default:
      return "another kind of";
  }
}

std::string_view name_of(ColourModel model) {
  return model == ColourModel::grey ? "grey" : model == ColourModel::rgb ? "RGB" : "CMYK";
}

cmsColorSpaceSignature space_of(ColourModel model) {
  return model == ColourModel::grey  ? cmsSigGrayData
         : model == ColourModel::rgb ? cmsSigRgbData
                                     : cmsSigCmykData;
}

bool describes_pixels(cmsProfileClassSignature kind) {
  return kind == cmsSigInputClass || kind == cmsSigDisplayClass || kind == cmsSigOutputClass ||
         kind == cmsSigColorSpaceClass;
}

/// Why the profile cannot be used for such pixels; empty when it can.
std::string why_not(const Bytes& bytes, ColourModel model) {
  const Profile profile(bytes);
  if (profile.handle() == nullptr) return "its colour profile is damaged";
  const cmsColorSpaceSignature space = cmsGetColorSpace(profile.handle());
  if (space != space_of(model)) {
    return fmt::format("its colour profile is for {} pixels and the picture is {}", name_of(space),
                       name_of(model));
  }
  if (!describes_pixels(cmsGetDeviceClass(profile.handle()))) {
    return "its colour profile is of a kind that describes no pixels";
  }
  cmsHTRANSFORM transform = transform_to_srgb(bytes, model, false, Precision::exact);
  if (transform == nullptr) return "its colour profile is damaged";
  cmsDeleteTransform(transform);
  return {};
}

}  // namespace

void note_profile(const Bytes& profile, PictureFacts& facts) {
  if (profile.empty()) return;
  facts.has_profile = true;
  facts.profile = "a colour profile";
  const Profile opened(profile);
  std::array<char, 200> name{};
  if (opened.handle() == nullptr) return;
  const cmsUInt32Number length =
      cmsGetProfileInfoASCII(opened.handle(), cmsInfoDescription, "en", "US", name.data(),
                             static_cast<cmsUInt32Number>(name.size()));
  std::string text;
  for (const char c : std::string_view(name.data())) {
    if (c >= ' ' && c <= '~') text += c;
  }
  if (length > 1 && !text.empty()) facts.profile = text;
}

Bytes fitting_profile(const SourceFile& file, Bytes profile, ColourModel model,
                      Diagnostics& remarks) {
  if (profile.empty()) return {};
  const std::string reason = why_not(profile, model);
  if (reason.empty()) return profile;
  const std::string_view taken_as = model == ColourModel::rgb ? "sRGB" : name_of(model);
  Diagnostic d = about(Id::picture_profile_not_used, file,
                       fmt::format("is printed as plain {}: {}", taken_as, reason));
  remarks.push_back(d.hint("convert the picture to sRGB in the program that drew it"));
  return {};
}

ToSrgb::ToSrgb(const Bitmap& bitmap) : channels_(bitmap.channels()), model_(bitmap.model) {
  if (bitmap.profile.empty()) return;
  constexpr std::size_t large = 1'000'000;  // px
  const bool exact = bitmap.model == ColourModel::cmyk && bitmap.pixel_count() < large;
  transform_ = transform_to_srgb(bitmap.profile, bitmap.model, bitmap.has_alpha,
                                 exact ? Precision::exact : Precision::folded);
}

ToSrgb::~ToSrgb() {
  if (transform_ != nullptr) cmsDeleteTransform(transform_);
}

void ToSrgb::convert(const std::uint8_t* samples, std::uint8_t* rgb, std::size_t count) const {
  if (transform_ == nullptr) return convert_plainly(samples, rgb, count);
  cmsDoTransform(transform_, samples, rgb, static_cast<cmsUInt32Number>(count));
}

void ToSrgb::convert_plainly(const std::uint8_t* samples, std::uint8_t* rgb,
                             std::size_t count) const {
  const std::uint8_t* in = samples;
  for (std::size_t i = 0; i < count; ++i, in += channels_, rgb += 3) {
    switch (model_) {
      case ColourModel::grey:
        rgb[0] = rgb[1] = rgb[2] = in[0];
        break;
      case ColourModel::rgb:
        rgb[0] = in[0], rgb[1] = in[1], rgb[2] = in[2];
        break;
      case ColourModel::cmyk:
        for (int c = 0; c < 3; ++c) {
          rgb[c] = static_cast<std::uint8_t>(((255 - in[c]) * (255 - in[3]) + 127) / 255);
        }
    }
  }
}

}  // namespace quoin::pictures
