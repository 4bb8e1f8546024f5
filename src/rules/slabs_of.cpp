#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "rules/set_lines.h"
#include "scene/shapes.h"

namespace quoin::rules {
namespace {

constexpr Colour card_line{0.35, 0.35, 0.38, 0.55};

Colour faint(Colour colour, double alpha) {
  colour.alpha *= alpha;
  return colour;
}

/// Adds slabs behind others, the first of them with that gap above it.
void append(std::vector<Slab>& to, std::vector<Slab> more, Mm gap) {
  if (more.empty()) return;
  if (!to.empty()) more.front().gap = std::max(more.front().gap, gap);
  for (Slab& slab : more) to.push_back(std::move(slab));
}

class PartSetter {
 public:
  explicit PartSetter(LineSetter& setter)
      : setter_(setter), type_(setter.column().type), look_(setter.work().look) {}

  std::vector<Slab> parts(const std::vector<Part>& all, Place place, Mm gap) {
    std::vector<Slab> slabs;
    for (const Part& part : all) {
      std::vector<Slab> more = one(part, place);
      if (more.empty()) continue;
      const bool after_heading = !slabs.empty() && slabs.back().kind == SlabKind::heading;
      append(slabs, std::move(more), after_heading ? setter_.half_line() * 0.4 : gap);
      const bool leads_on = part.kind == PartKind::words && !part.words.runs.back().symbol &&
                            part.words.runs.back().text.ends_with(':');
      if (leads_on) slabs.back().keeps_next = true;
    }
    return slabs;
  }

 private:
  [[nodiscard]] TextStyle style(Voice voice) const { return style_of(look_, voice, type_); }

  std::vector<Slab> one(const Part& part, Place place) {
    switch (part.kind) {
      case PartKind::heading:
        return heading(part, place);
      case PartKind::words:
      case PartKind::code:
        return setter_.lines(part.words, style(Voice::text), place);
      case PartKind::list:
        return list(part, place);
      case PartKind::item:
        return parts(part.parts, place, setter_.half_line());
      case PartKind::quote:
        return quote(part, place);
      case PartKind::rule:
        return fine_rule(place);
      case PartKind::table:
        return rules_table(part, place, setter_);
      case PartKind::picture:
        return picture(part, place);
      case PartKind::cards:
        return cards(part, place);
      case PartKind::credits:
        return credits(part, place);
    }
    return {};
  }

  std::vector<Slab> heading(const Part& part, Place place) {
    const Voice voice = part.level == 1   ? Voice::title
                        : part.level == 2 ? Voice::heading
                                          : Voice::small_heading;
    std::vector<Slab> slabs = setter_.lines(part.words, style(voice), place);
    for (Slab& slab : slabs) {
      slab.kind = SlabKind::heading;
      slab.keeps_next = true;
    }
    if (slabs.empty()) return slabs;
    const Mm half = setter_.half_line();
    slabs.front().gap = part.level <= 2 ? half * 2.2 : half * 1.5;
    if (part.level == 1) {
      Slab& last = slabs.back();
      const Mm foot = last.height + half * 0.2;
      last.items.push_back(
          shape(Path::rectangle({{place.left, foot}, {type_ * 5, type_ * 0.16}}), look_.accent));
      last.height = foot + half * 0.8;
    }
    return slabs;
  }

  std::vector<Slab> list(const Part& part, Place place) {
    const bool numbered = !part.parts.empty() && part.parts.front().number.has_value();
    int digits = 1;
    if (numbered) digits = static_cast<int>(std::to_string(*part.parts.back().number).size());
    const Mm wanted = type_ * (numbered ? 0.95 + 0.6 * digits : 1.05);
    // What lies deep in lists is set no narrower than so many letters.
    const Mm hang = place.width - wanted < type_ * 8 ? Mm{} : wanted;
    const Place inner{place.left + hang, place.width - hang};
    std::vector<Slab> slabs;
    const Mm between = setter_.half_line() * (part.tight ? 0.35 : 0.8);
    for (const Part& item : part.parts) {
      std::vector<Slab> lines = parts(item.parts, inner, part.tight ? between : between);
      if (lines.empty()) {
        lines.emplace_back();
        lines.back().height = line_of(style(Voice::text));
      }
      if (hang > Mm{}) mark(item, place, lines.front());
      append(slabs, std::move(lines), between);
    }
    return slabs;
  }

  /// The bullet or the number of an item, beside its first line.
  void mark(const Part& item, Place place, Slab& first) {
    TextStyle text = style(Voice::text);
    if (!item.number) {
      const Mm size = type_ * 0.3;
      // The middle of small letters, which are about half an em high.
      const Mm middle = setter_.base_in_line(text) - type_ * 0.24;
      first.items.push_back(
          shape(Path::ellipse({{place.left + type_ * 0.12, middle - size / 2}, {size, size}}),
                look_.accent));
      return;
    }
    text.weight = std::max(text.weight, 700);
    text.fill = Paint{look_.accent};
    const Words number{{{fmt::format("{}.", *item.number), false, false, nullptr}}, item.origin};
    const SetText set = setter_.set(number, text, type_ * 8);
    for (Item& each : setter_.piece(number, set, text, 0, 1).items) {
      first.items.push_back(moved(std::move(each), {place.left, Mm{}}));
    }
  }

