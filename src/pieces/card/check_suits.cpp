#include "pieces/card/check_suits.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <set>

#include "pieces/card/check_parts.h"
#include "pieces/card/suit_change.h"

namespace quoin::pieces {
namespace {

bool mentions(const game::Node& node, std::string_view word) {
  if (const std::string* text = node.text()) return text->find(word) != std::string::npos;
  if (const game::List* list = node.list()) {
    return std::any_of(list->begin(), list->end(),
                       [&](const game::Node& item) { return mentions(item, word); });
  }
  if (const game::Table* table = node.table()) {
    return std::any_of(table->begin(), table->end(),
                       [&](const game::Entry& entry) { return mentions(entry.value, word); });
  }
  return false;
}

bool mentions(const std::vector<game::Element>& elements, std::string_view word) {
  return std::any_of(elements.begin(), elements.end(), [&](const game::Element& element) {
    return mentions(element.children, word) ||
           std::any_of(element.properties.begin(), element.properties.end(),
                       [&](const game::Entry& entry) { return mentions(entry.value, word); });
  });
}

std::string value_of(const game::Suit& suit, std::string_view key) {
  const auto found = suit.values.find(key);
  return found == suit.values.end() ? std::string{} : found->second.text;
}

constexpr std::array<Vision, 4> visions{Vision::normal, Vision::protan, Vision::deutan,
                                        Vision::tritan};

/// The difference of two colours for each kind of vision, in the order of `visions`.
using Differences = std::array<double, visions.size()>;

Differences differences(Colour a, Colour b) {
  Differences found{};
  for (std::size_t i = 0; i < visions.size(); ++i) {
    found[i] = ciede2000(to_lab(seen_with(visions[i], a)), to_lab(seen_with(visions[i], b)));
  }
  return found;
}

/// Rounded down, so that what falls short never reads as if it did not.
std::string short_number(double value) {
  return fmt::format("{:.1f}", std::floor(value * 10) / 10);
}

std::string all_visions(const Differences& found) {
  std::string text;
  for (std::size_t i = 0; i < visions.size(); ++i) {
    text +=
        fmt::format("{}{} {}", i > 0 ? ", " : "", to_string(visions[i]), short_number(found[i]));
  }
  return text;
}

std::string colours_of(const SuitLook& suit) {
  return to_string(suit.colour) +
         (suit.source == SuitLook::Source::measured ? " (the main colour of its cards)" : "");
}

/// "make Rust #e0a070 instead of #b0652a": the smaller of the changes of one of the two that is
/// safe beside all suits; "" when neither has one. A measured colour is nowhere written to be
/// changed.
std::string advised_change(const std::vector<SuitLook>& suits, std::size_t i, std::size_t j,
                           double limit) {
  std::string words;
  double least = 1e9;
  for (const std::size_t one : {i, j}) {
    if (suits[one].source == SuitLook::Source::measured) continue;
    std::vector<Colour> others;
    for (std::size_t k = 0; k < suits.size(); ++k) {
      if (k != one) others.push_back(suits[k].colour);
    }
    const std::optional<Colour> to = safe_change(suits[one].colour, others, limit);
    if (!to) continue;
    const double size = ciede2000(to_lab(suits[one].colour), to_lab(*to));
    if (size >= least) continue;
    least = size;
    words = fmt::format("make {} {} instead of {}", suits[one].name, to_string(*to),
                        to_string(suits[one].colour));
  }
  return words;
}

void report(const std::vector<SuitLook>& suits, std::size_t i, std::size_t j,
            const Differences& found, SuitCues cues, const game::Limits& limits,
            Diagnostics& reports) {
  const SuitLook &a = suits[i], &b = suits[j];
  const auto worst = std::min_element(found.begin(), found.end()) - found.begin();
  const Vision vision = visions[static_cast<std::size_t>(worst)];
  const std::string eyes =
      vision == Vision::normal ? "" : fmt::format(" for {} eyes", to_string(vision));
  Diagnostic finding(
      Id::suits_look_alike, b.origin,
      fmt::format("the colours of {} and {} differ by {}{}; {} tells suits apart", a.name, b.name,
                  short_number(found[static_cast<std::size_t>(worst)]), eyes,
                  plain(limits.suit_difference, 1)));
  finding.detail(
      fmt::format("{} and {}; {} (CIEDE2000)", colours_of(a), colours_of(b), all_visions(found)));
  const bool by_icon = cues.icons == SuitCues::Printed::yes && !a.icon.empty() && !b.icon.empty() &&
                       a.icon != b.icon;
  const bool by_name = cues.names == SuitCues::Printed::yes && a.name != b.name;
  const std::string change = advised_change(suits, i, j, limits.suit_difference);
  if (by_icon || by_name) {
    finding.severity = Severity::note;
    finding.detail(fmt::format("their {} are printed too and still tell them apart",
                               by_icon ? "icons" : "names"));
    if (!change.empty()) finding.hint(change);
  } else {
    finding.hint((change.empty() ? "make one of them much lighter or darker" : change) +
                 ", or print {suit.icon} or {suit.name} on each card");
  }
  reports.push_back(std::move(finding));
}

}  // namespace

SuitCues suit_cues(const game::Game& game) {
  SuitCues cues;
  for (const game::Layout& layout : game.layouts) {
    if (mentions(layout.elements, "{suit.name}")) cues.names = SuitCues::Printed::yes;
    if (mentions(layout.elements, "{suit.icon}")) cues.icons = SuitCues::Printed::yes;
  }
  return cues;
}

std::vector<SuitLook> suit_looks(const game::Game& game,
                                 const std::map<std::string, Colour>& declared,
                                 const std::map<std::string, Colour>& measured) {
  std::set<std::string> used;
  for (const game::Card& card : game.cards) used.insert(card.suit);
  std::vector<SuitLook> looks;
  for (const game::Suit& suit : game.suits) {
    if (!used.contains(suit.id)) continue;
    const std::string name = value_of(suit, "name");
    SuitLook look{name.empty() ? suit.id : name,
                  suit.origin,
                  {},
                  value_of(suit, "icon"),
                  SuitLook::Source::declared};
    if (const auto own = declared.find(suit.id); own != declared.end()) {
      look.colour = own->second;
      const auto place = suit.values.find("colour");
      if (place != suit.values.end()) look.origin = place->second.origin;
    } else if (const auto seen = measured.find(suit.id); seen != measured.end()) {
      look.colour = seen->second;
      look.source = SuitLook::Source::measured;
    } else {
      continue;
    }
    looks.push_back(std::move(look));
  }
  return looks;
}

Diagnostics check_suits(const std::vector<SuitLook>& suits, SuitCues cues,
                        const game::Limits& limits) {
  Diagnostics reports;
  for (std::size_t i = 0; i < suits.size(); ++i) {
    for (std::size_t j = i + 1; j < suits.size(); ++j) {
      const Differences found = differences(suits[i].colour, suits[j].colour);
      if (*std::min_element(found.begin(), found.end()) >= limits.suit_difference) continue;
      report(suits, i, j, found, cues, limits, reports);
    }
  }
  return reports;
}

}  // namespace quoin::pieces
