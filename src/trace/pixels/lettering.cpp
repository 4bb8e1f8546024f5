#include "trace/pixels/lettering.h"

#include <map>
#include <optional>

#include "trace/pixels/unions.h"

namespace quoin::trace {
namespace {

constexpr double tallest = 12, flattest = 2;           // pixels: what may be a letter
constexpr double widest = 60;                          // pixels: letters that touch
constexpr double longest_gap = 0.75;                   // of the letters' height
constexpr double least_outline = 24;                   // outline squared over area; a square has 16
constexpr double lowest_line = 3, tallest_line = 9.5;  // pixels, the median of its letters
constexpr double widest_letter = 1.4, widest_of_few = 1.2;  // of its height, the median
constexpr std::size_t least_letters = 4;
constexpr std::size_t sure_line = 8;  // letters; with fewer the row must be
constexpr double tallest_row = 1.9;   // no higher than this, over the median of its letters
constexpr double in_line = 1.1;       // pixels that the feet of letters may differ by

/// A region with its frame, in cells.
struct Mark {
  int left = 1 << 30, top = 1 << 30, right = -1, bottom = -1;  // of cells, the last included
  int outline = 0;                                             // cell sides
  int ground = -1;    // the region that it shares most of its outline with
  int on_ground = 0;  // how much of it
  Three ink;          // how its colour differs from that of its ground, sRGB
  [[nodiscard]] double width() const { return right - left + 1; }
  [[nodiscard]] double height() const { return bottom - top + 1; }
};

std::vector<Mark> marks_of(const Regions& regions) {
  std::vector<Mark> marks(regions.all.size());
  for (int y = 0; y < regions.of.height(); ++y) {
    for (int x = 0; x < regions.of.width(); ++x) {
      Mark& mark = marks[std::size_t(regions.of.at(x, y))];
      mark.left = std::min(mark.left, x);
      mark.right = std::max(mark.right, x);
      mark.top = std::min(mark.top, y);
      mark.bottom = std::max(mark.bottom, y);
    }
  }
  for (const Contact& c : contacts(regions)) {
    for (const auto& [one, other] : {std::pair{c.a, c.b}, {c.b, c.a}}) {
      Mark& mark = marks[std::size_t(one)];
      mark.outline += c.length;
      if (c.length <= mark.on_ground) continue;
      mark.on_ground = c.length;
      mark.ground = other;
      mark.ink = regions.all[std::size_t(one)].mean - regions.all[std::size_t(other)].mean;
    }
  }
  return marks;
}

class LetterFinder {
 public:
  LetterFinder(const Regions& regions, int scale)
      : regions_(regions), scale_(scale), marks_(marks_of(regions)) {}

  Lettering run() {
    for (std::size_t i = 0; i < marks_.size(); ++i) {
      if (may_be_letter(i)) letters_.push_back(static_cast<int>(i));
    }
    std::sort(letters_.begin(), letters_.end(), [&](int a, int b) {
      const Mark &p = mark(a), &q = mark(b);
      return p.left != q.left ? p.left < q.left : a < b;
    });
    Unions unions(static_cast<int>(letters_.size()));
    for (std::size_t i = 0; i < letters_.size(); ++i) {
      for (std::size_t j = i + 1; j < letters_.size(); ++j) {
        const Mark &a = mark(letters_[i]), &b = mark(letters_[j]);
        if (b.left - a.left > (widest + tallest) * scale_) break;
        if (side_by_side(a, b)) unions.join(int(i), int(j));
      }
    }
    std::map<int, std::vector<int>> lines;
    for (std::size_t i = 0; i < letters_.size(); ++i) {
      lines[unions.find(int(i))].push_back(letters_[i]);
    }
    std::vector<std::vector<int>> words, loose;
    for (auto& [root, line] : lines) (is_lettering(line) ? words : loose).push_back(line);
    for (std::vector<int>& line : words) add_words(line, loose);
    Lettering found;
    for (const std::vector<int>& line : words) take(line, found);
    join_blocks(found.lines);
    return found;
  }

