#include "formats/svg/definitions.h"

#include <fmt/format.h>

#include "formats/decimal.h"
#include "formats/png/png.h"
#include "formats/svg/markup.h"

namespace quoin::svg {
namespace {

constexpr double made_at_ppi = 600;  // only a note in the file: the drawing says the size

std::string share(double value) { return decimal(value, 4); }

std::string opaque(Colour colour) {
  colour.alpha = 1;
  return to_string(colour);
}

std::string colour_attribute(const char* property, Colour colour) {
  std::string text = fmt::format(" {}=\"{}\"", property, opaque(colour));
  if (colour.alpha < 1) text += fmt::format(" {}-opacity=\"{}\"", property, share(colour.alpha));
  return text;
}

std::string stops_markup(const std::vector<GradientStop>& stops) {
  std::string text;
  for (const GradientStop& stop : stops) {
    text += fmt::format("<stop offset=\"{}\" stop-color=\"{}\"", share(stop.offset),
                        opaque(stop.colour));
    if (stop.colour.alpha < 1)
      text += fmt::format(" stop-opacity=\"{}\"", share(stop.colour.alpha));
    text += "/>";
  }
  return text;
}

std::string start(const LinearGradient& gradient) {
  return fmt::format(" gradientUnits=\"userSpaceOnUse\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\">",
                     length_text(gradient.from.x), length_text(gradient.from.y),
                     length_text(gradient.to.x), length_text(gradient.to.y));
}

std::string start(const RadialGradient& gradient) {
  return fmt::format(" gradientUnits=\"userSpaceOnUse\" cx=\"{}\" cy=\"{}\" r=\"{}\">",
                     length_text(gradient.centre.x), length_text(gradient.centre.y),
                     length_text(gradient.radius));
}

/// A JPEG or PNG that every reader shows as we do: upright, in sRGB, 8 bits.
bool can_be_passed_on(const PictureFacts& facts) {
  const bool kind = facts.format == PictureFormat::jpeg || facts.format == PictureFormat::png;
  return kind && !facts.has_profile && facts.exif_orientation == 1 && facts.bits <= 8 &&
         facts.model != ColourModel::cmyk;
}

/// cairo's mitres end where they are ten times as long as the line is wide; SVG's at four.
const char* join_attributes(LineJoin join) {
  switch (join) {
    case LineJoin::mitre:
      return " stroke-miterlimit=\"10\"";
    case LineJoin::bevel:
      return " stroke-linejoin=\"bevel\"";
    default:
      return " stroke-linejoin=\"round\"";
  }
}

const char* cap_attribute(LineCap cap) {
  switch (cap) {
    case LineCap::round:
      return " stroke-linecap=\"round\"";
    case LineCap::square:
      return " stroke-linecap=\"square\"";
    default:
      return "";
  }
}

}  // namespace

std::string Definitions::id(char kind, const std::string& element, const std::string& rest) {
  const auto known = known_.find(rest);
  if (known != known_.end()) return known->second;
  const std::string made = fmt::format("{}{}", kind, ++counts_[kind]);
  text_ += fmt::format("<{} id=\"{}\"", element, made);
  text_ += rest;
  text_ += '\n';
  return known_.emplace(rest, made).first->second;
}

std::string Definitions::paint(const char* property, const Paint& paint) {
  if (const auto* colour = std::get_if<Colour>(&paint)) return colour_attribute(property, *colour);
  std::string made;
  if (const auto* linear = std::get_if<LinearGradient>(&paint)) {
    made = id('g', "linearGradient",
              start(*linear) + stops_markup(linear->stops) + "</linearGradient>");
  } else if (const auto* radial = std::get_if<RadialGradient>(&paint)) {
    made = id('g', "radialGradient",
              start(*radial) + stops_markup(radial->stops) + "</radialGradient>");
  } else {
    return fmt::format(" {}=\"none\"", property);
  }
  return fmt::format(" {}=\"url(#{})\"", property, made);
}

std::string Definitions::stroke(const Stroke& stroke) {
  if (!(stroke.width > Mm{0}) || std::holds_alternative<NoPaint>(stroke.paint)) return {};
  std::string text = paint("stroke", stroke.paint);
  text += fmt::format(" stroke-width=\"{}\"", length_text(stroke.width));
  text += join_attributes(stroke.join);
  text += cap_attribute(stroke.cap);
  std::string dashes;
  for (const Mm part : stroke.dash) dashes += (dashes.empty() ? "" : " ") + length_text(part);
  if (!dashes.empty()) text += fmt::format(" stroke-dasharray=\"{}\"", dashes);
  return text;
}

std::string Definitions::clip(const Path& path) {
  const std::string made =
      id('c', "clipPath", fmt::format("><path d=\"{}\"/></clipPath>", path_data(path)));
  return fmt::format(" clip-path=\"url(#{})\"", made);
}

std::string Definitions::image(const std::string& address, double width, double height, Rect to) {
  if (!(width > 0) || !(height > 0)) return {};
  const std::string made = id('p', "image",
                              fmt::format(" width=\"{}\" height=\"{}\" xlink:href=\"{}\"/>",
                                          share(width), share(height), address));
  const Affine map{to.size.width.value / width,   0,         0,
                   to.size.height.value / height, to.left(), to.top()};
  return fmt::format("<use xlink:href=\"#{}\"{}/>\n", made, transform_attribute(map));
}

Result<std::string> Definitions::address(const PicturePtr& picture) {
  const auto known = addresses_.find(picture->key());
  if (known != addresses_.end()) return known->second;
  const PictureFacts& facts = picture->facts();
  std::string made;
  if (facts.is_vector()) {
    made = data_address("image/svg+xml", picture->safe_svg());
  } else if (can_be_passed_on(facts)) {
    // Some faults only decoding finds.
    if (Result<std::shared_ptr<const Raster>> raster = shelf_.pixels(picture); !raster) {
      return std::move(raster).why();
    }
    made = data_address(facts.format == PictureFormat::jpeg ? "image/jpeg" : "image/png",
                        picture->bytes());
  } else {
    Result<std::shared_ptr<const Raster>> raster = shelf_.pixels(picture);
    if (!raster) return std::move(raster).why();
    made = data_address("image/png", write_png(**raster, made_at_ppi));
  }
  return addresses_.emplace(picture->key(), std::move(made)).first->second;
}

std::string Definitions::picture(const PicturePtr& picture, Rect to, Diagnostics& found) {
  if (!picture) return {};
  const std::optional<std::string> where = address(picture).or_report(found);
  if (!where) return {};
  return image(*where, picture->facts().width, picture->facts().height, to);
}

std::string Definitions::pixels(const Raster& raster, Rect to) {
  return image(data_address("image/png", write_png(raster, made_at_ppi)), raster.width,
               raster.height, to);
}

std::string Definitions::markup() const {
  return text_.empty() ? std::string{} : "<defs>\n" + text_ + "</defs>\n";
}

}  // namespace quoin::svg
