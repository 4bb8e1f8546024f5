#include "game/edit/toml_edit.h"

#include <fmt/format.h>

#include "game/edit/node_edit.h"
#include "game/edit/toml_blocks.h"
#include "game/edit/toml_items.h"
#include "game/edit/toml_keys.h"
#include "game/edit/toml_write.h"
#include "game/toml_file.h"
#include "game/words.h"

namespace quoin::game {
namespace {

using Splices = std::vector<Splice>;

Diagnostic not_proved(const TomlText& in, const ValuePath& path) {
  Diagnostic problem(
      Id::edit_not_proved, place_of(in, path),
      fmt::format("{} cannot be changed here without changing something else", words_of(path)));
  return problem.hint("change it in a text editor");
}

/// The new text when it reads as `model`, or as `model` without tables that became empty.
Result<ChangedToml> proved(const TomlText& old, Bytes text, Node model, ValuePath path) {
  Result<Table> read = read_toml(text, old.file);
  if (!read) return not_proved(old, path);
  Node top{{}, std::move(*read)};
  const std::string now = canonical(top);
  const ValuePath asked = path;
  do {
    if (canonical(model) == now) return ChangedToml{std::move(text), std::move(top)};
  } while (prune(model, path));
  return not_proved(old, asked);
}

/// What is put in is the maker's own spelling when it says the same.
std::string spelled(const Node& value, const std::string& written, std::string_view old,
                    std::string_view line_end) {
  if (written.empty()) return toml_value(value, old, line_end);
  const Result<Table> read = read_toml("v = " + written + "\n", {});
  const Node* said = read && read->size() == 1 ? find(*read, "v") : nullptr;
  return said && canonical(*said) == canonical(value) ? written : toml_value(value, old, line_end);
}

bool have_same_keys(const Written& written, const Table& before, const Table& after) {
  bool same = written.entries.size() == before.size() && before.size() == after.size();
  for (const WrittenEntry& entry : written.entries) {
    same = same && entry.key.size() == 1 && find(before, entry.key[0]) && find(after, entry.key[0]);
  }
  return same;
}

/// Replaces a value; of lists and tables of the same make only the parts that differ.
void replace(std::string_view text, const Written& written, const Node& before, const Node& after,
             Splices& out) {
  if (canonical(before) == canonical(after)) return;
  const bool lists = before.list() && after.list() && !written.items.empty() &&
                     written.items.size() == after.list()->size() &&
                     before.list()->size() == after.list()->size();
  const bool tables = before.table() && after.table() && !written.entries.empty() &&
                      have_same_keys(written, *before.table(), *after.table());
  for (std::size_t i = 0; lists && i < written.items.size(); ++i) {
    replace(text, written.items[i], (*before.list())[i], (*after.list())[i], out);
  }
  for (std::size_t i = 0; tables && i < written.entries.size(); ++i) {
    const std::string& key = written.entries[i].key[0];
    replace(text, written.entries[i].value, *find(*before.table(), key), *find(*after.table(), key),
            out);
  }
  if (lists || tables) return;
  out.push_back({written.at, toml_value(after, part(text, written.at), line_end_of(text))});
}

ValuePath above(ValuePath path) {
  path.pop_back();
  return path;
}

std::size_t last_place(const ValuePath& path) { return std::get<std::size_t>(path.back()); }

/// Finds out where new text goes and old text ends, one change of one text.
class TomlWork {
 public:
  explicit TomlWork(const TomlText& in) : in_(in), text_(in.text), end_(line_end_of(in.text)) {}

  Result<Splices> set(const ValuePath& path, const Node& value, const std::string& written) const {
    if (path.empty()) return no_room(path, "the whole file");
    if (const auto found = find_value(in_.source, path)) {
      return replaced(*found, path, value, written);
    }
    if (!statements_under(in_.source, path).empty()) return no_room(path, "a table with headings");
    const ValuePath holder = above(path);
    if (const auto held = find_value(in_.source, holder)) {
      return put_in_brackets(*held, path, spelled(value, written, {}, end_));
    }
    if (std::holds_alternative<std::size_t>(path.back())) return insert(path, value, written);
    if (!holder.empty() && statements_under(in_.source, holder).empty()) {
      return set(holder, Node{{}, Table{{std::get<std::string>(path.back()), {}, value}}}, "");
    }
    return add_to_table(path, value, written);
  }

