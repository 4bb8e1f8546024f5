#include "desk/changes.h"

#include <cmath>

#include "job/edit/editor.h"

namespace quoin::desk {
namespace {

/// Looks at the disk and changes nothing.
class OnlyLooking : public Changes {
 public:
  OnlyLooking(const std::string& folder, Diagnostics why)
      : world_(real_world(folder)), why_(std::move(why)) {}

  Sight look() override { return {world_, nullptr, 0}; }
  Changed apply(const Sight&, const Json&) override {
    return {Changed::State::refused, {}, why_, {}};
  }
  Changed put(const Sight&, const std::string&, const std::vector<game::Change>&) override {
    return {Changed::State::refused, {}, why_, {}};
  }
  Changed undo() override { return {Changed::State::nothing_there, {}, {}, {}}; }
  Changed redo() override { return {Changed::State::nothing_there, {}, {}, {}}; }
  Changed choose(const std::string&, const std::string&) override {
    return {Changed::State::nothing_there, {}, {}, {}};
  }
  [[nodiscard]] std::optional<std::string> undo_label() const override { return std::nullopt; }
  [[nodiscard]] std::optional<std::string> redo_label() const override { return std::nullopt; }
  [[nodiscard]] std::vector<OpenConflict> conflicts() const override { return {}; }
  [[nodiscard]] Diagnostics found() const override { return why_; }

 private:
  std::shared_ptr<const World> world_;
  Diagnostics why_;
};

constexpr const char* card_list = "cards.csv";

/// The list that is to be changed: the cards, or where the pictures came from.
std::string list_of(const Json& asked) {
  if (!asked.contains("file")) return card_list;
  return asked["file"].get<std::string>();
}

/// What of a request makes no sense although its types are right.
struct NotUnderstood {
  std::string fault;
};

/// Numbers of places in lists.
std::size_t place_in(const Json& number) {
  const double value = number.get<double>();
  if (!(value >= 0 && value <= 1e9) || std::floor(value) != value) {
    throw NotUnderstood{"a place in a list is a whole number from 0 on"};
  }
  return static_cast<std::size_t>(value);
}

game::Node node_of(const Json& value) {
  game::Node node;
  if (value.is_string()) node.value = value.get<std::string>();
  if (value.is_number()) node.value = value.get<double>();
  if (value.is_boolean()) node.value = value.get<bool>();
  if (value.is_null()) throw NotUnderstood{"a value within another cannot be nothing"};
  if (value.is_array()) {
    game::List list;
    for (const Json& item : value) list.push_back(node_of(item));
    node.value = std::move(list);
  }
  if (value.is_object()) {
    game::Table table;
    for (const auto& [key, item] : value.items()) table.push_back({key, {}, node_of(item)});
    node.value = std::move(table);
  }
  return node;
}

game::ValuePath path_of(const Json& steps) {
  game::ValuePath path;
  for (const Json& step : steps) {
    if (step.is_string()) {
      path.emplace_back(step.get<std::string>());
    } else {
      path.emplace_back(place_in(step));
    }
  }
  if (path.empty()) throw NotUnderstood{"the way to the value is empty"};
  return path;
}

game::ListOp list_op(const std::string& word) {
  if (word == "add") return game::ListOp::add;
  if (word == "copy") return game::ListOp::copy;
  return word == "remove" ? game::ListOp::remove : game::ListOp::move;
}

game::Change rows_change(const Json& asked) {
  game::EditRow change{list_of(asked), list_op(asked["op"].get<std::string>())};
  change.row = place_in(asked["row"]);
  change.id = asked["id"].get<std::string>();
  if (asked.contains("to")) change.to = place_in(asked["to"]);
  if (asked.contains("values")) {
    for (const auto& [column, text] : asked["values"].items()) {
      change.values[column] = text.get<std::string>();
    }
  }
  return change;
}

game::Change element_change(const Json& asked) {
  game::EditElement change;
  change.file = asked["file"].get<std::string>();
  change.op = list_op(asked["op"].get<std::string>());
  change.path = path_of(asked["path"]);
  if (asked.contains("to")) change.to = place_in(asked["to"]);
  if (asked.contains("value")) change.value = node_of(asked["value"]);
  return change;
}

game::Change column_change(const Json& asked) {
  const std::string word = asked["op"].get<std::string>();
  game::EditColumn change;
  change.file = list_of(asked);
  change.op = word == "add"      ? game::ColumnOp::add
              : word == "remove" ? game::ColumnOp::remove
                                 : game::ColumnOp::rename;
  change.column = asked["column"].get<std::string>();
  if (asked.contains("to")) change.to = asked["to"].get<std::string>();
  return change;
}

/// `asked` is a Change, as the table of types has it.
game::Change change_of(const Json& asked) {
  const std::string kind = asked["kind"].get<std::string>();
  if (kind == "rows") return rows_change(asked);
  if (kind == "element") return element_change(asked);
  if (kind == "column") return column_change(asked);
  if (kind == "text") {
    return game::EditText{asked["file"].get<std::string>(), asked["text"].get<std::string>(), {}};
  }
  if (kind == "cell") {
    game::SetCell cell;
    cell.file = list_of(asked);
    cell.row = place_in(asked["row"]);
    cell.id = asked["id"].get<std::string>();
    cell.column = asked["column"].get<std::string>();
    cell.text = asked["text"].get<std::string>();
    return cell;
  }
  game::SetValue set{asked["file"].get<std::string>(), path_of(asked["path"]), std::nullopt};
  if (!asked["value"].is_null()) set.value = node_of(asked["value"]);
  return set;
}

Changed changed_of(job::EditAnswer answer) {
  using State = job::EditAnswer::State;
  Changed changed{Changed::State::done, std::move(answer.label), std::move(answer.found), {}};
  if (answer.state == State::conflict) changed.state = Changed::State::conflict;
  if (answer.state == State::waiting) changed.state = Changed::State::waiting;
  if (answer.state == State::refused) changed.state = Changed::State::refused;
  return changed;
}

/// Changes files a value at a time, with all that the editor promises.
class Editing : public Changes {
 public:
  explicit Editing(job::Editor::Opened opened)
      : editor_(std::move(opened.editor)), found_opening_(std::move(opened.found)) {}

