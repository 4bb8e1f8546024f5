#include "sheets/mark_lines.h"

namespace quoin::sheets {
namespace {

/// Marks end this far from the bleed inside a gutter.
constexpr Mm gutter_clearance{0.5};
/// A gutter gets marks of its own from here, beyond the bleed of both neighbours.
constexpr Mm marked_gutter{2};
constexpr Mm longest_gutter_mark{4};

Mm mark_length(Mm strip, bool holds_slug) {
  const Mm taken = mark_clearance + (holds_slug ? slug_row + slug_clearance : Mm{0});
  const Mm length = std::min(longest_mark, strip - taken);
  return length >= shortest_mark ? length : Mm{0};
}

/// Lines down the page at the places `xs`, above and below the bleed.
void add_down_the_page(std::vector<MarkLine>& lines, const PageFrame& frame,
                       const std::vector<Mm>& xs) {
  const Insets length = mark_lengths(frame);
  const Mm above = frame.bleed.top() - mark_clearance;
  const Mm below = frame.bleed.bottom() + mark_clearance;
  for (const Mm x : xs) {
    if (length.top > Mm{0}) lines.push_back({{x, above - length.top}, {x, above}});
    if (length.bottom > Mm{0}) lines.push_back({{x, below}, {x, below + length.bottom}});
  }
}

/// Lines across the page at the places `ys`, left and right of the bleed.
void add_across_the_page(std::vector<MarkLine>& lines, const PageFrame& frame,
                         const std::vector<Mm>& ys) {
  const Insets length = mark_lengths(frame);
  const Mm before = frame.bleed.left() - mark_clearance;
  const Mm after = frame.bleed.right() + mark_clearance;
  for (const Mm y : ys) {
    if (length.left > Mm{0}) lines.push_back({{before - length.left, y}, {before, y}});
    if (length.right > Mm{0}) lines.push_back({{after, y}, {after + length.right, y}});
  }
}

/// Half the length of a mark inside a gutter; 0 when it gets none.
Mm half_gutter_mark(Mm gutter, Mm bleed) {
  const Mm between = gutter - bleed * 2;
  if (!fits(marked_gutter, between)) return Mm{0};
  return std::min(longest_gutter_mark, between - gutter_clearance * 2) / 2;
}

void add_gutter_marks(std::vector<MarkLine>& lines, const PageFrame& frame) {
  const Mm half_x = half_gutter_mark(frame.gutter_x, frame.outer_bleed);
  const Mm half_y = half_gutter_mark(frame.gutter_y, frame.outer_bleed);
  for (const Mm x : frame.gutter_xs) {
    if (half_x <= Mm{0}) break;
    for (const Mm y : frame.ys) lines.push_back({{x - half_x, y}, {x + half_x, y}});
  }
  for (const Mm y : frame.gutter_ys) {
    if (half_y <= Mm{0}) break;
    for (const Mm x : frame.xs) lines.push_back({{x, y - half_y}, {x, y + half_y}});
  }
}

/// Targets keep this much paper round them.
constexpr Mm target_clearance{0.5};

bool is_clear(Point centre, const PageFrame& frame, const std::vector<MarkLine>& lines) {
  const Mm half = target_size / 2;
  const Rect square{{centre.x - half, centre.y - half}, {target_size, target_size}};
  const Rect with_paper = grown(square, target_clearance);
  if (!lies_in(square, frame.usable) || overlap(with_paper, frame.bleed)) return false;
  for (const MarkLine& line : lines) {
    if (overlap(with_paper, grown(rect_between(line.from, line.to), mark_width / 2))) return false;
  }
  return true;
}

/// The four places that lie over each other when a sheet is mirrored about either middle.
std::vector<Point> four_places(const PageFrame& frame, Vec from_the_corner) {
  const Rect& u = frame.usable;
  return {{u.left() + from_the_corner.x, u.top() + from_the_corner.y},
          {u.right() - from_the_corner.x, u.top() + from_the_corner.y},
          {u.left() + from_the_corner.x, u.bottom() - from_the_corner.y},
          {u.right() - from_the_corner.x, u.bottom() - from_the_corner.y}};
}

/// How far targets may stand from the corner along a strip: the slug needs the middle.
Mm farthest(Mm length, bool holds_slug) {
  const Mm half = length / 2 - target_size;
  return holds_slug ? std::min(half, Mm{15}) : half;
}

}  // namespace

SlugPlace slug_place(const PageFrame& frame) {
  const bool across = has_slug_room_across(frame), upright = has_slug_room_upright(frame);
  if (!across && !upright) return SlugPlace::none;
  if (across && upright) {
    // Words that need not be turned to be read, unless the bar and its words have no room.
    constexpr Mm bar_with_words{185};
    const bool is_long_enough = frame.usable.size.width >= bar_with_words;
    const bool is_wider = frame.usable.size.width >= frame.usable.size.height;
    return is_long_enough || is_wider ? SlugPlace::across : SlugPlace::upright;
  }
  return across ? SlugPlace::across : SlugPlace::upright;
}

Insets mark_lengths(const PageFrame& frame) {
  const Insets strip = strips(frame);
  const SlugPlace slug = slug_place(frame);
  const bool across = slug == SlugPlace::across, upright = slug == SlugPlace::upright;
  return {mark_length(strip.top, across), mark_length(strip.right, upright),
          mark_length(strip.bottom, across), mark_length(strip.left, upright)};
}

std::vector<MarkLine> crop_marks(const PageFrame& frame) {
  std::vector<MarkLine> lines;
  add_down_the_page(lines, frame, frame.xs);
  add_across_the_page(lines, frame, frame.ys);
  add_gutter_marks(lines, frame);
  return lines;
}

std::vector<MarkLine> fold_marks(const PageFrame& frame) {
  std::vector<MarkLine> lines;
  add_down_the_page(lines, frame, frame.fold_xs);
  add_across_the_page(lines, frame, frame.fold_ys);
  return lines;
}

std::vector<Point> target_places(const PageFrame& frame, const std::vector<MarkLine>& lines) {
  const auto all_clear = [&](const std::vector<Point>& places) {
    return std::all_of(places.begin(), places.end(),
                       [&](Point p) { return is_clear(p, frame, lines); });
  };
  const SlugPlace slug = slug_place(frame);
  const Mm edge = target_size / 2;
  const Mm along_top = farthest(frame.usable.size.width, slug == SlugPlace::across);
  for (Mm x = edge; x <= along_top; x += Mm{1}) {
    const std::vector<Point> places = four_places(frame, {x, edge});
    if (all_clear(places)) return places;
  }
  const Mm along_side = farthest(frame.usable.size.height, slug == SlugPlace::upright);
  for (Mm y = edge; y <= along_side; y += Mm{1}) {
    const std::vector<Point> places = four_places(frame, {edge, y});
    if (all_clear(places)) return places;
  }
  return {};
}

}  // namespace quoin::sheets