 private:
  [[nodiscard]] const Mark& mark(int region) const { return marks_[std::size_t(region)]; }

  [[nodiscard]] bool may_be_letter(std::size_t i) const {
    const Mark& m = marks_[i];
    if (m.ground < 0 || m.height() > tallest * scale_ || m.width() > widest * scale_) return false;
    if (m.height() < flattest * scale_ && m.width() < flattest * scale_) return false;
    if (m.on_ground < 0.5 * m.outline) return false;
    return regions_.all[std::size_t(m.ground)].area > 20 * regions_.all[i].area;
  }

  /// Thin letters have mixtures of their ink and the ground, more of it or less.
  [[nodiscard]] static bool of_one_ink(const Mark& a, const Mark& b) {
    return dot(a.ink, b.ink) > 0.95F * std::sqrt(squared(a.ink) * squared(b.ink));
  }

  [[nodiscard]] static bool side_by_side(const Mark& a, const Mark& b) {
    if (a.ground != b.ground || !of_one_ink(a, b)) return false;
    const double taller = std::max(a.height(), b.height());
    const double overlap = std::min(a.bottom, b.bottom) - std::max(a.top, b.top) + 1;
    const double gap = b.left - a.right - 1;
    return overlap >= 0.5 * std::min(a.height(), b.height()) && gap <= longest_gap * taller;
  }

  [[nodiscard]] double outline_of(int region) const {
    const double outline = mark(region).outline;
    return outline * outline / double(regions_.all[std::size_t(region)].area);
  }

  /// Half of the marks or more end at one height, and four tenths begin at one: as letters do, and
  /// feathers or leaves do not.
  [[nodiscard]] bool stands_in_line(const std::vector<int>& line) const {
    const auto share_near_one = [&](const auto& place) {
      int most = 0;
      for (const int a : line) {
        int near = 0;
        for (const int b : line) {
          near += std::abs(place(mark(a)) - place(mark(b))) <= in_line * scale_ ? 1 : 0;
        }
        most = std::max(most, near);
      }
      return double(most) / double(line.size());
    };
    return share_near_one([](const Mark& m) { return double(m.bottom); }) >= 0.5 &&
           share_near_one([](const Mark& m) { return double(m.top); }) >= 0.4;
  }

  [[nodiscard]] bool is_lettering(const std::vector<int>& line) const {
    if (line.size() < least_letters) return false;
    std::vector<double> outlines, heights, stretched;
    for (const int region : line) {
      outlines.push_back(outline_of(region));
      heights.push_back(mark(region).height());
      stretched.push_back(mark(region).width() / mark(region).height());
    }
    const auto median = [](std::vector<double>& values) {
      const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
      std::nth_element(values.begin(), middle, values.end());
      return *middle;
    };
    if (!stands_in_line(line)) return false;
    // Feathers and leaves lie in slanting rows, a few in each, and are broader than high.
    const bool is_sure = line.size() >= sure_line;
    if (!is_sure && frame_of(line).height() > tallest_row * median(heights)) return false;
    // Pieces of a thin line lie in a row as well, but are long and flat.
    return median(outlines) >= least_outline && median(heights) >= lowest_line * scale_ &&
           median(heights) <= tallest_line * scale_ &&
           median(stretched) <= (is_sure ? widest_letter : widest_of_few);
  }

  [[nodiscard]] Mark frame_of(const std::vector<int>& line) const {
    Mark frame = mark(line.front());
    for (const int region : line) {
      frame.left = std::min(frame.left, mark(region).left);
      frame.right = std::max(frame.right, mark(region).right);
      frame.top = std::min(frame.top, mark(region).top);
      frame.bottom = std::max(frame.bottom, mark(region).bottom);
    }
    return frame;
  }