  std::vector<Slab> quote(const Part& part, Place place) {
    const Mm indent = place.width > type_ * 10 ? type_ * 0.9 : Mm{};
    std::vector<Slab> slabs =
        parts(part.parts, {place.left + indent, place.width - indent}, setter_.half_line());
    if (indent == Mm{}) return slabs;
    for (Slab& slab : slabs) {
      slab.items.push_back(shape(Path::rectangle({{place.left, Mm{}}, {type_ * 0.16, slab.height}}),
                                 faint(look_.accent, 0.6)));
    }
    return slabs;
  }

  std::vector<Slab> fine_rule(Place place) {
    Slab slab;
    slab.kind = SlabKind::rule;
    slab.gap = setter_.half_line() * 1.2;
    slab.height = setter_.half_line();
    const Mm wide = std::min(place.width, type_ * 6);
    Path path;
    const Mm left = place.left + (place.width - wide) / 2;
    path.move_to({left, slab.height / 2}).line_to({left + wide, slab.height / 2});
    slab.items.push_back(line(std::move(path), look_.accent, Mm{0.25}));
    return {std::move(slab)};
  }

  std::vector<Slab> picture(const Part& part, Place place) {
    const PictureFacts& facts = part.picture->facts();
    if (facts.width <= 0 || facts.height <= 0) return {};
    const double proportion = facts.width / facts.height;
    const Mm most = setter_.column().height * 0.42;
    const Mm width = std::min(place.width, most * proportion);
    const Size size{width, width / proportion};
    Slab slab;
    slab.kind = SlabKind::picture;
    slab.gap = setter_.half_line();
    slab.height = size.height;
    slab.origin = part.origin;
    const Rect to{{place.left + (place.width - width) / 2, Mm{}}, size};
    Item item;
    item.element = "rules";
    item.origin = part.origin;
    item.what = PictureItem{part.picture, to, to, false};
    slab.items.push_back(std::move(item));
    check_pixels(part, size);
    std::vector<Slab> slabs{std::move(slab)};
    if (part.words.empty()) return slabs;
    slabs.front().keeps_next = true;
    append(slabs, setter_.lines(part.words, style(Voice::caption), place),
           setter_.half_line() * 0.4);
    return slabs;
  }

  void check_pixels(const Part& part, Size size) {
    const PictureFacts& facts = part.picture->facts();
    const game::Limits& limits = setter_.work().game.limits;
    if (facts.is_vector()) return;
    const double ppi = facts.width / (size.width.value / mm_per_inch);
    // Half a pixel of rounding in the maker's picture is forgiven.
    if ((facts.width + 0.5) / facts.width * ppi >= limits.good_ppi) return;
    const double needed = std::ceil(size.width.value / mm_per_inch * limits.good_ppi - 1e-6);
    setter_.report(
        Diagnostic(Id::art_low_resolution, part.origin,
                   fmt::format("{} prints at {:.0f} ppi; {}", part.picture->path(), std::floor(ppi),
                               ppi < limits.poor_ppi ? "its pixels will show as steps"
                                                     : "edges will look soft"))
            .on("rules")
            .detail(fmt::format("the picture is {:.0f} px wide and covers {:.1f} mm; {:.0f} ppi "
                                "needs {:.0f} px",
                                facts.width, size.width.value, limits.good_ppi, needed))
            .hint(fmt::format("redraw it as vectors with quoin trace, or use a picture "
                              "of {:.0f} px or more",
                              needed)));
  }

  std::vector<Slab> cards(const Part& part, Place place) {
    const Size card = setter_.work().game.card.size;
    const Mm gap = type_ * 0.6, least{8};
    const int room = std::max(1, static_cast<int>((place.width + gap) / (least + gap)));
    const int all = static_cast<int>(part.cards.size()), across = std::min(all, room);
    const Mm widest = (place.width - gap * (across - 1)) / across;
    const Mm height =
        std::min({Mm{26}, setter_.column().height * 0.34, widest / (card.width / card.height)});
    const double scale = height / card.height;
    std::vector<Slab> slabs;
    for (int first = 0; first < all; first += across) {
      const int count = std::min(across, all - first);
      const Mm width = (card.width * scale + gap) * count - gap;
      Slab slab;
      slab.kind = SlabKind::cards;
      slab.gap = slabs.empty() ? setter_.half_line() : gap;
      slab.height = height;
      slab.origin = part.origin;
      Mm left = place.left + (place.width - width) / 2;
      for (int i = first; i < first + count; ++i) {
        const int index = part.cards[static_cast<std::size_t>(i)];
        slab.items.push_back(scaled_item(setter_.work().cards.at(index), scale, {left, Mm{}}));
        slab.items.push_back(
            line(Path::rounded_rectangle({{left, Mm{}}, {card.width * scale, height}},
                                         setter_.work().game.card.corner * scale),
                 card_line, Mm{0.12}));
        left += card.width * scale + gap;
      }
      slabs.push_back(std::move(slab));
    }
    return slabs;
  }

  std::vector<Slab> credits(const Part& part, Place place) {
    std::vector<Slab> slabs;
    for (const std::string& credit : part.lines) {
      const Words words{{{credit, false, false, nullptr}}, part.origin};
      append(slabs, setter_.lines(words, style(Voice::credits), place), setter_.half_line() * 0.2);
    }
    return slabs;
  }

  LineSetter& setter_;
  Mm type_;
  const Look& look_;
};

}  // namespace

Checked<std::vector<Slab>> slabs_of(const SettingWork& work, const Column& column) {
  Checked<std::vector<Slab>> made;
  LineSetter setter(work, column, made.found);
  made.value =
      PartSetter(setter).parts(work.manuscript.parts, {Mm{}, column.width}, setter.half_line());
  if (!made.value.empty()) made.value.back().keeps_next = false;
  return made;
}

}  // namespace quoin::rules
