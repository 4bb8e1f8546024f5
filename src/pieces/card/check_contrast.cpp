#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// A line round letters must be this wide on each side to count as their ground.
constexpr Mm counts_as_ground{0.1};
/// The contrast that is reported is the one that a tenth of the area falls below.
constexpr double weakest_share = 0.1;

/// The colours of one text that decide whether it can be read.
struct Letters {
  std::vector<Colour> inside;
  std::vector<Colour> halo;  ///< of the line next to the letters, when it is wide enough
  double opacity = 1;
};

Letters letters_of(const Leaf& leaf) {
  const TextStyle& style = leaf.text()->block.style;
  Letters letters{letter_colours(style), {}, leaf.opacity};
  if (std::holds_alternative<NoPaint>(style.fill)) return letters;
  const Item& item = *leaf.item;
  if (!style.strokes.empty() && style.strokes.back().width / 2 >= counts_as_ground) {
    letters.halo = colours_of(style.strokes.back().paint);
  } else if (item.outline && item.outline->width >= counts_as_ground) {
    letters.halo = {item.outline->colour};
  }
  return letters;
}

/// Contrast of two luminances, as WCAG 2.2 defines it.
double ratio(double a, double b) { return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05); }

/// A colour with its luminance worked out once, where nothing shines through it.
struct Ink {
  Colour colour;
  double light = 0;
  Ink(Colour own, double opacity) : colour(own) {
    colour.alpha *= opacity;
    light = relative_luminance(colour);
  }
  [[nodiscard]] double light_on(std::uint32_t behind) const {
    if (colour.alpha >= 1) return light;
    return relative_luminance(composited(colour, colour_of(behind)));
  }
};

struct Inks {
  std::vector<Ink> inside, halo;
  explicit Inks(const Letters& letters) {
    for (const Colour colour : letters.inside) inside.emplace_back(colour, letters.opacity);
    for (const Colour colour : letters.halo) halo.emplace_back(colour, letters.opacity);
  }
};

/// The contrast of the letters over one pixel: of their weakest colour, against their halo or
/// what lies behind, whichever sets them off better.
double contrast_over(const Inks& inks, std::uint32_t behind) {
  double weakest = 21;
  for (const Ink& inside : inks.inside) {
    const double light = inside.light_on(behind);
    double best = ratio(light, luminance_of(behind));
    for (const Ink& halo : inks.halo) best = std::max(best, ratio(light, halo.light_on(behind)));
    weakest = std::min(weakest, best);
  }
  return weakest;
}

struct Weakest {
  double contrast = 21;
  std::uint32_t behind = 0xffffffff;
};

/// The contrast below which a tenth of the pixels fall, and one pixel where it is so.
Weakest weakest_of(const Letters& letters, const std::vector<std::uint32_t>& behind) {
  const Inks inks(letters);
  std::vector<Weakest> all;
  all.reserve(behind.size());
  for (const std::uint32_t pixel : behind) {
    if (!all.empty() && all.back().behind == pixel)
      all.push_back(all.back());
    else
      all.push_back({contrast_over(inks, pixel), pixel});
  }
  const auto tenth =
      all.begin() + static_cast<std::ptrdiff_t>(weakest_share * static_cast<double>(all.size()));
  std::nth_element(all.begin(), tenth, all.end(), [](const Weakest& a, const Weakest& b) {
    return std::pair(a.contrast, a.behind) < std::pair(b.contrast, b.behind);
  });
  return *tenth;
}

/// The weakest of the text's lines, since one unreadable line is enough, and its ground.
struct LineGround {
  Weakest weakest;
  const std::vector<std::uint32_t>* behind = nullptr;
};
std::optional<LineGround> weakest_line(const Inspection& inspection, const Leaf& leaf,
                                       const Letters& letters) {
  const Ground* ground = inspection.beneath(leaf);
  if (ground == nullptr || letters.inside.empty()) return std::nullopt;
  std::optional<LineGround> found;
  for (const std::vector<std::uint32_t>& behind : ground->stretches) {
    const Weakest weakest = weakest_of(letters, behind);
    if (!found || weakest.contrast < found->weakest.contrast) {
      found = LineGround{weakest, &behind};
    }
  }
  return found;
}

/// Large type needs less (WCAG 2.2, 1.4.3): 18 pt, or 14 pt when bold.
bool is_large(const Leaf& leaf) {
  const TextItem& text = *leaf.text();
  const double size = points(text.set.facts().type_size * mean_scale(leaf.map));
  const auto& runs = text.block.runs;
  const bool is_bold =
      text.block.style.weight >= 700 ||
      (!runs.empty() && std::all_of(runs.begin(), runs.end(),
                                    [](const TextRun& run) { return run.bold || run.symbol; }));
  return size >= 18 - 0.01 || (is_bold && size >= 14 - 0.01);
}

Colour mixed(Colour from, Colour to, double share) {
  return {from.red + (to.red - from.red) * share, from.green + (to.green - from.green) * share,
          from.blue + (to.blue - from.blue) * share, 1};
}

/// The colour nearest to the text's own, towards black or white, that reaches the limit there.
std::optional<Colour> better_colour(const Letters& letters, const LineGround& line, double limit) {
  if (letters.inside.size() != 1 || letters.opacity < 1 || !letters.halo.empty()) {
    return std::nullopt;
  }
  constexpr int steps = 20;
  for (int step = 1; step <= steps; ++step) {
    for (const Colour end : {black, white}) {
      const Colour exact = mixed(letters.inside.front(), end, static_cast<double>(step) / steps);
      const Colour colour = *parse_colour(to_string(exact));
      if (weakest_of({{colour}, {}, 1}, *line.behind).contrast >= limit) return colour;
    }
  }
  return std::nullopt;
}

/// Rounded down, so that what falls short never reads as if it did not.
std::string to_one(double contrast) {
  return fmt::format("{:.1f} to 1", std::floor(contrast * 10 + 1e-9) / 10);
}

void check_one(const Inspection& inspection, const Leaf& leaf) {
  const Letters letters = letters_of(leaf);
  const std::optional<LineGround> line = weakest_line(inspection, leaf, letters);
  if (!line) return;
  const bool large = is_large(leaf);
  const double limit = large ? inspection.limits.contrast_large : inspection.limits.contrast;
  if (line->weakest.contrast >= limit) return;
  Colour letter = letters.inside.front();
  letter.alpha *= letters.opacity;
  const Colour ground = colour_of(line->weakest.behind);
  Diagnostic& finding = inspection.report(
      Id::card_low_contrast, leaf,
      fmt::format("the text stands out by {}; {} reads well{}", to_one(line->weakest.contrast),
                  to_one(limit), large ? " in large type" : ""));
  finding.detail(fmt::format("{} on {} where it is weakest", to_string(composited(letter, ground)),
                             to_string(ground)));
  if (const std::optional<Colour> better = better_colour(letters, *line, limit)) {
    finding.hint(fmt::format("colour = \"{}\" would do, or a plain panel beneath the text",
                             to_string(*better)));
  } else {
    finding.hint("lay a plain panel beneath the text, or give it an outline");
  }
}

}  // namespace

void check_contrast(const Inspection& inspection) {
  for (const Leaf& leaf : inspection.leaves) {
    if (leaf.text() == nullptr || leaf.role == Role::decoration) continue;
    check_one(inspection, leaf);
  }
}

}  // namespace quoin::pieces
