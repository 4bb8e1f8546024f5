// SVG path data. Source: SVG 1.1 (Second Edition), W3C Recommendation 16 August 2011, section 8.3,
// and its appendix F.6 for arcs.
#include <array>
#include <charconv>
#include <cmath>

#include "geometry/path.h"

namespace quoin {
namespace {

/// An arc as the data gives it: radii, turn in degrees, the two flags.
struct Arc {
  double rx = 0, ry = 0, turn = 0;
  bool large = false, sweep = false;
};

/// An arc by its centre (F.6.5): `start` and `extent` in radians on the unturned unit circle.
struct CentredArc {
  double cx = 0, cy = 0, rx = 0, ry = 0, start = 0, extent = 0;
  SinCos turn;
  [[nodiscard]] Point at(double x, double y) const {
    return {Mm{cx + turn.cos * rx * x - turn.sin * ry * y},
            Mm{cy + turn.sin * rx * x + turn.cos * ry * y}};
  }
};

CentredArc centred(Point from, Point to, const Arc& arc) {
  CentredArc c;
  c.turn = sin_cos(Angle::degrees(arc.turn));
  c.rx = std::abs(arc.rx);
  c.ry = std::abs(arc.ry);
  const double hx = (from.x - to.x).value / 2, hy = (from.y - to.y).value / 2;
  const double x = c.turn.cos * hx + c.turn.sin * hy, y = -c.turn.sin * hx + c.turn.cos * hy;
  const double stretch = (x * x) / (c.rx * c.rx) + (y * y) / (c.ry * c.ry);
  if (stretch > 1) {  // F.6.6: radii too small are scaled up until they just reach
    c.rx *= std::sqrt(stretch);
    c.ry *= std::sqrt(stretch);
  }
  const double xx = c.rx * c.rx * y * y + c.ry * c.ry * x * x;
  double root = std::sqrt(std::max(0.0, (c.rx * c.rx * c.ry * c.ry - xx) / xx));
  if (arc.large == arc.sweep) root = -root;
  const double ux = root * c.rx * y / c.ry, uy = -root * c.ry * x / c.rx;
  c.cx = c.turn.cos * ux - c.turn.sin * uy + (from.x + to.x).value / 2;
  c.cy = c.turn.sin * ux + c.turn.cos * uy + (from.y + to.y).value / 2;
  c.start = std::atan2((y - uy) / c.ry, (x - ux) / c.rx);
  const double end = std::atan2((-y - uy) / c.ry, (-x - ux) / c.rx);
  c.extent = end - c.start;
  if (arc.sweep && c.extent < 0) c.extent += 2 * std::numbers::pi;
  if (!arc.sweep && c.extent > 0) c.extent -= 2 * std::numbers::pi;
  return c;
}

/// Draws the arc as cubics, each no more than a quarter turn.
void arc_to(Path& path, Point from, Point to, const Arc& arc) {
  if (from == to) return;  // F.6.2: left out
  if (arc.rx == 0 || arc.ry == 0) {
    path.line_to(to);
    return;
  }
  const CentredArc c = centred(from, to, arc);
  const int pieces =
      std::max(1, static_cast<int>(std::ceil(std::abs(c.extent) / (std::numbers::pi / 2) - 1e-9)));
  const double step = c.extent / pieces, handle = 4.0 / 3 * std::tan(step / 4);
  for (int i = 0; i < pieces; ++i) {
    const double a = c.start + i * step, b = a + step;
    const Point end = i + 1 == pieces ? to : c.at(std::cos(b), std::sin(b));
    path.curve_to(c.at(std::cos(a) - handle * std::sin(a), std::sin(a) + handle * std::cos(a)),
                  c.at(std::cos(b) + handle * std::sin(b), std::sin(b) - handle * std::cos(b)),
                  end);
  }
}

class PathDataReader {
 public:
  PathDataReader(std::string_view data, std::optional<PathDataError>& error)
      : data_(data), error_(error) {
    error_.reset();
  }

  Path read() {
    skip_space();
    while (at_ < data_.size() && !error_) {
      const char command = data_[at_];
      if (path_.empty() && command != 'M' && command != 'm') {
        fail("the drawing must start with M or m, not with " + met());
      } else if (std::string_view{"MmZzLlHhVvCcSsQqTtAa"}.find(command) == data_.npos) {
        fail("a command letter was expected, not " + met());
      } else {
        ++at_;
        run(command);
      }
      skip_space();
    }
    return std::move(path_);
  }

 private:
  /// One command with all its repeated arguments.
  void run(char command) {
    relative_ = command >= 'a';
    const char kind = relative_ ? static_cast<char>(command - 'a' + 'A') : command;
    if (kind == 'Z') {
      path_.close();
      here_ = start_;
      last_ = 'Z';
      return;
    }
    bool first = true;
    while (!error_ && (first || another_argument())) {
      const char now = kind == 'M' && !first ? 'L' : kind;  // 8.3.2: further pairs are lines
      segment(now);
      if (!error_) last_ = now;
      first = false;
    }
  }

