#include <fmt/format.h>

#include <algorithm>

#include "game/edit/claims.h"
#include "game/edit/node_edit.h"
#include "game/edit/sight.h"
#include "game/edit/toml_write.h"

namespace quoin::game {
namespace {

ValuePath without_last(ValuePath path) {
  if (!path.empty()) path.pop_back();
  return path;
}

/// What is remembered of each list on the way.
std::vector<Sight> sights_on(const Node& top, const ValuePath& path) {
  std::vector<Sight> sights;
  for (std::size_t i = 0; i < path.size(); ++i) {
    const auto* index = std::get_if<std::size_t>(&path[i]);
    if (!index) continue;
    const Node* list = node_at(top, {path.begin(), path.begin() + static_cast<std::ptrdiff_t>(i)});
    sights.push_back(list ? sight_of(view_of(*list), *index) : Sight{"", "", 0});
  }
  return sights;
}

/// The path in a text whose lists may have changed; nothing when an item on it is gone.
std::optional<ValuePath> path_now(const Node& top, const ValuePath& path,
                                  const std::vector<Sight>& sights) {
  ValuePath now;
  std::size_t seen = 0;
  for (const PathStep& step : path) {
    const auto* index = std::get_if<std::size_t>(&step);
    if (!index) {
      now.push_back(step);
      continue;
    }
    const Node* list = node_at(top, now);
    const Sight sight = seen < sights.size() ? sights[seen] : Sight{};
    ++seen;
    const ListInView view = list ? view_of(*list) : ListInView{};
    const std::optional<std::size_t> found = find_again(view, *index, sight);
    if (!found) return std::nullopt;
    now.emplace_back(*found);
  }
  return now;
}

std::optional<std::string> canonical_at(const Node& top, const ValuePath& path) {
  const Node* node = node_at(top, path);
  if (!node) return std::nullopt;
  return canonical(*node);
}

std::optional<std::string> wanted(const SetValue& change) {
  if (!change.value) return std::nullopt;
  return canonical(*change.value);
}

Diagnostic item_gone(const TomlText& text, const ValuePath& path) {
  Diagnostic problem(Id::edit_place_gone, {text.file},
                     fmt::format("there is no {} in this file any more", words_of(path)));
  return problem.hint("look at the file as it stands now, and make the change again");
}

/// The list without the item that moves: places in it are counted so.
Node without_item(const Node& list, std::size_t index) {
  Node rest = list;
  (void)remove_node(rest, {index});
  return rest;
}

Claim claim_of_element(const EditElement& change, const TomlText& text) {
  Claim made{change};
  const ValuePath list_path = without_last(change.path);
  const Node* list = node_at(text.top, list_path);
  const bool adds = change.op == ListOp::add;
  const bool has_place =
      !change.path.empty() && std::holds_alternative<std::size_t>(change.path.back());
  made.sights = sights_on(text.top, adds ? list_path : change.path);
  if (!list || !list->list() || !has_place) return made;
  const std::size_t index = std::get<std::size_t>(change.path.back());
  if (adds && index > 0) made.above = sight_of(view_of(*list), index - 1);
  if (!adds) made.saw = canonical_at(text.top, change.path);
  if (change.op == ListOp::move && change.to > 0) {
    const Node rest = without_item(*list, index);
    made.above = sight_of(view_of(rest), change.to - 1);
  }
  return made;
}

EditAnswer answer_of(const TomlText& old, Result<ChangedToml> changed, const ValuePath& place,
                     const Change& inverse) {
  if (!changed) return std::move(changed).why();
  Edited made{std::move(changed->text), {inverse}, {}};
  const TomlText now{made.text, old.file, TomlSource(made.text), std::move(changed->top)};
  Result<Claim> back = claim_in(inverse, now);
  if (!back) return std::move(back).why();
  made.inverse = std::move(*back);
  made.place = place_of(now, place);
  return made;
}

/// An item of a list that is taken away comes back between its neighbours, not in their place.
Change inverse_of(const SetValue& change, const Node* before, const TomlText& text) {
  const bool is_item = std::holds_alternative<std::size_t>(change.path.back());
  const bool stands = find_value(text.source, change.path).has_value();
  if (is_item && before && !change.value) {
    return EditElement{change.file, ListOp::add, change.path,
                       0,           *before,     written_at(text, change.path)};
  }
  return SetValue{change.file, change.path, before ? std::optional(*before) : std::nullopt,
                  stands ? written_at(text, change.path) : ""};
}

EditAnswer set_in(const Claim& claim, const TomlText& text, WhenChanged when_changed) {
  SetValue change = std::get<SetValue>(claim.change);
  const std::optional<ValuePath> path = path_now(text.top, change.path, claim.sights);
  if (!path || path->empty()) return Diagnostics{item_gone(text, change.path)};
  change.path = *path;
  const Node* before = node_at(text.top, *path);
  const std::optional<std::string> now = canonical_at(text.top, *path);
  const std::optional<std::string> mine = wanted(change);
  if (now != claim.saw && now != mine && when_changed == WhenChanged::ask) {
    const std::string line_end(line_end_of(text.text));
    return Collision{change.value ? toml_value(*change.value, {}, line_end) : "",
                     before ? written_at(text, *path) : "", place_of(text, *path)};
  }
  const Change inverse = inverse_of(change, before, text);
  if (now == mine && change.written.empty()) {
    return answer_of(text, ChangedToml{text.text, text.top}, *path, inverse);
  }
  return answer_of(text, change_toml(text, change), *path, inverse);
}

EditAnswer add_in(const Claim& claim, const TomlText& text) {
  EditElement change = std::get<EditElement>(claim.change);
  const std::optional<ValuePath> list_path =
      path_now(text.top, without_last(change.path), claim.sights);
  if (!list_path) return Diagnostics{item_gone(text, without_last(change.path))};
  const Node* list = node_at(text.top, *list_path);
  const ListInView view = list ? view_of(*list) : ListInView{};
  ValuePath path = *list_path;
  path.emplace_back(place_below(view, std::get<std::size_t>(change.path.back()), claim.above));
  change.path = path;
  EditElement inverse{change.file, ListOp::remove, path};
  return answer_of(text, change_toml(text, change), path, inverse);
}

EditAnswer remove_in(const EditElement& change, const Claim& claim, const TomlText& text,
                     WhenChanged when_changed) {
  if (when_changed == WhenChanged::ask && canonical_at(text.top, change.path) != claim.saw) {
    return Collision{"", written_at(text, change.path), place_of(text, change.path)};
  }
  const Node* before = node_at(text.top, change.path);
  EditElement inverse{change.file, ListOp::add, change.path};
  if (before) inverse.value = *before;
  inverse.written = written_at(text, change.path);
  return answer_of(text, change_toml(text, change), change.path, inverse);
}

EditAnswer move_in(EditElement change, const Claim& claim, const TomlText& text) {
  const std::size_t from = std::get<std::size_t>(change.path.back());
  const Node* list = node_at(text.top, without_last(change.path));
  if (!list || !list->list()) return Diagnostics{item_gone(text, change.path)};
  const Node rest = without_item(*list, from);
  change.to = place_below(view_of(rest), change.to, claim.above);
  ValuePath path = change.path;
  path.back() = change.to;
  EditElement inverse{change.file, ListOp::move, path, from};
  return answer_of(text, change_toml(text, change), path, inverse);
}

EditAnswer element_in(const Claim& claim, const TomlText& text, WhenChanged when_changed) {
  EditElement change = std::get<EditElement>(claim.change);
  const bool has_place =
      !change.path.empty() && std::holds_alternative<std::size_t>(change.path.back());
  if (!has_place || change.op == ListOp::copy) {
    return Diagnostics{item_gone(text, change.path)};
  }
  if (change.op == ListOp::add) return add_in(claim, text);
  const std::optional<ValuePath> path = path_now(text.top, change.path, claim.sights);
  const bool is_there = path && node_at(text.top, *path);
  if (!is_there) return Diagnostics{item_gone(text, change.path)};
  change.path = *path;
  if (change.op == ListOp::remove) return remove_in(change, claim, text, when_changed);
  return move_in(std::move(change), claim, text);
}

}  // namespace

Result<Claim> claim_in(const Change& change, const TomlText& text) {
  if (const auto* element = std::get_if<EditElement>(&change)) {
    return claim_of_element(*element, text);
  }
  const SetValue& set = std::get<SetValue>(change);
  Claim made{change};
  made.sights = sights_on(text.top, set.path);
  made.saw = canonical_at(text.top, set.path);
  if (!made.saw && !set.value) return item_gone(text, set.path);
  return made;
}

EditAnswer edit_in(const Claim& claim, const TomlText& text, WhenChanged when_changed) {
  if (std::holds_alternative<SetValue>(claim.change)) return set_in(claim, text, when_changed);
  return element_in(claim, text, when_changed);
}

}  // namespace quoin::game
