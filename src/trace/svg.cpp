#include "trace/svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "trace/outline/fit.h"

namespace quoin::trace {
namespace {

/// Pixels, half of it under the neighbour. At one screen pixel a picture pixel 0.7 let 7 % of the
/// page through where a border parts a pixel, 1.4 still 2 %.
constexpr double trap_width = 2;

/// A whole number of hundredths, as short as it can be written.
std::string hundredths(long value) {
  const long whole = std::labs(value) / 100, rest = std::labs(value) % 100;
  std::string text = value < 0 ? "-" : "";
  if (whole > 0 || rest == 0) text += fmt::format("{}", whole);
  if (rest > 0)
    text += rest % 10 == 0 ? fmt::format(".{}", rest / 10) : fmt::format(".{:02}", rest);
  return text;
}
long rounded(double value) { return std::lround(value * 100); }
std::string number(double value) { return hundredths(rounded(value)); }

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '<') {
      out += "&lt;";
    } else if (c == '&') {
      out += "&amp;";
    } else if (static_cast<unsigned char>(c) >= 0x20) {
      out += c;
    }
  }
  return out;
}

/// Path data with relative coordinates; places are rounded, not the steps between them.
class PathWriter {
 public:
  void move(Spot to) {
    text_ += 'M';
    x_ = rounded(to.x);
    y_ = rounded(to.y);
    text_ += hundredths(x_);
    append(y_);
  }
  void curve(const Curve& c) {
    if (c.straight) {
      const long dx = rounded(c.p[3].x) - x_, dy = rounded(c.p[3].y) - y_;
      if (dx == 0 && dy == 0) return;
      if (dy == 0) {
        text_ += 'h' + hundredths(dx);
      } else if (dx == 0) {
        text_ += 'v' + hundredths(dy);
      } else {
        text_ += 'l' + hundredths(dx);
        append(dy);
      }
    } else {
      text_ += 'c' + hundredths(rounded(c.p[1].x) - x_);
      append(rounded(c.p[1].y) - y_);
      for (const Spot& p : {c.p[2], c.p[3]}) {
        append(rounded(p.x) - x_);
        append(rounded(p.y) - y_);
      }
    }
    x_ = rounded(c.p[3].x);
    y_ = rounded(c.p[3].y);
  }
  void close() { text_ += 'z'; }
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  void append(long value) {
    if (value >= 0) text_ += ' ';
    text_ += hundredths(value);
  }
  std::string text_;
  long x_ = 0, y_ = 0;
};

void add_border(PathWriter& path, const Border& border, bool forward, bool moved) {
  const std::size_t count = border.curves.size();
  for (std::size_t i = 0; i < count; ++i) {
    const Curve curve = forward ? border.curves[i] : turned(border.curves[count - 1 - i]);
    if (i == 0 && !moved) path.move(curve.p[0]);
    path.curve(curve);
  }
}

std::string paint_of(const Fill& fill, std::size_t layer) {
  const Colour* colour = std::get_if<Colour>(&fill);
  if (colour == nullptr) return fmt::format("url(#paint-{})", layer + 1);
  return to_string(Colour{colour->red, colour->green, colour->blue, 1});
}

class SvgWriter {
 public:
  SvgWriter(const Tracing& tracing, const std::string& title) : tracing_(tracing) {
    add("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" "
        "viewBox=\"0 0 {0} {1}\">\n",
        tracing.width, tracing.height);
    add("<title>{}</title>\n", escaped(title));
    gradients();
    for (std::size_t i = 0; i < tracing.layers.size(); ++i) layer(i);
    out_ += "</svg>\n";
  }
  Bytes take() { return std::move(out_); }

 private:
  template <typename... Parts>
  void add(fmt::format_string<Parts...> text, Parts&&... parts) {
    fmt::format_to(std::back_inserter(out_), text, std::forward<Parts>(parts)...);
  }

  void stops(const std::vector<FillStop>& all) {
    for (const FillStop& stop : all) {
      add("<stop offset=\"{}\" stop-color=\"{}\"/>", fmt::format("{:.4g}", stop.offset),
          to_string(stop.colour));
    }
  }

