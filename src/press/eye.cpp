#include "press/eye.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "game/words.h"
#include "press/reading.h"

namespace quoin::press {
namespace {

constexpr Mm farthest_off{5};  // that a back lies off its front and still is one
/// Four corners of a flat sheet fit one plane; each reading then is off it by a quarter of what is
/// wrong with one of them. Four times the reading error together.
constexpr Mm most_off_plane{0.1};

struct Offsets {
  std::array<Mm, 4> across, down;  ///< at A, B, C, D
};

std::string sheet_name(std::size_t sheet) { return fmt::format("sheet {}", sheet + 1); }

std::string scale_name(std::size_t number) { return fmt::format("scale {}", number); }

std::string mm_words(Mm length) {
  const double rounded = std::round(length.value * 1000) / 1000;
  return game::number_text(rounded == 0 ? 0 : rounded);
}

/// Reads the words of all sheets, and finds what is wrong with each.
class Reader {
 public:
  Reader(const std::vector<EyeSheet>& sheets, game::FlipEdge flip, Diagnostics& found)
      : sheets_(sheets), flip_(flip), found_(found) {}

  [[nodiscard]] std::vector<Offsets> offsets() {
    std::vector<Offsets> all;
    for (std::size_t i = 0; i < sheets_.size(); ++i) {
      letter(i);
      Offsets& one = all.emplace_back();
      for (std::size_t corner = 0; corner < 4; ++corner) {
        one.across[corner] = scale(i, 2 * corner);
        one.down[corner] = scale(i, 2 * corner + 1);
      }
    }
    return all;
  }

 private:
  void letter(std::size_t sheet) {
    const char seen = sheets_[sheet].behind_a;
    if (seen == 'E') return;
    if (seen == 0) {
      if (sheet > 0) return;  // the printer turns all of them alike
      Diagnostic missing(Id::press_reading_missing, {}, "the letter behind A was not given");
      missing.on(sheet_name(sheet), "letter");
      found_.push_back(missing.hint("say E when E lies behind A, G when G does"));
      return;
    }
    const bool long_edge = flip_ == game::FlipEdge::long_edge;
    if (seen == 'G') {
      Diagnostic other(Id::press_turned_otherwise, {},
                       fmt::format("G lies behind A, and E would if the sheet had been turned "
                                   "about the {} edge",
                                   long_edge ? "long" : "short"));
      other.on(sheet_name(sheet), "letter");
      other.hint(fmt::format("choose \"flip on {} edge\" in the print dialog and print it again",
                             long_edge ? "long" : "short"));
      found_.push_back(
          other.hint(fmt::format("or measure the printer as it is, with a sheet made to be turned "
                                 "about the {} edge",
                                 long_edge ? "short" : "long")));
      return;
    }
    Diagnostic odd(Id::press_reading_out_of_range, {},
                   fmt::format("{} cannot lie behind A; it is E or G", seen));
    odd.on(sheet_name(sheet), "letter");
    found_.push_back(
        odd.hint("hold the sheet with FRONT to you and A at the top left, and look "
                 "again"));
  }

  Mm scale(std::size_t sheet, std::size_t index) {
    const std::string& words = sheets_[sheet].scales[index];
    const std::string name = fmt::format("scale ({})", index + 1);
    if (words.empty()) {
      Diagnostic missing(Id::press_reading_missing, {}, fmt::format("{} was not read", name));
      missing.on(sheet_name(sheet), scale_name(index + 1));
      found_.push_back(missing.hint("give 3 when lines 3 meet there"));
      return {};
    }
    const std::optional<Mm> offset = offset_in_words(words);
    if (!offset) {
      Diagnostic odd(
          Id::press_reading_not_understood, {},
          fmt::format("{} is given as {}, which is no line of it", name, game::in_quotes(words)));
      odd.on(sheet_name(sheet), scale_name(index + 1));
      odd.hint("write the number of the line, -10 to 10, or \"3 or 4\" for between two");
      found_.push_back(
          odd.hint("write 4:3 when line 4 of the front meets line 3 of the other side"));
      return {};
    }
    if (abs(*offset) > farthest_off) {
      Diagnostic far(Id::press_reading_out_of_range, {},
                     fmt::format("{} says that the back lies {} mm off, and {} mm is the most "
                                 "that a sheet of one printing can",
                                 name, mm_words(abs(*offset)), mm_words(farthest_off)));
      far.on(sheet_name(sheet), scale_name(index + 1));
      found_.push_back(far.hint("the front's number comes first: 4:3"));
    }
    return *offset;
  }

