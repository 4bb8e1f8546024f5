#include "game/schema_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "game/schema_names.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// The number in a text such as "3 mm" or "3,5", which was meant to be written without quotes.
std::optional<double> number_meant(const Node& value) {
  if (!value.text()) return std::nullopt;
  std::string text(trimmed(*value.text()));
  text.resize(text.find_last_of("0123456789") + 1);
  std::replace(text.begin(), text.end(), ',', '.');
  return read_number(text);
}

/// Checks one value; `label` is how messages call it ("bleed", "stroke.width").
class ValueCheck {
 public:
  ValueCheck(const PropertyFacts& facts, const KnownNames& names, std::string label,
             Diagnostics& found)
      : facts_(facts), names_(names), label_(std::move(label)), found_(found) {}

  void check(const Node& value) {
    if (value.text() && is_filled_later(*value.text())) return;
    if (value.text() && is_word(*value.text())) return;
    switch (facts_.type) {
      case ValueType::text:
      case ValueType::file:
      case ValueType::size:
        return need_text(value);
      case ValueType::word:
        return word(value);
      case ValueType::number:
      case ValueType::whole:
        return number(value);
      case ValueType::flag:
        if (!value.flag()) wrong_type(value);
        return;
      case ValueType::colour:
        return colour(value);
      case ValueType::paint:
        return paint(value);
      case ValueType::style:
        return name(value, names_.styles, Id::game_unknown_style, "style");
      case ValueType::symbol:
        return name(value, names_.symbols, Id::game_unknown_symbol, "symbol");
      case ValueType::numbers:
        return numbers(value);
      case ValueType::edges:
        return edges(value);
      case ValueType::number_lists:
        return number_lists(value);
      case ValueType::texts:
        return texts(value);
      case ValueType::table:
        return table(value);
      case ValueType::tables:
        return tables(value);
      case ValueType::stops:
        return stops(value);
      case ValueType::conditions:
        return conditions(value);
    }
  }

 private:
  [[nodiscard]] bool is_filled_later(const std::string& text) const {
    return takes_placeholders(facts_) && has_placeholder(text);
  }

  [[nodiscard]] bool is_word(const std::string& text) const {
    return std::find(facts_.words.begin(), facts_.words.end(), text) != facts_.words.end();
  }

  void wrong_type(const Node& value) {
    wrong(value, fmt::format("{} needs {}, not {}", label_, wanted(facts_), describe(value)));
  }

  void wrong_item(const Node& item, std::string_view wanted_items) {
    wrong(item,
          fmt::format("{} needs {} in its list, not {}", label_, wanted_items, describe(item)));
  }

  void wrong(const Node& value, std::string message) {
    Diagnostic found(Id::game_wrong_type, value.origin, std::move(message));
    const std::optional<double> meant = number_meant(value);
    if (meant && facts_.type == ValueType::number) {
      found.hint(fmt::format("write {} = {}", facts_.key, number_text(*meant)));
    } else if (!facts_.example.empty()) {
      found.hint(fmt::format("write it as {}", facts_.example));
    }
    found_.push_back(std::move(found));
  }

  void need_text(const Node& value) {
    if (!value.text()) wrong_type(value);
  }

  void word(const Node& value) {
    if (!value.text()) return wrong_type(value);
    const std::vector<std::string> words(facts_.words.begin(), facts_.words.end());
    Diagnostic found(Id::game_unknown_word, value.origin,
                     fmt::format("{} cannot be {}", label_, in_quotes(*value.text())));
    const bool only_words = facts_.type == ValueType::word;
    found.detail(fmt::format("it can be {}", only_words ? one_of(words) : wanted(facts_)));
    if (const auto meant = nearest_word(*value.text(), words)) {
      found.hint(fmt::format("did you mean {}?", in_quotes(*meant)));
    }
    found_.push_back(std::move(found));
  }

  void number(const Node& value) {
    if (value.text() && !facts_.words.empty() && !number_meant(value)) return word(value);
    if (!value.number()) return wrong_type(value);
    const bool fraction = std::floor(*value.number()) != *value.number();
    if (facts_.type == ValueType::whole && fraction) return wrong_type(value);
    in_range(value);
  }

  void in_range(const Node& value) {
    const double number = *value.number();
    if (number >= facts_.low && number <= facts_.high) return;
    const std::string unit = facts_.unit.empty() ? "" : " " + std::string(facts_.unit);
    Diagnostic found(Id::game_out_of_range, value.origin,
                     fmt::format("{} is {}; it can be {} to {}{}", label_, number_text(number),
                                 number_text(facts_.low), number_text(facts_.high), unit));
    found_.push_back(std::move(found));
  }

  void colour(const Node& value) {
    if (!value.text()) return wrong_type(value);
    if (auto found = colour_problem(*value.text(), value.origin, names_)) {
      found_.push_back(std::move(*found));
    }
  }

  void paint(const Node& value) {
    if (value.table()) return table(value);
    if (value.text() && *value.text() == "none") return;
    colour(value);
  }

  void name(const Node& value, const std::vector<std::string>& known, Id id,
            std::string_view thing) {
    if (!value.text()) return wrong_type(value);
    if (std::find(known.begin(), known.end(), *value.text()) != known.end()) return;
    found_.push_back(unknown_name(id, thing, *value.text(), value.origin, known));
  }

  /// Each item a number or a placeholder, within the range.
  void items(const List& list) {
    for (const Node& item : list) {
      if (item.text() && is_filled_later(*item.text())) continue;
      if (item.number())
        in_range(item);
      else
        wrong_item(item, "numbers");
    }
  }

