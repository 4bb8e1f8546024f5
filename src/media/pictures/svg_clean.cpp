#include "media/pictures/svg_clean.h"

#include <fmt/format.h>
#include <glib.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>

#include "media/pictures/limits.h"

namespace quoin::pictures {
namespace {

/// Elements that draw something or are drawn by others (SVG 1.1 and SVG 2, those that the renderer
/// knows), in alphabetical order.
constexpr std::array<std::string_view, 53> drawn = {"a",
                                                    "circle",
                                                    "clipPath",
                                                    "defs",
                                                    "ellipse",
                                                    "feBlend",
                                                    "feColorMatrix",
                                                    "feComponentTransfer",
                                                    "feComposite",
                                                    "feConvolveMatrix",
                                                    "feDiffuseLighting",
                                                    "feDisplacementMap",
                                                    "feDistantLight",
                                                    "feDropShadow",
                                                    "feFlood",
                                                    "feFuncA",
                                                    "feFuncB",
                                                    "feFuncG",
                                                    "feFuncR",
                                                    "feGaussianBlur",
                                                    "feImage",
                                                    "feMerge",
                                                    "feMergeNode",
                                                    "feMorphology",
                                                    "feOffset",
                                                    "fePointLight",
                                                    "feSpecularLighting",
                                                    "feSpotLight",
                                                    "feTile",
                                                    "feTurbulence",
                                                    "filter",
                                                    "g",
                                                    "image",
                                                    "line",
                                                    "linearGradient",
                                                    "marker",
                                                    "mask",
                                                    "path",
                                                    "pattern",
                                                    "polygon",
                                                    "polyline",
                                                    "radialGradient",
                                                    "rect",
                                                    "stop",
                                                    "style",
                                                    "svg",
                                                    "switch",
                                                    "symbol",
                                                    "text",
                                                    "title",
                                                    "tref",
                                                    "tspan",
                                                    "use"};
static_assert(std::is_sorted(drawn.begin(), drawn.end()));

/// Words about the drawing, which nobody draws.
bool is_for_readers(std::string_view name) {
  return name == "title" || name == "desc" || name == "metadata" || name == "view";
}
bool is_drawn(std::string_view name) {
  return std::binary_search(drawn.begin(), drawn.end(), name);
}
bool holds_text(std::string_view name) {
  return name == "text" || name == "tspan" || name == "style";
}

/// What the maker would call an element that is taken out.
std::string words_for(const std::string& name) {
  if (name == "script") return "a script";
  if (name == "foreignObject") return "a web page (<foreignObject>)";
  if (name.starts_with("animate") || name == "set") return fmt::format("an animation (<{}>)", name);
  return fmt::format("<{}>, which is not drawn", name);
}

std::string number_text(double value) { return fmt::format("{:.6g}", value); }

/// Whether "en" or a kind of it is among the languages of a systemLanguage list.
bool asks_for_english(std::string_view list) {
  for (std::size_t at = 0; at < list.size();) {
    const std::size_t start = std::min(list.find_first_not_of(" \t\n,", at), list.size());
    const std::size_t end = std::min(list.find_first_of(" \t\n,", start), list.size());
    const std::string_view tag = list.substr(start, end - start);
    const bool english = tag.size() >= 2 && g_ascii_strncasecmp(tag.data(), "en", 2) == 0;
    if (english && (tag.size() == 2 || tag[2] == '-')) return true;
    at = end;
  }
  return false;
}

class Cleaner {
 public:
  Cleaner(const SourceFile& file, const SvgElement& root)
      : file_(file), diagonal_(diagonal_of(root)) {}

  void clean_element(SvgElement& element, bool in_text) {
    take_out_handlers(element);
    tone_down(element);
    const bool keeps_text = in_text || holds_text(element.name);
    std::erase_if(element.children, [&](const SvgChild& child) {
      if (child.element == nullptr) return !keeps_text;
      return !stays(*child.element);
    });
    for (SvgChild& child : element.children) {
      const bool text_goes_on = keeps_text && element.name != "style";
      if (child.element != nullptr) clean_element(*child.element, text_goes_on);
    }
  }

