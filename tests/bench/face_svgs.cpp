#include <fmt/format.h>

#include <fstream>
#include <stdexcept>
#include <string_view>

#include "folders.h"

namespace quoin::bench {
namespace {

/// The text cut into lines of at most `width` letters at spaces, as whoever writes SVG by hand
/// must do.
[[nodiscard]] std::vector<std::string> lines_of(std::string_view text, std::size_t width) {
  std::vector<std::string> lines;
  while (text.size() > width) {
    const std::size_t cut = text.rfind(' ', width);
    lines.emplace_back(text.substr(0, cut));
    text.remove_prefix(cut + 1);
  }
  lines.emplace_back(text);
  return lines;
}

struct TextPlace {
  double x, y, leading;  // mm of the page, first baseline
  std::string_view attributes;
};

[[nodiscard]] std::string text_block(const TextPlace& place,
                                     const std::vector<std::string>& lines) {
  std::string spans;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    spans += fmt::format("<tspan x=\"{}\" y=\"{}\">{}</tspan>", place.x,
                         place.y + place.leading * static_cast<double>(i), lines[i]);
  }
  return fmt::format("<text {} fill=\"#1d2b33\">{}</text>\n", place.attributes, spans);
}

// 1 pt = 0.352778 mm: type of 12, 8.5 and 8 pt is 4.233, 2.999 and 2.822 mm.
[[nodiscard]] std::string texts(const Face& face) {
  return text_block({18, 14, 5.3, R"(font-family="Lato" font-weight="bold" font-size="4.233")"},
                    {face.name}) +
         text_block({9, 62, 3.75, R"(font-family="Vollkorn" font-size="2.999")"},
                    lines_of(face.rule, 38)) +
         text_block({34.75, 82.6, 3.5,
                     R"(font-family="EB Garamond" font-size="2.822" text-anchor="middle")"},
                    lines_of(face.saying, 44));
}

// Filled in with the picture, the icon and the three blocks of text.
constexpr std::string_view page = R"svg(<svg xmlns="http://www.w3.org/2000/svg"
  width="69.5mm" height="94.9mm" viewBox="0 0 69.5 94.9">
<defs><linearGradient id="ground" x1="0" y1="0" x2="0" y2="1">
<stop offset="0" stop-color="#f4e7c8"/><stop offset="1" stop-color="#9fc0c4"/>
</linearGradient></defs>
<rect width="69.5" height="94.9" fill="url(#ground)"/>
<image href="art/{}" x="8" y="17" width="53.5" height="40" preserveAspectRatio="xMidYMid slice"/>
<rect x="7" y="7" width="55.5" height="80.9" rx="2"
  fill="none" stroke="#1d2b33" stroke-width="0.4"/>
<image href="art/{}" x="8.5" y="8.5" width="8" height="8"/>
{}</svg>
)svg";

[[nodiscard]] std::string face_svg(const Face& face) {
  return fmt::format(page, face.picture, face.icon, texts(face));
}

}  // namespace

void write_face_svgs(const std::filesystem::path& folder, const std::vector<Face>& all) {
  write_art(folder / "art");
  for (std::size_t n = 0; n < all.size(); ++n) {
    const auto file = folder / fmt::format("face-{:05}.svg", n + 1);
    std::ofstream out(file, std::ios::binary);
    out << face_svg(all[n]);
    out.close();
    if (!out) throw std::runtime_error("cannot write " + file.string());
  }
}

}  // namespace quoin::bench
