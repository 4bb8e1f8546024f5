#include <fmt/format.h>

#include "game/encoding.h"
#include "game/reading.h"
#include "game/section.h"
#include "game/words.h"

namespace quoin::game {
namespace {

constexpr std::pair<std::string_view, RulesForm> form_names[] = {
    {"flat", RulesForm::flat},           {"half", RulesForm::half},
    {"accordion", RulesForm::accordion}, {"eight-pages", RulesForm::eight_pages},
    {"booklet", RulesForm::booklet},     {"automatic", RulesForm::automatic}};

RulesForm form_of(std::string_view word) {
  for (const auto& [name, form] : form_names) {
    if (name == word) return form;
  }
  return RulesForm::automatic;
}

RulesSides sides_of(const std::string& word) {
  if (word == "one") return RulesSides::one;
  return word == "both" ? RulesSides::both : RulesSides::automatic;
}

std::optional<int> whole_if_given(const Section& section, std::string_view key) {
  const std::optional<double> number = section.number_if_given(key);
  return number ? std::optional(static_cast<int>(*number)) : std::nullopt;
}

std::optional<Mm> points_if_given(const Section& section, std::string_view key) {
  if (!section.has(key)) return std::nullopt;
  return section.points(key);
}

void read_keys(RulesWishes& rules, const Section& section) {
  for (const PropertyFacts& facts : keys_of("rules")) {
    if (section.has(facts.key)) rules.places.emplace(facts.key, section.origin(facts.key));
  }
  rules.form = form_of(section.text("form"));
  rules.sides = sides_of(section.text("sides"));
  rules.panels = whole_if_given(section, "panels");
  rules.columns = whole_if_given(section, "columns");
  rules.type = points_if_given(section, "type");
  rules.minimum = section.points("minimum");
  rules.margin = section.length_if_given("margin");
  if (const Node* node = section.given("size")) {
    rules.size = {Mm{*node->list()->at(0).number()}, Mm{*node->list()->at(1).number()}};
  }
  rules.text_style = section.text("text");
  rules.heading_style = section.text("heading");
  rules.accent = section.text("accent");
  rules.paper.paper_class = section.text("class");
  rules.paper.grammage = section.number("grammage");
  rules.paper.caliper = section.length_if_given("caliper");
}

Diagnostic too_large(const Origin& where, std::size_t bytes) {
  return Diagnostic(Id::rules_too_large, where,
                    fmt::format("the file of the rules has {} bytes; {} can be read", bytes,
                                largest_rules))
      .hint("shorten it, or put parts of it into a file of their own");
}

/// The text; a file that nobody named may be missing.
std::shared_ptr<const Bytes> read_text(Reading& reading, const std::string& path,
                                       const Origin& wanted_by, bool named) {
  if (!named) {
    const ReadAnswer there = reading.world.read(path, largest_file);
    if (!there.ok() && there.failure == ReadFailure::missing) return nullptr;
  }
  std::shared_ptr<const Bytes> text = read_file(reading.world, path, wanted_by, reading.found);
  if (!text) return nullptr;
  const FileName file(path);
  if (text->size() > largest_rules) {
    reading.found.add(too_large({file}, text->size()));
    return nullptr;
  }
  if (auto problem = encoding_problem(*text, file)) {
    reading.found.add(std::move(*problem));
    return nullptr;
  }
  return text;
}

}  // namespace

std::string_view rules_form_word(RulesForm form) {
  for (const auto& [name, one] : form_names) {
    if (one == form) return name;
  }
  return "automatic";
}

void read_rules(Reading& reading, const Table& settings) {
  const Node* whole = find(settings, "rules");
  const Table* table = whole ? whole->table() : nullptr;
  const Section section("rules", table);
  const bool named = section.has("file");
  const std::string path = named ? section.text("file") : usual_rules_file;
  RulesWishes rules;
  rules.file = FileName(path);
  rules.origin = table ? whole->origin : Origin{rules.file};
  const Origin wanted_by = named ? section.origin("file") : rules.origin;
  rules.text = read_text(reading, path, wanted_by, named || table);
  if (!rules.text) return;
  read_keys(rules, section);
  reading.game.rules = std::move(rules);
}

}  // namespace quoin::game