  const std::vector<EyeSheet>& sheets_;
  game::FlipEdge flip_;
  Diagnostics& found_;
};

Diagnostic wrong_length(Mm nominal, Mm length, const std::string& name) {
  const auto within = [&](double factor) {
    const double scale = length / nominal * factor;
    return scale > 0.97 && scale < 1.03;
  };
  Diagnostic far(Id::press_reading_out_of_range, {},
                 fmt::format("{} is given as {} mm, and a print at 100 % has {} to {} mm", name,
                             mm_words(length), mm_words(nominal * 0.97), mm_words(nominal * 1.03)));
  const std::string number = mm_words(length);
  if (within(mm_per_inch)) {
    return far.hint(fmt::format("for inches write {}in", number));
  }
  if (within(10)) {
    return far.hint(fmt::format("for centimetres write {}cm", number));
  }
  return far.hint("print the sheet again at 100 % (actual size), not fitted to the page");
}

/// The mean of the readings of one bar over its length, those left empty aside; 1 when there are
/// none.
double bar_scale(Mm nominal, const std::vector<std::string>& readings, Diagnostics& found) {
  const std::string name = fmt::format("the bar of {} mm", mm_words(nominal));
  const std::string short_name = fmt::format("bar {}", mm_words(nominal));
  double sum = 0;
  int read = 0;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const std::string& words = readings[i];
    if (words.empty()) continue;
    const std::optional<Mm> length = length_in_words(words);
    if (!length) {
      Diagnostic odd(
          Id::press_reading_not_understood, {},
          fmt::format("{} is given as {}, which is no length", name, game::in_quotes(words)));
      const std::string like = mm_words(nominal - Mm{0.4});
      const std::string in_cm = mm_words((nominal - Mm{0.4}) / 10);
      odd.on(sheet_name(i), short_name);
      found.push_back(odd.hint(fmt::format("write {}, or {}cm", like, in_cm)));
      continue;
    }
    const double scale = *length / nominal;
    if (scale < 0.97 || scale > 1.03) {
      found.push_back(wrong_length(nominal, *length, name).on(sheet_name(i), short_name));
    }
    sum += scale;
    ++read;
  }
  return read == 0 ? 1 : sum / read;
}

/// Planes over the corners for both ways, as one map, and how far the readings are off them.
struct PlaneFit {
  Affine map;
  AffineFit across, down;
};

PlaneFit fit_planes(const Offsets& offsets, const SheetLayout& layout) {
  std::vector<Pair> across, down;
  for (std::size_t corner = 0; corner < 4; ++corner) {
    const Point x = layout.verniers[2 * corner].at, y = layout.verniers[2 * corner + 1].at;
    across.push_back({x, x + Vec{offsets.across[corner], Mm{}}});
    down.push_back({y, y + Vec{Mm{}, offsets.down[corner]}});
  }
  const Rejection none{Mm{1000}};
  PlaneFit fit{{}, fit_affine(across, none).value(), fit_affine(down, none).value()};
  fit.map = {fit.across.map.a, fit.down.map.b,   fit.across.map.c,
             fit.down.map.d,   fit.across.map.e, fit.down.map.f};
  return fit;
}

/// 95 in 100 of the errors at the worst corner, when one reading errs by `error`.
Mm bound_of(const PlaneFit& fit, const SheetLayout& layout, Mm error) {
  Mm worst;
  AffineFit across = fit.across, down = fit.down;
  across.deviation = down.deviation = error;
  for (const Point corner : worst_corners(layout.paper)) {
    worst = std::max({worst, across.error_at(corner), down.error_at(corner)});
  }
  return worst * four_place_quantile;
}

/// What is wrong with one of four readings that no plane fits: the sum that a plane makes nothing.
Mm contradiction(const std::array<Mm, 4>& offsets) {
  return offsets[0] - offsets[1] + offsets[2] - offsets[3];
}

/// The corner that is farthest_off from what the other sheets say there; nothing for few sheets.
std::optional<std::size_t> odd_corner(const std::vector<Offsets>& all, std::size_t sheet,
                                      std::array<Mm, 4> Offsets::*way) {
  if (all.size() < 3) return std::nullopt;
  std::size_t worst = 0;
  Mm most;
  for (std::size_t corner = 0; corner < 4; ++corner) {
    std::vector<Mm> others;
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (i != sheet) others.push_back((all[i].*way)[corner]);
    }
    std::sort(others.begin(), others.end());
    const Mm off = abs((all[sheet].*way)[corner] - others[others.size() / 2]);
    if (off > most) {
      most = off;
      worst = corner;
    }
  }
  return worst;
}

