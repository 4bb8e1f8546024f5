#include "game/layout_file.h"

#include <fmt/format.h>

#include <map>

#include "game/card_id.h"
#include "game/conditions.h"
#include "game/schema_check.h"
#include "game/words.h"

namespace quoin::game {
namespace {

bool is_child_list(std::string_view key) { return key == "elements" || key == "element"; }

class LayoutReader {
 public:
  LayoutReader(FileName file, LayoutFile& into, Diagnostics& found) : into_(into), found_(found) {
    into_.file = file;
  }

  void read(const Table& toml) {
    Table rest;
    for (const Entry& entry : toml) {
      if (entry.key == "element")
        into_.elements = elements(entry);
      else
        rest.push_back(entry);
    }
    KeySet keys = keys_in("layout");
    keys.called = "a layout";
    if (find(rest, "elements")) plural_heading(keys, rest);
    add(check_table(keys, rest, {into_.file}, {}, {"elements"}));
    read_uses(find(toml, "use"));
  }

 private:
  void add(Diagnostics more) {
    for (Diagnostic& one : more) found_.push_back(std::move(one));
  }

  void plural_heading(const KeySet& keys, const Table& toml) {
    for (const Entry& entry : toml) {
      if (entry.key != "elements") continue;
      Diagnostic problem = unknown_key(keys, entry);
      problem.hints = {"write each element as [[element]], without s"};
      found_.push_back(std::move(problem));
    }
  }

  void read_uses(const Node* use) {
    if (!use) return;
    if (use->text()) into_.uses.push_back({*use->text(), use->origin});
    if (!use->list()) return;
    for (const Node& item : *use->list()) {
      if (item.text()) into_.uses.push_back({*item.text(), item.origin});
    }
  }

  std::vector<Element> elements(const Entry& list) {
    std::vector<Element> read;
    if (!list.value.list()) {
      not_a_list(list);
      return read;
    }
    for (const Node& item : *list.value.list()) {
      if (!item.table()) {
        not_a_list(list);
        break;
      }
      if (std::optional<Element> one = element(*item.table(), item.origin)) {
        read.push_back(std::move(*one));
      }
    }
    return read;
  }

  void not_a_list(const Entry& entry) {
    Diagnostic problem(
        Id::game_wrong_type, entry.value.origin,
        fmt::format("{} needs a list of elements, not {}", entry.key, describe(entry.value)));
    problem.hint("begin each element with [[element]] on a line of its own");
    found_.push_back(std::move(problem));
  }

  std::optional<Element> element(const Table& table, const Origin& origin) {
    Element read;
    read.origin = origin;
    if (!read_id(table, read)) return std::nullopt;
    read.kind = kind_of(table);
    for (const Entry& entry : table) {
      if (is_child_list(entry.key)) {
        read.children = elements(entry);
        into_.child_lists.push_back({read.id, entry.key_origin});
      } else if (entry.key == "when") {
        read.when = conditions(entry);
      } else if (entry.key == "unless") {
        read.unless = conditions(entry);
      } else if (entry.key != "id" && entry.key != "kind") {
        read.properties.push_back(entry);
      }
    }
    return read;
  }

  bool read_id(const Table& table, Element& read) {
    const PropertyFacts& facts = *property_facts("element", "id");
    const Node* id = find(table, "id");
    if (!id) {
      Diagnostic problem(Id::game_missing_key, read.origin, "this element has no id");
      found_.push_back(problem.hint("write id = \"…\" with a name of its own"));
      return false;
    }
    add(check_value(facts, *id, {}));
    if (!id->text()) return false;
    read.id = *id->text();
    if (const std::optional<std::string> fault = id_fault(read.id)) {
      Diagnostic problem(Id::game_id_spelling, id->origin,
                         fmt::format("the id {} {}", in_quotes(read.id), *fault));
      const std::string better = id_from(read.id);
      if (!better.empty()) problem.hint(fmt::format("write id = {}", in_quotes(better)));
      found_.push_back(std::move(problem));
    }
    const auto [first, is_new] = seen_.emplace(read.id, id->origin);
    if (is_new) return true;
    Diagnostic problem(Id::game_id_twice, id->origin,
                       fmt::format("the id {} is given twice in this layout", read.id));
    problem.detail(fmt::format("the first is at {}", to_string(first->second)));
    found_.push_back(problem.hint("give one of the elements another id"));
    return false;
  }

  std::string kind_of(const Table& table) {
    const Node* kind = find(table, "kind");
    if (!kind) return {};
    Diagnostics problems = check_value(*property_facts("element", "kind"), *kind, {});
    const bool known = problems.empty();
    add(std::move(problems));
    return known ? *kind->text() : "?";
  }

  Conditions conditions(const Entry& entry) {
    add(check_value(*property_facts("element", entry.key), entry.value, {}));
    return read_conditions(&entry.value);
  }

  LayoutFile& into_;
  Diagnostics& found_;
  std::map<std::string, Origin> seen_;
};

}  // namespace

Checked<LayoutFile> layout_from(const Table& toml, FileName file) {
  Checked<LayoutFile> read;
  LayoutReader(file, read.value, read.found).read(toml);
  return read;
}

}  // namespace quoin::game
