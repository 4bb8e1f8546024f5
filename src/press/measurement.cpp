#include "press/measurement.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace quoin::press {
namespace {

/// Mean and standard deviation of one part over the sheets.
struct Summary {
  double mean = 0, deviation = 0;
};

template <typename Part>
Summary summary(const std::vector<Parts>& all, Part part) {
  Summary result;
  const auto n = static_cast<double>(all.size());
  for (const Parts& each : all) result.mean += part(each) / n;
  double squares = 0;
  for (const Parts& each : all) squares += std::pow(part(each) - result.mean, 2);
  if (n > 1) result.deviation = std::sqrt(squares / (n - 1));
  return result;
}

std::string percent(double scale) { return fmt::format("{:.2f} %", scale * 100); }

/// Rounded so that no sign stands before a nothing.
double tidy(double value, double step) {
  const double rounded = std::round(value / step) * step;
  return rounded == 0 ? 0 : rounded;
}

}  // namespace

std::string across_words(Mm shift) {
  const double mm = tidy(shift.value, 0.01);
  if (mm == 0) return "0 mm across";
  return fmt::format("{:.2f} mm to the {}", std::abs(mm), mm > 0 ? "right" : "left");
}

std::string down_words(Mm shift) {
  const double mm = tidy(shift.value, 0.01);
  if (mm == 0) return "0 mm down";
  return fmt::format("{:.2f} mm {}", std::abs(mm), mm > 0 ? "down" : "up");
}

std::vector<Point> worst_corners(Size paper) {
  constexpr Mm in{15};
  const Mm right = paper.width - in, bottom = paper.height - in;
  return {{in, in}, {right, in}, {in, bottom}, {right, bottom}};
}

Result<Measurement> combined(std::vector<SheetMeasured> sheets, Size paper) {
  if (sheets.empty()) throw std::logic_error("a measurement without sheets");
  const Point centre{paper.width / 2, paper.height / 2};
  std::vector<Parts> parts;
  double squares = 0;
  for (const SheetMeasured& sheet : sheets) {
    parts.push_back(parts_of(sheet.back, centre));
    squares += sheet.within.value * sheet.within.value;
  }
  const Summary x = summary(parts, [](const Parts& p) { return p.shift.x.value; });
  const Summary y = summary(parts, [](const Parts& p) { return p.shift.y.value; });
  const Summary turn = summary(parts, [](const Parts& p) { return p.turn.radians; });
  Measurement all;
  all.back.shift = {Mm{x.mean}, Mm{y.mean}};
  all.back.turn = Angle{turn.mean};
  all.back.scale_x = summary(parts, [](const Parts& p) { return p.scale_x; }).mean;
  all.back.scale_y = summary(parts, [](const Parts& p) { return p.scale_y; }).mean;
  all.back.skew = Angle{summary(parts, [](const Parts& p) { return p.skew.radians; }).mean};
  all.spread = {Mm{x.deviation}, Mm{y.deviation}, Angle{turn.deviation}};
  all.within = Mm{std::sqrt(squares) / static_cast<double>(sheets.size())};
  all.sheets = std::move(sheets);
  if (all.within <= widest_bound) return all;
  Diagnostic unsure(
      Id::press_not_sure_enough, {},
      fmt::format("the backs' places are known to ±{:.2f} mm at the corners, and ±{:.2f} mm is "
                  "what a correction needs",
                  all.within.value, widest_bound.value));
  return unsure.hint("measure more sheets, or all six pinholes of each");
}

std::vector<std::string> profile_words(const Profile& p) {
  std::vector<std::string> lines;
  lines.push_back(fmt::format("backs lie {} and {} of their fronts, turned {:.3f}° clockwise",
                              across_words(p.back.shift.x), down_words(p.back.shift.y),
                              tidy(p.back.turn.in_degrees(), 0.001)));
  lines.push_back(fmt::format("backs are {} wide and {} high, out of square by {:.3f}°",
                              percent(p.back.scale_x), percent(p.back.scale_y),
                              tidy(p.back.skew.in_degrees(), 0.001)));
  lines.push_back(
      fmt::format("fronts come out {} wide and {} high", percent(p.scale_x), percent(p.scale_y)));
  if (p.within) {
    lines.push_back(fmt::format("known to ±{:.2f} mm at the corners", p.within->value));
  }
  if (p.sheets > 1) {
    lines.push_back(fmt::format(
        "single sheets stray by {:.2f} mm across, {:.2f} mm down and {:.3f}°, which nothing "
        "corrects (standard deviations of {} sheets)",
        p.spread.shift_x.value, p.spread.shift_y.value, p.spread.turn.in_degrees(), p.sheets));
  } else {
    lines.emplace_back("how far single sheets stray shows only when three or more are measured");
  }
  return lines;
}

std::vector<std::string> measurement_words(const Measurement& measured) {
  return profile_words(with({}, measured));
}

Profile with(Profile profile, const Measurement& measured) {
  profile.back = measured.back;
  profile.spread = measured.spread;
  profile.within = measured.within;
  profile.scale_x = measured.scale_x;
  profile.scale_y = measured.scale_y;
  profile.sheets = static_cast<int>(measured.sheets.size());
  return profile;
}

}  // namespace quoin::press
