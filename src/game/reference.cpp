#include "game/reference.h"

#include <fmt/format.h>

#include "game/formats.h"
#include "game/reference_prose.h"
#include "game/schema.h"
#include "game/schema_check.h"
#include "game/words.h"

namespace quoin::game {
namespace {

std::string code_words(const std::vector<std::string_view>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += fmt::format("`\"{}\"`", words[i]);
  }
  return text;
}

/// "a number of mm from 0 to 20", "`\"printer\"`, `\"by-hand\"` or `\"none\"`".
std::string value_words(const PropertyFacts& facts) {
  if (facts.type == ValueType::word) return code_words(facts.words);
  PropertyFacts plain = facts;
  plain.words.clear();
  std::string text = wanted(plain);
  const bool in_list = facts.type == ValueType::numbers || facts.type == ValueType::edges;
  if (in_list && !facts.unit.empty()) text += fmt::format(", in {}", facts.unit);
  const bool ranged = facts.type == ValueType::number || facts.type == ValueType::whole;
  // Bounds of thousands of millimetres only catch slips; they would tell a reader nothing.
  if (ranged && facts.high <= 1000 && facts.low > -1000) {
    text += fmt::format(" from {} to {}", number_text(facts.low), number_text(facts.high));
  }
  return facts.words.empty() ? text : text + ", or " + code_words(facts.words);
}

std::string presence_words(const PropertyFacts& facts) {
  if (!facts.presence.empty()) return "; required";
  if (!facts.fallback_words.empty()) return fmt::format("; default: {}", facts.fallback_words);
  if (!facts.fallback.empty()) return fmt::format("; default `{}`", facts.fallback);
  return "";
}

std::string key_line(const PropertyFacts& facts) {
  std::string line = fmt::format("- **`{}`**: {}{}.\n  {}", facts.key, value_words(facts),
                                 presence_words(facts), facts.meaning);
  if (!facts.part.empty()) {
    line += fmt::format(" See *{}*.", section_facts(facts.part).title);
  }
  if (facts.source.find("no source") != std::string_view::npos) {
    line += fmt::format(" (As to the value: {}.)", facts.source);
  } else if (!facts.source.empty()) {
    line += fmt::format(" (Source: {}.)", facts.source);
  }
  return line + fmt::format("\n  Example: `{}`\n", facts.example);
}

std::string section_part(const SectionFacts& section) {
  std::string part = fmt::format("### {}\n\n", section.title);
  part += fmt::format("Written as `{}`.\n\n", section.heading);
  if (!section.intro.empty()) part += fmt::format("{}\n\n", section.intro);
  part += fmt::format("```toml\n{}\n```\n\n", section.example);
  for (const PropertyFacts& facts : keys_of(section.name)) part += key_line(facts);
  return keys_of(section.name).empty() ? part : part + "\n";
}

std::string size_table(const std::vector<NamedSize>& sizes) {
  std::string table = "| name | width | height | corner | source |\n|---|--:|--:|--:|---|\n";
  for (const NamedSize& size : sizes) {
    table += fmt::format("| `{}` | {} | {} | {} | {} |\n", size.name,
                         number_text(size.size.width.value), number_text(size.size.height.value),
                         size.corner > Mm{0} ? number_text(size.corner.value) : "", size.source);
  }
  return table + "\n";
}

std::string sizes_part() {
  return fmt::format(
      "## Sizes\n\nNames of sizes, in millimetres; capitals do not matter. Any other size is "
      "written as width and height: `\"63.5x88.9\"`, or `\"2.5x3.5in\"` in inches. Each side can "
      "be 5 to 2000 mm.\n\n### Cards\n\n{}### Paper\n\n{}",
      size_table(card_sizes()), size_table(paper_sizes()));
}

}  // namespace

std::string game_files_page() {
  std::string page(page_introduction);
  page += page_settings;
  for (const SectionFacts& section : game_sections()) page += section_part(section);
  page += page_cards;
  page += page_layouts;
  page += section_part(section_facts("layout"));
  page += page_placeholders;
  page += page_conditions;
  page += "## Elements\n\n";
  for (const SectionFacts& section : layout_sections()) {
    if (section.name != "layout") page += section_part(section);
  }
  page += page_rules;
  page += page_printers;
  for (const SectionFacts& section : printer_sections()) page += section_part(section);
  page += sizes_part();
  while (page.ends_with("\n\n")) page.pop_back();
  return page;
}

}  // namespace quoin::game
