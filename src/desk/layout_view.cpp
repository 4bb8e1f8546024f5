#include <algorithm>
#include <map>

#include "desk/views.h"
#include "game/schema.h"
#include "game/toml_file.h"
#include "pieces/card/element.h"
#include "pieces/card/face.h"
#include "pieces/mat/mat.h"

namespace quoin::desk {
namespace {

Json value_view(const game::Node& node) {
  if (const std::string* text = node.text()) return *text;
  if (const double* number = node.number()) return *number;
  if (const bool* flag = node.flag()) return *flag;
  if (const game::List* list = node.list()) {
    Json all = Json::array();
    for (const game::Node& item : *list) all.push_back(value_view(item));
    return all;
  }
  Json all = Json::object();
  for (const game::Entry& entry : *node.table()) all[entry.key] = value_view(entry.value);
  return all;
}

Json conditions_view(const game::Conditions& conditions) {
  Json all = Json::object();
  for (const game::Condition& condition : conditions) all[condition.column] = condition.values;
  return all;
}

/// Where the elements of a layout file stand in it, by their ids.
using Paths = std::map<std::string, Json, std::less<>>;

void collect_paths(const game::Table& table, const Json& above, Paths& paths) {
  for (const char* key : {"element", "elements"}) {
    const game::Node* node = game::find(table, key);
    const game::List* list = node == nullptr ? nullptr : node->list();
    if (list == nullptr) continue;
    for (std::size_t i = 0; i < list->size(); ++i) {
      const game::Table* element = (*list)[i].table();
      if (element == nullptr) continue;
      Json path = above;
      path.push_back(key);
      path.push_back(i);
      const game::Node* id = game::find(*element, "id");
      if (id != nullptr && id->text() != nullptr) paths.emplace(*id->text(), path);
      collect_paths(*element, path, paths);
    }
  }
}

/// What an element's view is made with.
class LayoutReader {
 public:
  LayoutReader(const Snapshot& shown, const game::Card& card, std::string file)
      : shown_(shown),
        studio_(shown.game, *shown.materials->shelf, found_),
        sitting_{studio_, card, card.id, found_},
        file_(std::move(file)) {}

  Json elements(const std::vector<game::Element>& all, Rect frame, Mm bleed) {
    Json views = Json::array();
    for (const game::Element& one : all) views.push_back(element(one, frame, bleed));
    return views;
  }