  /// Short words in the same row, too few letters to be known by themselves.
  void add_words(std::vector<int>& line, std::vector<std::vector<int>>& loose) const {
    for (bool added = true; added;) {
      added = false;
      const Mark frame = frame_of(line);
      for (std::vector<int>& word : loose) {
        if (word.empty()) continue;
        const Mark other = frame_of(word);
        const double overlap =
            std::min(frame.bottom, other.bottom) - std::max(frame.top, other.top) + 1;
        const double gap = std::max(other.left - frame.right, frame.left - other.right) - 1;
        const bool same_row = frame.ground == other.ground && overlap >= 0.6 * other.height() &&
                              other.height() <= 1.3 * frame.height();
        if (!same_row || gap > 1.1 * frame.height()) continue;
        line.insert(line.end(), word.begin(), word.end());
        word.clear();
        added = true;
      }
    }
  }

  /// Words of a line, and lines under each other, become one block.
  static void join_blocks(std::vector<SmallText>& blocks) {
    const auto near = [](const SmallText& a, const SmallText& b) {
      const double reach = 1.2 * std::min(std::max(a.height, 6.0), std::max(b.height, 6.0));
      const double across = std::max(a.at.x - (b.at.x + b.width), b.at.x - (a.at.x + a.width));
      const double down = std::max(a.at.y - (b.at.y + b.height), b.at.y - (a.at.y + a.height));
      return across <= reach && down <= std::min(reach, 14.0);
    };
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      for (std::size_t j = i + 1; j < blocks.size();) {
        if (!near(blocks[i], blocks[j])) {
          ++j;
          continue;
        }
        SmallText &a = blocks[i], &b = blocks[j];
        const double right = std::max(a.at.x + a.width, b.at.x + b.width);
        const double bottom = std::max(a.at.y + a.height, b.at.y + b.height);
        a.at = {std::min(a.at.x, b.at.x), std::min(a.at.y, b.at.y)};
        a.width = right - a.at.x;
        a.height = bottom - a.at.y;
        blocks.erase(blocks.begin() + static_cast<std::ptrdiff_t>(j));
        j = i + 1;  // what was too far from the smaller block may be near to this one
      }
    }
  }

  void take(const std::vector<int>& line, Lettering& found) {
    const Mark frame = frame_of(line);
    const double cell = 1.0 / scale_;
    found.lines.push_back(
        {{frame.left * cell, frame.top * cell}, frame.width() * cell, frame.height() * cell});
    if (found.labels.width() == 0) {
      found.labels = Grid<int>(regions_.of.width(), regions_.of.height());
      for (std::size_t i = 0; i < regions_.of.cells().size(); ++i) {
        found.labels.cells()[i] = regions_.all[std::size_t(regions_.of.cells()[i])].label;
      }
    }
    // Whatever lies wholly in the line goes with it: dots, counters, rims of other shades.
    const int ground = mark(line.front()).ground;
    const int label = regions_.all[std::size_t(ground)].label;
    const int reach = 2 * scale_;
    for (int y = std::max(0, frame.top - reach);
         y <= std::min(regions_.of.height() - 1, frame.bottom + reach); ++y) {
      for (int x = std::max(0, frame.left - reach);
           x <= std::min(regions_.of.width() - 1, frame.right + reach); ++x) {
        const int region = regions_.of.at(x, y);
        const Mark& m = mark(region);
        const bool within = m.left >= frame.left - reach && m.right <= frame.right + reach &&
                            m.top >= frame.top - reach && m.bottom <= frame.bottom + reach;
        if (within && region != ground) found.labels.at(x, y) = label;
      }
    }
  }

  const Regions& regions_;
  int scale_;
  std::vector<Mark> marks_;
  std::vector<int> letters_;  // regions, from the left
};

}  // namespace

Lettering find_lettering(const Regions& regions, int scale) {
  return LetterFinder(regions, scale).run();
}

}  // namespace quoin::trace
