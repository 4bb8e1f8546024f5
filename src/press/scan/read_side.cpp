#include "press/scan/read_side.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "press/scan/find_codes.h"
#include "press/scan/find_dots.h"
#include "press/scan/find_edges.h"

namespace quoin::press {
namespace {

/// Codes are looked for in the picture made as small as this, on its longer side.
constexpr int coarse_side = 1800;
constexpr int fewest_codes = 3;
constexpr Mm most_code_residual{1};

SheetSide side_of_code(const CodeSeen& code) {
  return code.number < 8 ? SheetSide::front : SheetSide::back;
}

/// Codes in pixels of the whole picture.
std::vector<CodeSeen> codes_in(const GreyImage& image) {
  const int factor = std::max(1, std::max(image.width, image.height) / coarse_side);
  std::vector<CodeSeen> codes = find_codes(smaller(image, factor));
  for (CodeSeen& code : codes) {
    for (Pixel& corner : code.corners) corner = {corner.x * factor, corner.y * factor};
  }
  return codes;
}

/// Corners of the upright mark in the order in which they were seen.
std::array<Point, 4> corners_of(const CodeMark& mark) {
  const Mm half = code_size / 2;
  const Point c = mark.centre;
  return {Point{c.x - half, c.y - half},
          {c.x + half, c.y - half},
          {c.x + half, c.y + half},
          {c.x - half, c.y + half}};
}

std::vector<Sighting> sightings_of(const std::vector<CodeSeen>& codes, const SheetLayout& layout,
                                   SheetSide side) {
  std::vector<Sighting> all;
  for (const CodeSeen& code : codes) {
    for (const CodeMark& mark : layout.codes_of(side)) {
      if (mark.number != code.number) continue;
      const std::array<Point, 4> corners = corners_of(mark);
      for (std::size_t i = 0; i < 4; ++i) all.push_back({corners[i], code.corners[i]});
    }
  }
  return all;
}

Mm in_mm(double pixels, const PlaneMap& map, const SheetLayout& layout) {
  return Mm{pixels / map.pixels_per_mm({layout.paper.width / 2, layout.paper.height / 2})};
}

/// The layout whose marks lie as the codes do, and the first map.
struct Start {
  SheetLayout layout;
  PlaneMap map;
  Mm residual;
};

std::optional<Start> best_start(const std::vector<CodeSeen>& codes, SheetSide side,
                                const std::vector<Size>& papers) {
  std::optional<Start> best;
  for (const Size paper : papers) {
    const SheetLayout layout = sheet_layout(paper);
    const auto fit = fit_plane(sightings_of(codes, layout, side), Perspective::free, 8);
    if (!fit) continue;
    const Mm residual = in_mm(fit->rms, fit->map, layout);
    if (!best || residual < best->residual) best = Start{layout, fit->map, residual};
  }
  return best;
}

std::vector<Sighting> dots_seen(const GreyImage& image, const Start& start, SheetSide side) {
  std::vector<Sighting> seen;
  for (const Point place : start.layout.dots_of(side)) {
    const double per_mm = start.map.pixels_per_mm(place), radius = dot_size.value / 2 * per_mm;
    // Room for the dot, and for codes that were read a millimetre off.
    const DotSought sought{start.map(place), 3.8 * per_mm, radius * 0.7, radius * 1.35, 0};
    const auto at = find_dot(image, sought);
    if (!at) continue;
    const double off = std::hypot(at->x - sought.near.x, at->y - sought.near.y);
    if (off < 1.2 * per_mm) seen.push_back({place, *at});
  }
  return seen;
}

Diagnostic at(FileName file, Id id, std::string message) {
  return {id, {file}, std::move(message)};
}

Diagnostic no_marks(FileName file, std::size_t codes) {
  return at(file, Id::press_scan_without_marks,
            codes == 0 ? "none of the 8 square codes of the measuring sheet is to be seen"
                       : fmt::format("{} of the 8 square codes of the measuring sheet can be read, "
                                     "and {} are needed",
                                     codes, fewest_codes))
      .hint("scan the whole measuring sheet at 300 ppi, pressed flat");
}

Diagnostic not_flat(FileName file, Mm residual) {
  Diagnostic found = at(file, Id::press_scan_not_flat,
                        fmt::format("the dots lie {:.2f} mm off where a flat sheet has them, and "
                                    "{:.2f} mm is the most to measure by",
                                    residual.value, most_dot_residual.value));
  found.hint("press the sheet flat under the lid and scan it again");
  return found.hint("with a camera: from straight above and farther off, without a wide angle");
}

/// Width against height, and the angle between, as a scanner without fault has them.
std::optional<Diagnostic> odd_size(FileName file, const PlaneMap& map) {
  const double sx = std::hypot(map.m[0], map.m[3]), sy = std::hypot(map.m[1], map.m[4]);
  const double skew = (map.m[0] * map.m[1] + map.m[3] * map.m[4]) / (sx * sy);
  if (std::abs(sx / sy - 1) <= most_uneven_scale && std::abs(skew) <= most_skew) {
    return std::nullopt;
  }
  Diagnostic found =
      at(file, Id::press_scan_odd_size,
         fmt::format("the sheet is {:.1f} % as wide for its height as it should be, and its angles "
                     "are {:.2f}° off square",
                     sx / sy * 100, std::abs(std::asin(std::clamp(skew, -1.0, 1.0))) * 57.2958));
  return found.hint("scan it again with the same ppi both ways, and without fitting to a page");
}

/// The map from the dots: a scanner's when the dots allow it, else a camera's.
Result<SideSeen> mapped_by_dots(const std::vector<Sighting>& dots, const Start& start,
                                FileName file) {
  SideSeen seen;
  seen.layout = start.layout;
  const double floor =
      0.05 * start.map.pixels_per_mm({start.layout.paper.width / 2, start.layout.paper.height / 2});
  auto flat = fit_plane(dots, Perspective::none, floor);
  if (flat && in_mm(flat->rms, flat->map, seen.layout) <= most_dot_residual &&
      flat->used >= fewest_dots) {
    if (auto odd = odd_size(file, flat->map)) return *odd;
  } else {
    auto free = fit_plane(dots, Perspective::free, floor);
    if (!free) return not_flat(file, Mm{1});
    const Mm residual = in_mm(free->rms, free->map, seen.layout);
    if (residual > most_residual_in_perspective) return not_flat(file, residual);
    seen.perspective = Perspective::free;
    flat = std::move(free);
  }
  seen.map = flat->map;
  seen.dots = flat->used;
  seen.residual = in_mm(flat->rms, flat->map, seen.layout);
  return seen;
}

/// The hole near a target, in this side's page frame.
std::optional<Point> hole(const GreyImage& image, const SideSeen& seen, Point target, Mm reach) {
  const double per_mm = seen.map.pixels_per_mm(target);
  const DotSought sought{seen.map(target), reach.value * per_mm, 0.12 * per_mm, 1.0 * per_mm, 0.25};
  const auto found = find_dot(image, sought);
  return found ? std::optional(seen.map.place_of(*found)) : std::nullopt;
}

void find_pins(const GreyImage& image, SideSeen& seen) {
  // The ring's arms begin 2.5 mm from the middle; on the back the print itself may lie off.
  constexpr Mm on_front{2.3}, on_back{4.2};
  const Size paper = seen.layout.paper;
  for (int i = 0; i < 6; ++i) {
    const Point target = seen.layout.pins[static_cast<std::size_t>(i)];
    if (seen.side == SheetSide::front) {
      if (const auto at = hole(image, seen, target, on_front)) seen.pins[i] = *at;
      continue;
    }
    const Point if_long = turned_over(paper, game::FlipEdge::long_edge)(target);
    const Point if_short = turned_over(paper, game::FlipEdge::short_edge)(target);
    if (const auto at = hole(image, seen, if_long, on_back)) seen.pins[i] = *at;
    if (const auto at = hole(image, seen, if_short, on_back)) seen.pins_if_short_edge[i] = *at;
  }
}

void find_paper(const GreyImage& image, SideSeen& seen) {
  const auto corners = find_corners(image, seen.map, seen.layout.paper);
  if (!corners) return;
  std::array<Point, 4> places;
  for (std::size_t i = 0; i < 4; ++i) places[i] = seen.map.place_of((*corners)[i]);
  seen.corners = places;
}

}  // namespace

Result<SideSeen> read_side(const GreyImage& image, const std::vector<Size>& papers, FileName file) {
  std::vector<CodeSeen> codes = codes_in(image);
  const auto mirrored =
      std::count_if(codes.begin(), codes.end(), [](const CodeSeen& code) { return code.mirrored; });
  if (mirrored >= fewest_codes && mirrored * 2 > std::ssize(codes)) {
    return at(file, Id::press_scan_mirrored, "the picture shows the sheet mirrored")
        .hint("switch mirroring off in the scanner's or the camera's settings");
  }
  std::erase_if(codes, [](const CodeSeen& code) { return code.mirrored; });
  const auto fronts = std::count_if(codes.begin(), codes.end(), [](const CodeSeen& code) {
    return side_of_code(code) == SheetSide::front;
  });
  const SheetSide side = fronts * 2 > std::ssize(codes) ? SheetSide::front : SheetSide::back;
  std::erase_if(codes, [&](const CodeSeen& code) { return side_of_code(code) != side; });
  if (codes.size() < fewest_codes) return no_marks(file, codes.size());
  const std::optional<Start> start = best_start(codes, side, papers);
  if (!start || start->residual > most_code_residual) {
    return not_flat(file, start ? start->residual : Mm{1});
  }
  const double per_mm =
      start->map.pixels_per_mm({start->layout.paper.width / 2, start->layout.paper.height / 2});
  if (per_mm < fewest_pixels_per_mm) {
    return at(file, Id::press_scan_too_coarse,
              fmt::format("the sheet is shown at {:.0f} ppi, and {:.0f} ppi are needed",
                          per_mm * mm_per_inch, fewest_pixels_per_mm * mm_per_inch))
        .hint("scan it at 300 ppi; with a camera let the sheet fill the picture");
  }
  const std::vector<Sighting> dots = dots_seen(image, *start, side);
  const std::size_t all = start->layout.dots_of(side).size();
  if (dots.size() < static_cast<std::size_t>(fewest_dots)) {
    return at(file, Id::press_scan_marks_lost,
              fmt::format("{} of the {} dots can be seen, and {} are needed", dots.size(), all,
                          fewest_dots))
        .hint("show the whole sheet, in even light, without reflections or fingers on it");
  }
  Result<SideSeen> seen = mapped_by_dots(dots, *start, file);
  if (!seen) return seen;
  seen->side = side;
  if (seen->dots < fewest_dots) {
    return at(file, Id::press_scan_marks_lost,
              fmt::format("{} of the {} dots lie where they should, and {} are needed", seen->dots,
                          all, fewest_dots))
        .hint("press the sheet flat and scan it again");
  }
  find_pins(image, *seen);
  find_paper(image, *seen);
  return seen;
}

}  // namespace quoin::press