  /// The box of the element with that id on the card, if it is shown there.
  std::optional<Rect> find(const std::vector<game::Element>& all, const std::string& id, Rect frame,
                           Mm bleed) {
    for (const game::Element& one : all) {
      if (!is_visible(one)) continue;
      const std::optional<Rect> box = box_of(one, frame, bleed);
      if (one.id == id) return box;
      if (!box) continue;
      if (const auto below = find(one.children, id, *box, bleed)) return below;
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] bool is_visible(const game::Element& element) const {
    const bool left_out =
        !element.unless.empty() && game::holds(shown_.game, sitting_.card, element.unless);
    return !left_out && game::holds(shown_.game, sitting_.card, element.when);
  }

  std::optional<Rect> box_of(const game::Element& element, Rect frame, Mm bleed) {
    const pieces::Properties properties(sitting_, element.properties, element.id);
    return pieces::box_of(properties, element, {frame, bleed});
  }

  const Paths& paths_of(const std::string& file) {
    const auto [known, is_new] = paths_.try_emplace(file);
    if (!is_new) return known->second;
    const ReadAnswer answer = shown_.sight.world->read(file, game::largest_toml);
    if (!answer.ok()) return known->second;
    if (const Result<game::Table> table = game::read_toml(*answer.bytes, FileName(file))) {
      collect_paths(*table, Json::array(), known->second);
    }
    return known->second;
  }

  /// The file in which the element is to be changed: the layout that is looked at when it has it,
  /// else the one it comes from.
  std::pair<std::string, Json> written_at(const game::Element& element) {
    for (const std::string& file : {file_, element.origin.file.str()}) {
      const Paths& paths = paths_of(file);
      if (const auto found = paths.find(element.id); found != paths.end()) {
        return {file, found->second};
      }
    }
    return {element.origin.file.str(), Json::array()};
  }

  static Json property(const game::PropertyFacts& facts, const game::Element& element) {
    Json view{
        {"key", facts.key}, {"value", nullptr}, {"text", ""}, {"place", nullptr}, {"given", false}};
    const auto give = [&](Json value, const Origin& origin) {
      view["text"] = value.is_string() ? value.get<std::string>() : value.dump();
      view["value"] = std::move(value);
      view["place"] = place_view(origin);
      view["given"] = true;
    };
    const bool is_when = facts.key == "when";
    if (is_when || facts.key == "unless") {
      const game::Conditions& conditions = is_when ? element.when : element.unless;
      if (!conditions.empty()) give(conditions_view(conditions), conditions.front().origin);
      return view;
    }
    if (facts.key == "id") give(element.id, element.origin);
    if (facts.key == "kind") give(element.kind, element.origin);
    if (const game::Node* node = game::find(element.properties, facts.key)) {
      give(value_view(*node), node->origin);
    } else if (view["given"] == false && !facts.fallback.empty()) {
      view["value"] = value_view(game::default_value(facts));
    }
    return view;
  }

  Json element(const game::Element& element, Rect frame, Mm bleed) {
    const Rect box = box_of(element, frame, bleed).value_or(Rect{frame.at, {}});
    const pieces::Properties known(sitting_, element.properties, element.id);
    Json properties = Json::array();
    for (const game::PropertyFacts* facts : game::properties_of(element.kind)) {
      properties.push_back(property(*facts, element));
    }
    auto [file, path] = written_at(element);
    return {{"id", element.id},
            {"kind", element.kind},
            {"file", std::move(file)},
            {"path", std::move(path)},
            {"place", place_view(element.origin)},
            {"box",
             {{"x", box.at.x.value},
              {"y", box.at.y.value},
              {"width", box.size.width.value},
              {"height", box.size.height.value}}},
            {"turn", known.number("rotation").value_or(0)},
            {"visible", is_visible(element)},
            {"properties", std::move(properties)},
            {"children", elements(element.children, box, bleed)}};
  }

  const Snapshot& shown_;
  Diagnostics found_;  // said by the checks
  pieces::Studio studio_;
  pieces::Sitting sitting_;
  std::string file_;
  std::map<std::string, Paths> paths_;
};

/// A layout of the game, and how it is used.
struct Used {
  const game::Layout* layout = nullptr;
  std::vector<const game::Card*> cards;  ///< that have it
  Mm bleed;
};

Used find_layout(const game::Game& game, const std::string& file) {
  Used used;
  for (std::size_t i = 0; i < game.layouts.size(); ++i) {
    if (game.layouts[i].file.str() != file) continue;
    used.layout = &game.layouts[i];
    used.bleed = game.card.bleed;
    for (const game::Card& card : game.cards) {
      if (card.layout == static_cast<int>(i)) used.cards.push_back(&card);
    }
    if (!used.cards.empty()) continue;
    used.bleed = pieces::back_bleed(game);
    for (const game::Card& card : game.cards) {
      if (card.back == static_cast<int>(i)) used.cards.push_back(&card);
    }
  }
  return used;
}

Json number_or_null(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

std::string_view type_word(game::ValueType type) {
  using enum game::ValueType;
  switch (type) {
    case text:
      return "text";
    case word:
      return "word";
    case number:
      return "number";
    case whole:
      return "whole";
    case flag:
      return "flag";
    case colour:
      return "colour";
    case paint:
      return "paint";
    case file:
      return "file";
    case size:
      return "size";
    case style:
      return "style";
    case symbol:
      return "symbol";
    case numbers:
      return "numbers";
    case edges:
      return "edges";
    case number_lists:
      return "number-lists";
    case texts:
      return "texts";
    case table:
      return "table";
    case tables:
      return "tables";
    case stops:
      return "stops";
    case conditions:
      break;
  }
  return "conditions";
}

Json key_view(const game::PropertyFacts& facts) {
  Json view{{"key", facts.key}, {"type", type_word(facts.type)}, {"unit", facts.unit}};
  view["low"] = number_or_null(facts.low);
  view["high"] = number_or_null(facts.high);
  view["words"] = facts.words;
  view["fallback"] = facts.fallback;
  view["meaning"] = facts.meaning;
  view["section"] = facts.section;
  return view;
}

Json keys_view(std::string_view section) {
  Json keys = Json::array();
  for (const game::PropertyFacts* facts : game::properties_of(section)) {
    keys.push_back(key_view(*facts));
  }
  return keys;
}

}  // namespace

std::optional<Json> layout_view(const Snapshot& shown, const std::string& file,
                                const std::string& card) {
  if (const game::Layout* mat = game::mat_layout(shown.game); mat && mat->file.str() == file) {
    const game::Card nobody;
    LayoutReader reader(shown, nobody, file);
    const pieces::MatPlan plan = pieces::mat_plan(shown.game);
    return Json{{"file", file},
                {"elements", reader.elements(mat->elements, Rect{{}, plan.size}, plan.ink())}};
  }
  const Used used = find_layout(shown.game, file);
  if (used.cards.empty()) return std::nullopt;
  const auto asked = std::ranges::find(used.cards, card, &game::Card::id);
  const game::Card& sample = asked == used.cards.end() ? *used.cards.front() : **asked;
  LayoutReader reader(shown, sample, file);
  return Json{{"file", file},
              {"elements",
               reader.elements(used.layout->elements, Rect{{}, shown.game.card.size}, used.bleed)}};
}

Json element_cuts_view(const Snapshot& shown, const std::string& file, const std::string& element) {
  Json cuts = Json::array();
  const Used used = find_layout(shown.game, file);
  for (const game::Card* card : used.cards) {
    LayoutReader reader(shown, *card, file);
    const auto box =
        reader.find(used.layout->elements, element, Rect{{}, shown.game.card.size}, used.bleed);
    if (!box) continue;
    cuts.push_back({{"card", card->id},
                    {"x", box->at.x.value},
                    {"y", box->at.y.value},
                    {"w", box->size.width.value},
                    {"h", box->size.height.value}});
  }
  return cuts;
}

Json schema_view() {
  Json elements = Json::object(), game = Json::object();
  for (const std::string_view kind : {"picture", "text", "shape", "repeat", "group", "place"}) {
    elements[std::string(kind)] = keys_view(kind);
  }
  for (const game::SectionFacts& section : game::layout_sections()) {
    const std::string name(section.name);
    if (section.occurrence == game::Occurrence::inside && !elements.contains(name)) {
      elements[name] = keys_view(section.name);
    }
  }
  for (const game::SectionFacts& section : game::game_sections()) {
    game[std::string(section.name)] = keys_view(section.name);
  }
  return {{"elements", std::move(elements)}, {"game", std::move(game)}};
}

}  // namespace quoin::desk