  void segment(char kind) {
    if (last_ == 'Z' && kind != 'M') path_.move_to(here_);
    switch (kind) {
      case 'M':
      case 'L':
        straight(kind);
        break;
      case 'H':
      case 'V':
        along_axis(kind);
        break;
      case 'C':
      case 'S':
        cubic(kind);
        break;
      case 'Q':
      case 'T':
        quadratic(kind);
        break;
      default:
        arc();
        break;
    }
  }

  void straight(char kind) {
    const Point to = point();
    if (error_) return;
    if (kind == 'M') {
      path_.move_to(to);
      start_ = to;
    } else {
      path_.line_to(to);
    }
    here_ = to;
  }

  void along_axis(char kind) {
    const Mm v{number()};
    if (error_) return;
    Point to = here_;
    Mm& part = kind == 'H' ? to.x : to.y;
    part = relative_ ? part + v : v;
    path_.line_to(to);
    here_ = to;
  }

  void cubic(char kind) {
    const bool follows = last_ == 'C' || last_ == 'S';
    const Point a = kind == 'C' ? point() : follows ? here_ + (here_ - handle_) : here_;
    const Point b = point(), to = point();
    if (error_) return;
    path_.curve_to(a, b, to);
    handle_ = b;
    here_ = to;
  }

  void quadratic(char kind) {
    const bool follows = last_ == 'Q' || last_ == 'T';
    const Point q = kind == 'Q' ? point() : follows ? here_ + (here_ - handle_) : here_;
    const Point to = point();
    if (error_) return;
    path_.curve_to(here_ + (q - here_) * (2.0 / 3), to + (q - to) * (2.0 / 3), to);
    handle_ = q;
    here_ = to;
  }

  void arc() {
    Arc arc;
    arc.rx = number();
    arc.ry = number();
    arc.turn = number();
    arc.large = flag();
    arc.sweep = flag();
    const Point to = point();
    if (error_) return;
    arc_to(path_, here_, to, arc);
    here_ = to;
  }

  Point point() {
    const Mm x{number()}, y{number()};
    return relative_ ? here_ + Vec{x, y} : Point{x, y};
  }

  /// A number as the grammar has it: ".5", "1.", "-1e3", "+2".
  double number() {
    if (error_) return 0;
    skip_comma();
    std::size_t begin = at_;
    if (begin < data_.size() && data_[begin] == '+') ++begin;
    double value = 0;
    const char* first = data_.data() + begin;
    const bool signed_twice = begin != at_ && begin < data_.size() && *first == '-';
    const auto [end, fault] = std::from_chars(first, data_.data() + data_.size(), value);
    if (fault == std::errc::result_out_of_range || (fault == std::errc{} && too_long(value))) {
      fail("a length over a million millimetres");
      return 0;
    }
    if (fault != std::errc{} || signed_twice || !std::isfinite(value)) {
      fail("a number was expected, not " + met());
      return 0;
    }
    at_ = static_cast<std::size_t>(end - data_.data());
    return value;
  }

  static bool too_long(double value) { return std::isfinite(value) && std::abs(value) > 1e6; }

  bool flag() {
    if (error_) return false;
    skip_comma();
    if (at_ >= data_.size() || (data_[at_] != '0' && data_[at_] != '1')) {
      fail("an arc's flag must be 0 or 1, not " + met());
      return false;
    }
    return data_[at_++] == '1';
  }

  bool another_argument() {
    const std::size_t back = at_;
    skip_space();
    if (at_ < data_.size() && (data_[at_] == ',' || starts_number(data_[at_]))) return true;
    at_ = back;
    return false;
  }

  static bool starts_number(char c) {
    return (c >= '0' && c <= '9') || c == '-' || c == '+' || c == '.';
  }

  void skip_space() {
    while (at_ < data_.size() && std::string_view{" \t\r\n\f"}.find(data_[at_]) != data_.npos)
      ++at_;
  }

  /// White space with one comma at most, and none straight after a command letter.
  void skip_comma() {
    const bool after_letter = at_ > 0 && std::isalpha(static_cast<unsigned char>(data_[at_ - 1]));
    skip_space();
    if (!after_letter && at_ < data_.size() && data_[at_] == ',') {
      ++at_;
      skip_space();
    }
  }

  [[nodiscard]] std::string met() const {
    if (at_ >= data_.size()) return "the end";
    std::size_t length = 1;  // take a whole UTF-8 character
    while (at_ + length < data_.size() && (data_[at_ + length] & 0xC0) == 0x80 && length < 4)
      ++length;
    return "'" + std::string(data_.substr(at_, length)) + "'";
  }

  void fail(std::string what) {
    if (!error_) error_ = PathDataError{at_, std::move(what)};
  }

  std::string_view data_;
  std::optional<PathDataError>& error_;
  std::size_t at_ = 0;
  Path path_;
  Point here_, start_, handle_;
  bool relative_ = false;
  char last_ = ' ';
};

}  // namespace

Path path_from_svg(std::string_view data, std::optional<PathDataError>& error) {
  return PathDataReader(data, error).read();
}

}  // namespace quoin
