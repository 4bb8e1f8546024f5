#include "game/schema.h"

#include <map>
#include <set>
#include <stdexcept>

#include "game/schema_tables.h"
#include "game/toml_file.h"

namespace quoin::game {
namespace {

using Pages = std::map<std::string_view, std::vector<PropertyFacts>>;

const Pages& pages() {
  static const Pages all = [] {
    Pages made;
    for (auto rows : {game_keys, box_keys, mat_keys, rules_keys, making_keys, layout_keys,
                      on_box_keys, card_place_keys, printer_keys}) {
      for (PropertyFacts& facts : rows()) made[facts.section].push_back(std::move(facts));
    }
    return made;
  }();
  return all;
}

bool is_kind(std::string_view section) {
  return section == "picture" || section == "text" || section == "shape" || section == "repeat" ||
         section == "group";
}

/// The pages whose keys an element of that kind takes; of any other section just its own.
std::vector<std::string_view> pages_of(std::string_view kind) {
  if (kind == "text") return {"text", "type", "element", "on-box"};
  if (kind == "place") return {"place", "type", "element"};
  if (kind == "styles") return {"type"};
  if (is_kind(kind)) return {kind, "element", "on-box"};
  return {kind};
}

}  // namespace

const SectionFacts& section_facts(std::string_view section) {
  for (const std::vector<SectionFacts>* all :
       {&game_sections(), &layout_sections(), &printer_sections()}) {
    for (const SectionFacts& facts : *all) {
      if (facts.name == section) return facts;
    }
  }
  throw std::logic_error("the schema has no section " + std::string(section));
}

const std::vector<PropertyFacts>& keys_of(std::string_view section) {
  static const std::vector<PropertyFacts> none;
  const auto found = pages().find(section);
  return found == pages().end() ? none : found->second;
}

std::vector<const PropertyFacts*> properties_of(std::string_view kind) {
  std::vector<const PropertyFacts*> all;
  for (const std::string_view page : pages_of(kind)) {
    for (const PropertyFacts& facts : keys_of(page)) all.push_back(&facts);
  }
  return all;
}

const PropertyFacts* property_facts(std::string_view kind, std::string_view property) {
  for (const std::string_view page : pages_of(kind)) {
    for (const PropertyFacts& facts : keys_of(page)) {
      if (facts.key == property) return &facts;
    }
  }
  return nullptr;
}

bool takes_placeholders(const PropertyFacts& facts) {
  if (facts.key == "id" || facts.key == "kind") return false;
  static const std::set<std::string_view> drawn = {
      "element", "picture", "text",   "type",    "shape", "repeat",  "group",
      "place",   "stroke",  "shadow", "outline", "clip",  "gradient"};
  return drawn.contains(facts.section);
}

Node default_value(const PropertyFacts& facts) {
  if (facts.fallback.empty()) return Node{{}, Table{}};
  Result<Table> read = read_toml("value = " + std::string(facts.fallback), FileName{});
  if (!read) throw std::logic_error("a default of the schema is no TOML");
  Node value = read->at(0).value;
  value.origin = {};
  return value;
}

}  // namespace quoin::game
