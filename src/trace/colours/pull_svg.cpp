#include "trace/colours/pull_svg.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <string_view>

#include "trace/colours/nearest.h"

namespace quoin::trace {
namespace {

constexpr std::array<std::string_view, 6> properties{"fill",       "stroke",      "color",
                                                     "stop-color", "flood-color", "lighting-color"};

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool is_name(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '_';
}

/// A colour as it stands in a text: so many bytes from a place.
struct Written {
  Colour colour;
  std::size_t length = 0;
};

std::optional<Written> hex_at(std::string_view text) {
  std::size_t end = 1;
  while (end < text.size() && std::isxdigit(static_cast<unsigned char>(text[end])) != 0) ++end;
  if (end != 4 && end != 7) return std::nullopt;
  const auto colour = parse_colour(text.substr(0, end));
  return colour ? std::optional<Written>({*colour, end}) : std::nullopt;
}

/// "rgb(29, 43, 51)": whole numbers, not per cent.
std::optional<Written> rgb_at(std::string_view text) {
  const std::size_t close = text.substr(0, 40).find(')');
  if (close == std::string_view::npos) return std::nullopt;
  std::array<int, 3> parts{};
  const char* at = text.data() + 4;
  const char* end = text.data() + close;
  for (std::size_t i = 0; i < 3; ++i) {
    while (at < end && (is_blank(*at) || *at == ',')) ++at;
    const auto [next, error] = std::from_chars(at, end, parts[i]);
    if (error != std::errc{} || parts[i] < 0 || parts[i] > 255) return std::nullopt;
    at = next;
  }
  while (at < end && is_blank(*at)) ++at;
  if (at != end) return std::nullopt;
  return Written{{parts[0] / 255.0, parts[1] / 255.0, parts[2] / 255.0, 1}, close + 1};
}

std::optional<Written> colour_at(std::string_view text) {
  if (text.starts_with('#')) return hex_at(text);
  return text.starts_with("rgb(") ? rgb_at(text) : std::nullopt;
}

/// Goes through the text of an SVG and changes colours where they paint: in attributes, in style
/// attributes and in style sheets; not in comments, texts and other attributes.
class SvgPuller {
 public:
  SvgPuller(std::string_view text, const std::vector<Colour>& palette, double reach)
      : text_(text), palette_(palette), reach_(reach) {}

  PulledSvg run() {
    while (at_ < text_.size()) {
      if (begins("<!--")) {
        skip_past("-->");
      } else if (begins("<?")) {
        skip_past("?>");
      } else if (begins("<!") && !begins("<![CDATA[")) {
        skip_past(">");
      } else if (text_[at_] == '<') {
        tag();
      } else {
        const std::size_t next = std::min(text_.find('<', at_ + 1), text_.size());
        if (in_style_) declarations(at_, next);
        at_ = next;
      }
    }
    pulled_.svg += text_.substr(copied_);
    return std::move(pulled_);
  }

 private:
  [[nodiscard]] bool begins(std::string_view word) const {
    return text_.substr(at_, word.size()) == word;
  }
  void skip_past(std::string_view word) {
    const std::size_t found = text_.find(word, at_);
    at_ = found == std::string_view::npos ? text_.size() : found + word.size();
  }
  void skip_blanks() {
    while (at_ < text_.size() && is_blank(text_[at_])) ++at_;
  }
  std::string_view name() {
    const std::size_t from = at_;
    while (at_ < text_.size() && (is_name(text_[at_]) || text_[at_] == ':')) ++at_;
    return text_.substr(from, at_ - from);
  }

  void tag() {
    if (begins("<![CDATA[")) {
      at_ += 9;
      return;
    }
    ++at_;
    const bool closes = at_ < text_.size() && text_[at_] == '/';
    if (closes) ++at_;
    const std::string_view element = name();
    bool is_empty = false;
    while (at_ < text_.size() && text_[at_] != '>') {
      is_empty = text_[at_] == '/';
      const std::size_t before = at_;
      if (is_name(text_[at_])) attribute();
      if (at_ == before) ++at_;
    }
    if (at_ < text_.size()) ++at_;
    if (element == "style") in_style_ = !closes && !is_empty;
  }

  void attribute() {
    const std::string_view called = name();
    skip_blanks();
    if (at_ >= text_.size() || text_[at_] != '=') return;
    ++at_;
    skip_blanks();
    if (at_ >= text_.size() || (text_[at_] != '"' && text_[at_] != '\'')) return;
    const std::size_t from = at_ + 1;
    const std::size_t to = std::min(text_.find(text_[at_], from), text_.size());
    if (called == "style") declarations(from, to);
    if (is_property(called)) value(from);
    at_ = std::min(to + 1, text_.size());
  }

  static bool is_property(std::string_view word) {
    return std::find(properties.begin(), properties.end(), word) != properties.end();
  }

  /// "fill: #1d2b33; stroke-width: 2"
  void declarations(std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to;) {
      if (!is_name(text_[i])) {
        ++i;
        continue;
      }
      const std::size_t begin = i;
      while (i < to && is_name(text_[i])) ++i;
      const std::string_view word = text_.substr(begin, i - begin);
      std::size_t next = i;
      while (next < to && is_blank(text_[next])) ++next;
      if (next < to && text_[next] == ':' && is_property(word)) value(next + 1);
    }
  }

  void value(std::size_t from) {
    while (from < text_.size() && is_blank(text_[from])) ++from;
    const auto written = colour_at(text_.substr(from));
    if (!written) return;
    const auto nearest = nearest_within(palette_, written->colour, reach_);
    if (!nearest || to_string(*nearest) == to_string(written->colour)) return;
    pulled_.svg += text_.substr(copied_, from - copied_);
    pulled_.svg += to_string(*nearest);
    copied_ = from + written->length;
    ++pulled_.changed;
  }

  std::string_view text_;
  const std::vector<Colour>& palette_;
  double reach_;
  std::size_t at_ = 0, copied_ = 0;
  bool in_style_ = false;
  PulledSvg pulled_;
};

}  // namespace

PulledSvg pull_svg(const Bytes& svg, const std::vector<Colour>& palette, double reach) {
  return SvgPuller(svg, palette, reach).run();
}

}  // namespace quoin::trace