  Result<Splices> take(const ValuePath& path) const {
    if (const auto found = find_value(in_.source, path)) {
      if (found->holder) return take_item(text_, *found->holder, found->position);
      return Splices{take_lines(text_, found->statement->lines)};
    }
    Splices all;
    for (const Block& run : runs_of(in_.source, path)) {
      const bool is_block = trimmed(part(text_, run.at)).find_first_of("[#") == 0;
      all.push_back(is_block ? take_block(text_, run.at) : take_lines(text_, run.at));
    }
    if (all.empty()) return no_room(path, "nothing");
    return all;
  }

  Result<Splices> insert(const ValuePath& path, const Node& value,
                         const std::string& written) const {
    const ValuePath list = above(path);
    if (const auto held = find_value(in_.source, list)) {
      return put_in_brackets(*held, path, spelled(value, written, {}, end_));
    }
    const std::vector<Block> blocks = blocks_of(in_.source, list);
    const bool in_braces = find_value(in_.source, above(list)).has_value();
    if (blocks.empty() && (in_braces || !value.table())) {
      return set(list, Node{{}, List{value}}, "");
    }
    if (!value.table()) return no_room(path, "a list of tables");
    std::string block = block_lines(list, value, written);
    if (blocks.empty()) return Splices{add_behind(in_.source, above(list), std::move(block))};
    return Splices{put_block(text_, blocks, last_place(path), std::move(block))};
  }

  /// The item as it stands, to be put elsewhere.
  [[nodiscard]] std::string lifted(const ValuePath& path) const { return written_at(in_, path); }

  [[nodiscard]] bool is_scattered(const ValuePath& path) const {
    if (find_value(in_.source, path)) return false;
    const std::vector<Block> blocks = blocks_of(in_.source, above(path));
    return last_place(path) >= blocks.size() || !blocks[last_place(path)].is_whole;
  }

  /// Puts an item back that was lifted from this list.
  Result<Splices> put(const ValuePath& path, const std::string& raw) const {
    const ValuePath list = above(path);
    if (const auto held = find_value(in_.source, list)) return put_in_brackets(*held, path, raw);
    const std::vector<Block> blocks = blocks_of(in_.source, list);
    if (blocks.empty()) return no_room(path, "nothing");
    return Splices{put_block(text_, blocks, last_place(path), raw)};
  }

  [[nodiscard]] Diagnostic no_room(const ValuePath& path, std::string_view what) const {
    Diagnostic problem(Id::edit_not_possible, place_of(in_, path),
                       fmt::format("the value cannot be written to {}: there is {} at this place",
                                   path.empty() ? "the top of the file" : words_of(path), what));
    return problem.hint("change the single values in it, or open the file in a text editor");
  }

 private:
  Splices replaced(const FoundValue& found, const ValuePath& path, const Node& value,
                   const std::string& written) const {
    Splices out;
    const Node* before = node_at(in_.top, path);
    const std::string_view old = part(text_, found.value->at);
    const std::string own = written.empty() ? std::string{} : spelled(value, written, old, end_);
    if (!own.empty() || !before)
      out.push_back({found.value->at, own.empty() ? toml_value(value, old, end_) : own});
    else
      replace(text_, *found.value, *before, value, out);
    return out;
  }

  Result<Splices> put_in_brackets(const FoundValue& held, const ValuePath& path,
                                  const std::string& item) const {
    const Written& holder = *held.value;
    const auto* key = std::get_if<std::string>(&path.back());
    if (holder.kind == Written::Kind::table && key) {
      const bool close = part(text_, holder.at).substr(1, 1) != " " && !holder.entries.empty();
      const std::string entry = toml_key(*key) + (close ? "=" : " = ") + item;
      return put_item(text_, holder, holder.entries.size(), entry);
    }
    if (holder.kind == Written::Kind::list && !key) {
      return put_item(text_, holder, last_place(path), item);
    }
    return no_room(path, "a single value");
  }

  Result<Splices> add_to_table(const ValuePath& path, const Node& value,
                               const std::string& written) const {
    const ValuePath table = above(path);
    const auto* key = std::get_if<std::string>(&path.back());
    if (!key) return no_room(path, "no list");
    if (value.table() && wants_heading(in_.source, table)) {
      std::string lines =
          section_lines(in_.source, dotted(path), Statement::Kind::heading, *value.table());
      return Splices{add_behind(in_.source, table, std::move(lines))};
    }
    return Splices{add_entry(in_.source, table, *key, spelled(value, written, {}, end_))};
  }

