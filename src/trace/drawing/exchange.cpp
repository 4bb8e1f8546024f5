#include "trace/drawing/exchange.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace quoin::trace {
namespace {

/// Red, green and blue to 8 bits, as a drawing has them written.
int in_8_bits(const Colour& colour) {
  const auto part = [](double value) {
    return static_cast<int>(std::lround(std::clamp(value, 0.0, 1.0) * 255));
  };
  return part(colour.red) << 16 | part(colour.green) << 8 | part(colour.blue);
}

double unlike(Colour one, Colour other) {
  one.alpha = other.alpha = 1;
  return ciede2000(to_lab(one), to_lab(other));
}

Three three_of(const Colour& colour) {
  return {float(colour.red * 255), float(colour.green * 255), float(colour.blue * 255)};
}

Colour drawn_line(const ThinLine& line) {
  const Rgb c = rgb(line.colour);
  return {c.red / 255.0, c.green / 255.0, c.blue / 255.0, 1};
}

/// The colours of a drawing, and which of them gives way to which.
class ExchangeTable {
 public:
  void has(const Colour& colour) { known_.emplace(in_8_bits(colour), colour); }

  /// False when the drawing has no such colour.
  bool exchange(const Colour& from, const Colour& to) {
    auto met = known_.find(in_8_bits(from));
    if (met == known_.end()) {
      constexpr double one_colour = 1;  // CIEDE2000
      met = std::min_element(known_.begin(), known_.end(), [&](const auto& a, const auto& b) {
        return unlike(a.second, from) < unlike(b.second, from);
      });
      if (met == known_.end() || unlike(met->second, from) > one_colour) return false;
    }
    instead_[met->first] = to;
    return true;
  }

  /// Nothing for a colour that stays.
  [[nodiscard]] std::optional<Colour> instead_of(const Colour& colour) const {
    const auto found = instead_.find(in_8_bits(colour));
    return found == instead_.end() ? std::nullopt : std::optional(found->second);
  }

  [[nodiscard]] std::vector<Colour> known() const {
    std::vector<Colour> colours;
    for (const auto& [key, colour] : known_) colours.push_back(colour);
    return colours;
  }

 private:
  std::map<int, Colour> known_, instead_;
};

/// Which label each label's areas have afterwards: the first of those that are painted alike.
std::vector<int> alike(const Paints& paints, const std::vector<char>& is_used) {
  std::map<std::pair<int, long>, int> first;
  std::vector<int> becomes;
  for (std::size_t i = 0; i < paints.drawn.size(); ++i) {
    const int own = static_cast<int>(i);
    if (!is_used[i] || paints.alpha[i] <= 0) {
      becomes.push_back(own);
      continue;
    }
    const std::pair key{in_8_bits(paints.drawn[i]), std::lround(paints.alpha[i] * 255)};
    becomes.push_back(first.try_emplace(key, own).first->second);
  }
  return becomes;
}

/// The regions anew with other labels. A region with a gradient stays what it is.
void relabel(Areas& areas, const std::vector<int>& becomes) {
  const int labels = static_cast<int>(becomes.size());
  Grid<int> cells(areas.regions.of.width(), areas.regions.of.height(), 0);
  for (std::size_t i = 0; i < cells.cells().size(); ++i) {
    const int region = areas.regions.of.cells()[i];
    const int label = areas.regions.all[std::size_t(region)].label;
    cells.cells()[i] = label < 0 ? labels + region : becomes[std::size_t(label)];
  }
  const auto ramps = std::move(areas.ramps);
  areas.regions = connected(cells, areas.enlarged);
  areas.ramps.assign(areas.regions.all.size(), std::nullopt);
  for (std::size_t i = 0; i < areas.regions.all.size(); ++i) {
    Region& region = areas.regions.all[i];
    if (region.label < labels) continue;
    areas.ramps[i] = ramps[std::size_t(region.label - labels)];
    region.label = -1;
  }
}

/// Makes areas one whose labels become one, and remembers what their pixels have.
MixedRegions join_alike(Areas& areas, const std::vector<int>& becomes,
                        const std::vector<Three>& on_ground) {
  MixedRegions mixed;
  mixed.scale = areas.scale;
  mixed.part = areas.regions.of;
  for (const Region& region : areas.regions.all) {
    mixed.plain.push_back(region.label < 0 ? region.mean : on_ground[std::size_t(region.label)]);
  }
  relabel(areas, becomes);
  mixed.of = areas.regions.of;
  mixed.is_mixed.assign(areas.regions.all.size(), 0);
  std::vector<int> first(areas.regions.all.size(), -1);
  for (std::size_t i = 0; i < mixed.of.cells().size(); ++i) {
    const std::size_t region = std::size_t(mixed.of.cells()[i]);
    const int part = mixed.part.cells()[i];
    if (first[region] < 0) first[region] = part;
    if (first[region] != part) mixed.is_mixed[region] = 1;
  }
  return mixed;
}

}  // namespace

void keep_to(const std::vector<Colour>& palette, Paints& paints, std::vector<ThinLine>& lines) {
  for (std::size_t i = 0; i < palette.size() && i < paints.drawn.size(); ++i) {
    if (paints.alpha[i] <= 0) continue;
    paints.drawn[i] = {palette[i].red, palette[i].green, palette[i].blue, paints.alpha[i]};
  }
  for (ThinLine& line : lines) {
    const Colour own = drawn_line(line);
    const auto nearest =
        std::ranges::min_element(palette, {}, [&](const Colour& one) { return unlike(own, one); });
    if (nearest != palette.end()) line.colour = three_of(*nearest);
  }
}

Exchange exchange_colours(const std::vector<std::pair<Colour, Colour>>& instead, Areas& areas,
                          Paints& paints, std::vector<ThinLine>& lines) {
  Exchange done;
  if (instead.empty()) return done;
  std::vector<char> is_used(paints.drawn.size(), 0);
  for (const Region& region : areas.regions.all) {
    if (region.label >= 0) is_used[std::size_t(region.label)] = 1;
  }
  ExchangeTable table;
  for (std::size_t i = 0; i < paints.drawn.size(); ++i) {
    if (is_used[i] && paints.alpha[i] > 0) table.has(paints.drawn[i]);
  }
  for (const ThinLine& line : lines) table.has(drawn_line(line));
  for (const auto& [from, to] : instead) {
    if (!table.exchange(from, to)) done.unknown.push_back(from);
  }
  if (!done.unknown.empty()) done.known = table.known();
  for (std::size_t i = 0; i < paints.drawn.size(); ++i) {
    if (!is_used[i] || paints.alpha[i] <= 0) continue;
    const std::optional<Colour> to = table.instead_of(paints.drawn[i]);
    if (!to) continue;
    paints.drawn[i] = {to->red, to->green, to->blue, paints.alpha[i]};
  }
  for (ThinLine& line : lines) {
    if (const auto to = table.instead_of(drawn_line(line))) line.colour = three_of(*to);
  }
  const std::vector<int> becomes = alike(paints, is_used);
  bool any_joined = false;
  for (std::size_t i = 0; i < becomes.size(); ++i) {
    any_joined = any_joined || becomes[i] != static_cast<int>(i);
  }
  if (!any_joined) return done;
  done.mixed = join_alike(areas, becomes, paints.on_ground);
  return done;
}

}  // namespace quoin::trace