  void gradients() {
    bool any = false;
    for (std::size_t i = 0; i < tracing_.layers.size(); ++i) {
      const Fill& fill = tracing_.layers[i].fill;
      if (std::holds_alternative<Colour>(fill)) continue;
      if (!any) out_ += "<defs>\n";
      any = true;
      if (const auto* linear = std::get_if<LinearFill>(&fill)) {
        add("<linearGradient id=\"paint-{}\" gradientUnits=\"userSpaceOnUse\" x1=\"{}\" y1=\"{}\" "
            "x2=\"{}\" y2=\"{}\">",
            i + 1, number(linear->from.x), number(linear->from.y), number(linear->to.x),
            number(linear->to.y));
        stops(linear->stops);
        out_ += "</linearGradient>\n";
      } else {
        const auto& radial = std::get<RadialFill>(fill);
        add("<radialGradient id=\"paint-{}\" gradientUnits=\"userSpaceOnUse\" cx=\"{}\" cy=\"{}\" "
            "r=\"{}\">",
            i + 1, number(radial.centre.x), number(radial.centre.y), number(radial.radius));
        stops(radial.stops);
        out_ += "</radialGradient>\n";
      }
    }
    if (any) out_ += "</defs>\n";
  }

  void layer(std::size_t number_of_layer) {
    const Layer& layer = tracing_.layers[number_of_layer];
    if (layer.faces.empty() && layer.lines.empty()) return;
    const std::string paint = paint_of(layer.fill, number_of_layer);
    const Colour* colour = std::get_if<Colour>(&layer.fill);
    const std::string opacity = colour != nullptr && colour->alpha < 1
                                    ? fmt::format(" fill-opacity=\"{}\"", number(colour->alpha))
                                    : "";
    std::string id = layer.name;
    std::replace(id.begin(), id.end(), ' ', '-');
    const std::string hex = colour != nullptr ? ", " + paint : "";
    add("<g id=\"{}\" fill=\"{}\"{}>\n<title>{}{}</title>\n", id, paint, opacity, layer.name, hex);
    PathWriter traps;
    for (const int f : layer.faces) face(f, traps);
    if (!traps.text().empty()) {
      add("<path fill=\"none\" stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\" "
          "d=\"{}\"/>\n",
          paint, number(trap_width), traps.text());
    }
    for (const StrokeLine& line : layer.lines) stroke(line, paint);
    out_ += "</g>\n";
  }

  void face(int f, PathWriter& traps) {
    const Face& face = tracing_.faces[std::size_t(f)];
    if (face.drawn.size() == 1 && face.drawn.front().size() == 1 &&
        border(face.drawn.front().front()).circle) {
      const Circle& circle = *border(face.drawn.front().front()).circle;
      add("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", number(circle.centre.x),
          number(circle.centre.y), number(circle.radius));
    } else {
      PathWriter path;
      for (const Loop& loop : face.drawn) {
        bool moved = false;
        for (const BorderUse& use : loop) {
          add_border(path, border(use), use.forward, moved);
          moved = true;
        }
        path.close();
      }
      add("<path d=\"{}\"/>\n", path.text());
    }
    for (const Loop& run : face.trapped) {
      bool moved = false;
      for (const BorderUse& use : run) {
        add_border(traps, border(use), use.forward, moved);
        moved = true;
      }
      const Curve& first = border(run.front()).curves.front();
      const Curve& last = border(run.back()).curves.back();
      const Spot start = run.front().forward ? first.p[0] : border(run.front()).curves.back().p[3];
      const Spot end = run.back().forward ? last.p[3] : border(run.back()).curves.front().p[0];
      if (start == end) traps.close();
    }
  }

  void stroke(const StrokeLine& line, const std::string& paint) {
    PathWriter path;
    path.move(line.curves.front().p[0]);
    for (const Curve& curve : line.curves) path.curve(curve);
    if (line.closed) path.close();
    add("<path fill=\"none\" stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"{} "
        "d=\"{}\"/>\n",
        paint, number(line.width), line.round_ends ? " stroke-linecap=\"round\"" : "", path.text());
  }

  [[nodiscard]] const Border& border(BorderUse use) const {
    return tracing_.borders[std::size_t(use.border)];
  }

  const Tracing& tracing_;
  Bytes out_;
};

}  // namespace

Bytes write_svg(const Tracing& tracing, const std::string& title) {
  return SvgWriter(tracing, title).take();
}

}  // namespace quoin::trace