  /// The block as it was once written when it says the same, else made new.
  std::string block_lines(const ValuePath& list, const Node& value,
                          const std::string& written) const {
    const std::string name = dotted(list);
    if (!written.empty()) {
      // Read where blocks above it make the list it belongs to.
      std::string before;
      for (std::size_t i = 1; i < list.size(); ++i) {
        if (!std::holds_alternative<std::size_t>(list[i])) continue;
        const ValuePath outer(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(i));
        before += "[[" + dotted(outer) + "]]\n";
      }
      Result<Table> read = read_toml(before + written + "\n", {});
      const Node top{{}, read ? std::move(*read) : Table{}};
      ValuePath path;
      for (const PathStep& step : list) {
        path.push_back(std::holds_alternative<std::size_t>(step) ? PathStep(std::size_t{0}) : step);
      }
      path.emplace_back(std::size_t{0});
      const Node* said = node_at(top, path);
      if (said && canonical(*said) == canonical(value)) return without_last_end(written);
    }
    return section_lines(in_.source, name, Statement::Kind::list_heading, *value.table());
  }

  const TomlText& in_;
  std::string_view text_;
  std::string_view end_;
};

Diagnostic not_writable(const TomlText& in, const ValuePath& path, const std::string& fault) {
  return Diagnostic(Id::edit_not_writable, place_of(in, path),
                    fmt::format("the value for {} {}", words_of(path), fault));
}

Diagnostic gone(const TomlText& in, const ValuePath& path) {
  Diagnostic problem(Id::edit_place_gone, {in.file},
                     fmt::format("there is no {} in this file", words_of(path)));
  return problem.hint("look at the file as it stands now, and make the change again");
}

Result<ChangedToml> made(const TomlText& old, Result<Splices> splices, Node model,
                         const ValuePath& path) {
  if (!splices) return std::move(splices).why();
  return proved(old, spliced(old.text, *splices), std::move(model), path);
}

Result<ChangedToml> move_item(const TomlText& old, const EditElement& change) {
  Node model = old.top;
  if (!move_node(model, change.path, change.to)) return gone(old, change.path);
  if (last_place(change.path) == change.to) return ChangedToml{old.text, old.top};
  const TomlWork work(old);
  if (work.is_scattered(change.path)) {
    return work.no_room(change.path, "a block whose parts stand apart");
  }
  const std::string raw = work.lifted(change.path);
  Result<Splices> taken = work.take(change.path);
  if (!taken) return std::move(taken).why();
  const Bytes rest = spliced(old.text, *taken);
  const TomlText between{rest, old.file, TomlSource(rest), {}};
  ValuePath target = change.path;
  target.back() = change.to;
  Result<Splices> put = TomlWork(between).put(target, raw);
  if (!put) return std::move(put).why();
  return proved(old, spliced(rest, *put), std::move(model), change.path);
}

}  // namespace

Result<TomlText> toml_text_of(const Bytes& text, FileName file) {
  Result<Table> read = read_toml(text, file);
  if (!read) return std::move(read).why();
  TomlText made{text, file, TomlSource(text), Node{{}, std::move(*read)}};
  if (!made.source.is_sound()) return not_proved(made, {});
  return made;
}

Result<ChangedToml> change_toml(const TomlText& old, const SetValue& change) {
  Node model = old.top;
  const TomlWork work(old);
  if (!change.value) {
    if (!remove_node(model, change.path)) return gone(old, change.path);
    return made(old, work.take(change.path), std::move(model), change.path);
  }
  if (const auto fault = fault_of_value(*change.value)) {
    return not_writable(old, change.path, *fault);
  }
  if (!set_node(model, change.path, *change.value)) {
    return work.no_room(change.path, "something else than a table or a list on the way");
  }
  return made(old, work.set(change.path, *change.value, change.written), std::move(model),
              change.path);
}

Result<ChangedToml> change_toml(const TomlText& old, const EditElement& change) {
  if (change.path.empty() || !std::holds_alternative<std::size_t>(change.path.back())) {
    return TomlWork(old).no_room(change.path, "no item of a list");
  }
  if (change.op == ListOp::move) return move_item(old, change);
  Node model = old.top;
  if (change.op == ListOp::remove) {
    if (!remove_node(model, change.path)) return gone(old, change.path);
    return made(old, TomlWork(old).take(change.path), std::move(model), change.path);
  }
  const Node value = change.value.value_or(Node{{}, Table{}});
  if (const auto fault = fault_of_value(value)) return not_writable(old, change.path, *fault);
  if (!insert_node(model, change.path, value)) return gone(old, change.path);
  return made(old, TomlWork(old).insert(change.path, value, change.written), std::move(model),
              change.path);
}

}  // namespace quoin::game