void check_plane(const std::vector<Offsets>& all, std::size_t sheet,
                 std::array<Mm, 4> Offsets::*way, Diagnostics& found) {
  const std::array<Mm, 4>& read = all[sheet].*way;
  const Mm off = contradiction(read);
  if (abs(off) <= most_off_plane * 4) return;
  const bool across = way == &Offsets::across;
  const std::size_t first = across ? 1 : 2;
  Diagnostic problem(
      Id::press_readings_disagree, {},
      fmt::format("the readings {} do not go with a flat sheet: {}, {}, {} and {} mm at A, B, C "
                  "and D",
                  across ? "across" : "down", mm_words(read[0]), mm_words(read[1]),
                  mm_words(read[2]), mm_words(read[3])));
  problem.detail(fmt::format("one of them is some {} mm off", mm_words(abs(off))));
  if (const auto corner = odd_corner(all, sheet, way)) {
    problem.on(sheet_name(sheet), scale_name(2 * *corner + first));
    problem.hint(
        fmt::format("read ({}) again: it differs most from the other sheets", 2 * *corner + first));
  } else {
    problem.on(sheet_name(sheet), across ? "scales across" : "scales down");
    problem.hint(fmt::format("read ({}), ({}), ({}) and ({}) again", first, first + 2, first + 4,
                             first + 6));
  }
  if (std::abs(std::abs(off.value) - std::round(std::abs(off.value))) < 0.2) {
    problem.hint(
        "it is a whole millimetre: perhaps lines of different numbers met there; write "
        "both, 4:3");
  }
  found.push_back(std::move(problem));
}

}  // namespace

std::optional<Mm> offset_in_words(std::string_view words) {
  const std::size_t colon = words.find(':');
  const bool both = colon != std::string_view::npos;
  const auto back = line_in_words(both ? words.substr(colon + 1) : words);
  const auto front = both ? line_in_words(words.substr(0, colon)) : back;
  if (!front || !back || std::abs(*front) > front_lines || std::abs(*back) > back_lines) {
    return std::nullopt;
  }
  return front_pitch * *front - back_pitch * *back;
}

Result<FrontScale> scale_of_bars(const BarReadings& readings, Size paper) {
  Diagnostics found;
  const double shorter = bar_scale(Mm{150}, readings.bar_150, found);
  const double longer = bar_scale(Mm{200}, readings.bar_200, found);
  if (!found.empty()) return found;
  return paper.width > paper.height ? FrontScale{longer, shorter} : FrontScale{shorter, longer};
}

Result<Measurement> measure_by_eye(const std::vector<EyeSheet>& sheets, const BarReadings& bars,
                                   const SheetLayout& layout, game::FlipEdge flip) {
  Diagnostics found;
  if (sheets.empty()) {
    return Diagnostic(Id::press_reading_missing, {}, "no sheet was read")
        .hint("quoin printer says how to read one");
  }
  Reader reader(sheets, flip, found);
  const std::vector<Offsets> offsets = reader.offsets();
  const auto scale = scale_of_bars(bars, layout.paper).or_report(found);
  if (any_errors(found)) return found;
  std::vector<SheetMeasured> measured;
  for (std::size_t i = 0; i < offsets.size(); ++i) {
    check_plane(offsets, i, &Offsets::across, found);
    check_plane(offsets, i, &Offsets::down, found);
    const PlaneFit fit = fit_planes(offsets[i], layout);
    const Mm residual{std::hypot(fit.across.rms.value, fit.down.rms.value)};
    // Each way has one reading more than its plane needs; together two degrees of freedom.
    const Mm seen{std::hypot(fit.across.deviation.value, fit.down.deviation.value)};
    measured.push_back({fit.map, bound_of(fit, layout, std::max(reading_error, seen)), residual});
  }
  if (any_errors(found)) return found;
  Result<Measurement> all = combined(std::move(measured), layout.paper);
  if (!all) return all;
  all->scale_x = scale->x;
  all->scale_y = scale->y;
  return all;
}

}  // namespace quoin::press