  void report(Diagnostics& remarks) const {
    for (const auto& [what, places] : taken_out_) {
      remarks.push_back(finding(Id::picture_svg_taken_out, places,
                                fmt::format("holds {}; it was taken out", what)));
    }
    for (const auto& [what, places] : toned_down_) {
      remarks.push_back(finding(Id::picture_svg_toned_down, places, what));
    }
  }

 private:
  struct Places {
    int first_line = 0, count = 0;
  };
  static void note(std::map<std::string, Places>& kinds, const std::string& what, int line) {
    Places& places = kinds[what];
    if (places.count++ == 0) places.first_line = line;
  }

  [[nodiscard]] Diagnostic finding(Id id, const Places& places, std::string_view what) const {
    const SourceFile at_line{fmt::format("{}:{}", file_.path, places.first_line), {}};
    Diagnostic d = about(id, at_line, what);
    if (places.count > 1) {
      d.detail(fmt::format("{} of them; the first is in line {}", places.count, places.first_line));
    }
    return d;
  }

  bool stays(SvgElement& element) {
    if (is_for_readers(element.name)) return false;
    if (!is_drawn(element.name)) {
      note(taken_out_, words_for(element.name), element.line);
      return false;
    }
    const std::string* languages = element.attribute("systemLanguage");
    if (languages == nullptr) return true;
    const bool english = asks_for_english(*languages);
    if (!english) {
      note(taken_out_, fmt::format("a part for readers of \"{}\"", *languages), element.line);
    }
    element.remove("systemLanguage");
    return english;
  }

  void take_out_handlers(SvgElement& element) {
    std::erase_if(element.attributes, [&](const SvgAttribute& a) {
      const bool handler = a.name.size() > 2 && a.name.starts_with("on");
      if (handler) note(taken_out_, fmt::format("a script ({})", a.name), element.line);
      return handler;
    });
  }

  /// The attribute's numbers, none over `most`.
  void limit(SvgElement& element, std::string_view attribute, double most) {
    const std::string* value = element.attribute(attribute);
    if (value == nullptr || most <= 0) return;
    std::string limited;
    bool changed = false;
    for (const double number : numbers_in(*value)) {
      changed = changed || number > most;
      if (!limited.empty()) limited += ' ';
      limited += number_text(std::min(number, most));
    }
    if (!changed) return;
    note(toned_down_,
         fmt::format("asks <{}> for {} {}; {} is used", element.name, attribute, *value, limited),
         element.line);
    element.set(attribute, limited);
  }

  void tone_down(SvgElement& element) {
    // A dilation looks at (2 r)² pixels for each pixel that it sets.
    constexpr double thickest = 0.01;
    if (element.name == "feTurbulence") limit(element, "numOctaves", most_octaves);
    if (element.name == "feMorphology") limit(element, "radius", diagonal_ * thickest);
    if (element.name == "feGaussianBlur") limit(element, "stdDeviation", diagonal_);
    if (element.name == "feDropShadow") limit(element, "stdDeviation", diagonal_);
  }

  const SourceFile& file_;
  double diagonal_;
  std::map<std::string, Places> taken_out_, toned_down_;
};

}  // namespace

std::vector<double> numbers_in(std::string_view text) {
  std::vector<double> numbers;
  for (;;) {
    text.remove_prefix(std::min(text.find_first_not_of(" \t\r\n,+"), text.size()));
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || !std::isfinite(value)) return numbers;
    numbers.push_back(value);
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  }
}

double diagonal_of(const SvgElement& root) {
  if (const std::string* box = root.attribute("viewBox")) {
    const std::vector<double> numbers = numbers_in(*box);
    if (numbers.size() == 4) return std::hypot(numbers[2], numbers[3]);
  }
  const std::string* width = root.attribute("width");
  const std::string* height = root.attribute("height");
  if (width == nullptr || height == nullptr) return 0;
  const std::vector<double> w = numbers_in(*width), h = numbers_in(*height);
  return w.empty() || h.empty() ? 0 : std::hypot(w[0], h[0]);
}

void clean(const SourceFile& file, SvgElement& root, Diagnostics& remarks) {
  Cleaner cleaner(file, root);
  cleaner.clean_element(root, false);
  cleaner.report(remarks);
}

}  // namespace quoin::pictures