  void numbers(const Node& value) {
    const List* list = value.list();
    const auto size = list ? static_cast<int>(list->size()) : -1;
    if (size < facts_.fewest || size > facts_.most) return wrong_type(value);
    items(*list);
  }

  void edges(const Node& value) {
    if (value.number()) return in_range(value);
    if (value.text() && !facts_.words.empty()) return word(value);
    if (!value.list() || value.list()->size() != 4) return wrong_type(value);
    items(*value.list());
  }

  void number_lists(const Node& value) {
    if (!value.list()) return wrong_type(value);
    for (const Node& item : *value.list()) {
      if (item.text() && is_filled_later(*item.text())) continue;
      numbers(item);
    }
  }

  void texts(const Node& value) {
    if (value.text()) return;
    if (!value.list()) return wrong_type(value);
    for (const Node& item : *value.list()) {
      if (!item.text()) wrong_item(item, "texts in quotes");
    }
  }

  void table(const Node& value) {
    if (value.text() && !facts_.words.empty()) return word(value);
    if (!value.table()) return wrong_type(value);
    KeySet keys = keys_in(facts_.part);
    keys.called = label_;
    keys.prefix = label_ + ".";
    Diagnostics inner = check_table(keys, *value.table(), value.origin, names_);
    found_.insert(found_.end(), inner.begin(), inner.end());
  }

  void tables(const Node& value) {
    if (!value.list()) return wrong_type(value);
    for (const Node& item : *value.list()) {
      if (item.table())
        table(item);
      else
        wrong_type(value);
    }
  }

  void stops(const Node& value) {
    if (!value.list() || value.list()->size() < 2) return wrong_type(value);
    for (const Node& stop : *value.list()) {
      const List* pair = stop.list();
      if (!pair || pair->size() != 2) return wrong_type(value);
      PropertyFacts place = facts_;
      place.type = ValueType::number;
      place.low = 0;
      place.high = 1;
      place.example = "[\"ink\", 0.5]";
      PropertyFacts shade = place;
      shade.type = ValueType::colour;
      ValueCheck(shade, names_, "the colour of a stop", found_).check((*pair)[0]);
      ValueCheck(place, names_, "the place of a stop", found_).check((*pair)[1]);
    }
  }

  void conditions(const Node& value) {
    if (!value.table()) return wrong_type(value);
    for (const Entry& entry : *value.table()) condition(entry.value);
  }

  void condition(const Node& value) {
    if (value.table()) return conditions(value);  // suit.tide = "high"
    if (!value.list()) return;
    if (value.list()->empty()) return wrong_type(value);
    for (const Node& item : *value.list()) {
      if (item.list() || item.table()) return wrong_type(item);
    }
  }

  const PropertyFacts& facts_;
  const KnownNames& names_;
  std::string label_;
  Diagnostics& found_;
};

void check_own_key(const KeySet& keys, const Entry& entry, const KnownNames& names,
                   Diagnostics& found) {
  PropertyFacts facts{.section = "", .key = entry.key};
  if (keys.own_keys == "colour") {
    facts.type = ValueType::colour;
    facts.example = "ink = \"#1d2b33\"";
    ValueCheck(facts, {}, entry.key, found).check(entry.value);
  } else if (keys.own_keys == "symbol") {
    facts.type = ValueType::table;
    facts.part = "symbol";
    facts.example = "shell = \"art/icons/shell.svg\"";
    if (!entry.value.text()) ValueCheck(facts, names, entry.key, found).check(entry.value);
  } else if (entry.value.list() || entry.value.table()) {
    facts.type = ValueType::text;
    ValueCheck(facts, names, entry.key, found).check(entry.value);
  }
}

}  // namespace

KeySet keys_in(std::string_view section) {
  const SectionFacts& facts = section_facts(section);
  return {properties_of(section), std::string(facts.heading), facts.own_keys};
}

Diagnostics check_value(const PropertyFacts& facts, const Node& value, const KnownNames& names) {
  Diagnostics found;
  ValueCheck(facts, names, std::string(facts.key), found).check(value);
  return found;
}

Diagnostics check_table(const KeySet& keys, const Table& table, const Origin& where,
                        const KnownNames& names, const std::vector<std::string_view>& skipped) {
  Diagnostics found;
  for (const Entry& entry : table) {
    if (std::find(skipped.begin(), skipped.end(), entry.key) != skipped.end()) continue;
    const auto facts = std::find_if(keys.known.begin(), keys.known.end(),
                                    [&](const PropertyFacts* f) { return f->key == entry.key; });
    if (facts != keys.known.end()) {
      ValueCheck(**facts, names, keys.prefix + entry.key, found).check(entry.value);
    } else if (keys.own_keys.empty() || other_word(keys, entry.key)) {
      found.push_back(unknown_key(keys, entry));
    } else {
      check_own_key(keys, entry, names, found);
    }
  }
  for (const PropertyFacts* facts : keys.known) {
    const bool skip = std::find(skipped.begin(), skipped.end(), facts->key) != skipped.end();
    if (skip || facts->presence.empty() || find(table, facts->key)) continue;
    Diagnostic missing(Id::game_missing_key, where,
                       fmt::format("{} needs the key {}", keys.called, facts->key));
    found.push_back(std::move(missing.hint(fmt::format("write {}", facts->example))));
  }
  return found;
}

}  // namespace quoin::game