  Sight look() override {
    if (!editor_->waiting().empty()) (void)editor_->retry();
    auto view = std::make_shared<job::View>(editor_->look());
    std::size_t fresh = 0;
    for (const auto& [file, text] : view->kept) {
      const auto before = seen_last_.find(file);
      const bool is_shared = before != seen_last_.end() && before->second == text;
      if (text && !is_shared) fresh += text->size();
    }
    seen_last_ = view->kept;
    return {view->world, view, fresh};
  }
  Changed apply(const Sight& seen, const Json& asked) override {
    job::Edit edit;
    edit.label = asked["label"].get<std::string>();
    if (asked.contains("group")) edit.group = asked["group"].get<std::string>();
    const bool is_passing = asked.contains("transient") && asked["transient"].get<bool>();
    edit.kind = is_passing ? job::Edit::Kind::passing : job::Edit::Kind::kept;
    try {
      for (const Json& one : asked["changes"]) edit.changes.push_back(change_of(one));
    } catch (const NotUnderstood& not_understood) {
      return {Changed::State::not_understood, {}, {}, not_understood.fault};
    }
    return apply(seen, std::move(edit));
  }
  Changed put(const Sight& seen, const std::string& label,
              const std::vector<game::Change>& changes) override {
    job::Edit edit;
    edit.label = label;
    edit.changes = changes;
    return apply(seen, std::move(edit));
  }
  Changed undo() override {
    if (!editor_->undo_label()) return {Changed::State::nothing_there, {}, {}, {}};
    return changed_of(editor_->undo());
  }
  Changed redo() override {
    if (!editor_->redo_label()) return {Changed::State::nothing_there, {}, {}, {}};
    return changed_of(editor_->redo());
  }
  Changed choose(const std::string& conflict, const std::string& keep) override {
    return changed_of(
        editor_->choose(conflict, keep == "mine" ? job::Keep::mine : job::Keep::theirs));
  }
  [[nodiscard]] std::optional<std::string> undo_label() const override {
    return editor_->undo_label();
  }
  [[nodiscard]] std::optional<std::string> redo_label() const override {
    return editor_->redo_label();
  }
  [[nodiscard]] std::vector<OpenConflict> conflicts() const override {
    std::vector<OpenConflict> open;
    for (const job::Conflict& one : editor_->conflicts()) {
      open.push_back({one.id, one.label, one.file, one.mine, one.theirs, one.place});
    }
    return open;
  }
  [[nodiscard]] Diagnostics found() const override {
    Diagnostics all = found_opening_;
    for (Diagnostic& one : editor_->waiting()) all.push_back(std::move(one));
    return all;
  }

 private:
  Changed apply(const Sight& seen, job::Edit edit) {
    return changed_of(
        editor_->apply(*std::static_pointer_cast<const job::View>(seen.basis), std::move(edit)));
  }

  std::unique_ptr<job::Editor> editor_;
  Diagnostics found_opening_;
  Texts seen_last_;
};

/// A folder without a game stays as it is: nothing is put into it before there is one.
bool has_game(const World& world) {
  return world.read("game.toml", largest_file).ok() || world.read("cards.csv", largest_file).ok();
}

}  // namespace

std::unique_ptr<Changes> changes_of(const std::string& folder) {
  Diagnostics why;
  if (has_game(*real_world(folder))) {
    Result<job::Editor::Opened> opened = job::Editor::open(folder);
    if (opened) return std::make_unique<Editing>(std::move(opened).value());
    why = opened.why();
  }
  return std::make_unique<OnlyLooking>(folder, std::move(why));
}

}  // namespace quoin::desk
