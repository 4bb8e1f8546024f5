#include "job/edit/editor.h"

#include <fmt/format.h>

#include <algorithm>

#include "job/edit/editor_parts.h"
#include "job/edit/step_json.h"

namespace quoin::job {
namespace {

using State = EditAnswer::State;

Diagnostic nothing_to(std::string_view what) {
  return Diagnostic(Id::edit_nothing_to_undo, {}, fmt::format("there is no change to {}", what));
}

EditAnswer refused_edit(const std::string& label, Diagnostics why) {
  return {State::refused, label, std::move(why)};
}

std::optional<Diagnostic> fault_of_files(const std::vector<game::Change>& changes) {
  for (const game::Change& change : changes) {
    const std::string& file = game::file_of(change);
    const bool of_text = std::holds_alternative<game::EditText>(change);
    const bool of_toml = std::holds_alternative<game::SetValue>(change) ||
                         std::holds_alternative<game::EditElement>(change);
    if (may_be_changed(file) && file.ends_with(of_text ? ".md" : of_toml ? ".toml" : ".csv")) {
      continue;
    }
    const bool inside = !normal_path(file).empty();
    if (!inside) {
      return Diagnostic(Id::edit_outside, {}, fmt::format("{} lies outside the game folder", file));
    }
    return Diagnostic(Id::edit_not_possible, {FileName(file)},
                      fmt::format("{} is not a file whose {} can be changed here", file,
                                  of_text   ? "text"
                                  : of_toml ? "values"
                                            : "cells"));
  }
  return std::nullopt;
}

}  // namespace

Editor::Editor(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Editor::~Editor() = default;

Result<Editor::Opened> Editor::open(const std::string& folder) {
  GameDisk disk(folder);
  const std::string own = disk.root() + "/.quoin";
  Result<FolderLock> lock = FolderLock::take(own);
  if (!lock) return std::move(lock).why();
  Result<Journal::Opened> journal = Journal::open(own);
  if (!journal) return std::move(journal).why();
  Opened opened{nullptr, std::move(journal->found)};
  auto state = std::unique_ptr<Parts>(
      new Parts{std::move(disk), std::move(*lock), std::move(journal->journal), {}, {}, {}});
  state->finish_cut_short(opened.found);
  opened.editor.reset(new Editor(std::move(state)));
  // What waited when the program ended is tried again; its reasons are found anew.
  (void)opened.editor->retry();
  return opened;
}

View Editor::look() {
  View view;
  view.kept = parts_->with_waiting(parts_->read_all());
  Texts shown = view.kept;
  for (const auto& [file, text] : parts_->passing) shown[file] = text;
  view.world = std::make_shared<OverlayWorld>(parts_->disk.shared_world(), std::move(shown));
  return view;
}

EditAnswer Editor::apply(const View& seen, Edit edit) {
  parts_->passing.clear();
  if (auto fault = fault_of_files(edit.changes)) return refused_edit(edit.label, {*fault});
  Texts base = seen.kept;
  for (const game::Change& change : edit.changes) {
    const std::string& file = game::file_of(change);
    if (const auto at = base.find(file); at != base.end() && at->second) continue;
    Diagnostics found;
    base[file] = parts_->read(file, found);
    if (!base[file]) return refused_edit(edit.label, std::move(found));
  }
  Result<std::vector<game::Claim>> claims = claims_of(edit.changes, std::move(base));
  if (!claims) return refused_edit(edit.label, std::move(claims).why());
  if (edit.kind == Edit::Kind::passing) {
    Diagnostics found;
    const Texts now = parts_->with_waiting(parts_->read_for(*claims, found));
    Merged made = found.empty() ? merge(*claims, now) : Merged{};
    for (const Diagnostic& each : made.refused) found.push_back(each);
    if (!found.empty() || !made.collided.empty()) return refused_edit(edit.label, std::move(found));
    parts_->passing = std::move(made.texts);
    return {State::done, edit.label, {}};
  }
  const EditAnswer earlier = retry();
  if (earlier.state == State::waiting) {
    return parts_->keep({State::waiting, edit.label, earlier.found}, edit.group, std::move(*claims),
                        {});
  }
  return parts_->make(edit.label, edit.group, *claims, {});
}

EditAnswer Editor::undo() {
  parts_->passing.clear();
  for (auto each = parts_->journal->waiting().rbegin(); each != parts_->journal->waiting().rend();
       ++each) {
    if (each->has_conflict) continue;
    const Waiting dropped = *each;
    parts_->reasons.erase(dropped.number);
    parts_->journal->waits_no_more(dropped.number);
    return {State::done, dropped.label, {}};
  }
  if (parts_->journal->undo().empty()) return refused_edit("", {nothing_to("take back")});
  return parts_->go_back(Move::undo);
}

EditAnswer Editor::redo() {
  parts_->passing.clear();
  if (parts_->journal->redo().empty()) return refused_edit("", {nothing_to("make again")});
  return parts_->go_back(Move::redo);
}

std::optional<std::string> Editor::undo_label() const {
  const std::vector<Waiting>& waiting = parts_->journal->waiting();
  const auto last = std::find_if(waiting.rbegin(), waiting.rend(),
                                 [](const Waiting& each) { return !each.has_conflict; });
  if (last != waiting.rend()) return last->label;
  if (parts_->journal->undo().empty()) return std::nullopt;
  return parts_->journal->undo().back().label;
}

std::optional<std::string> Editor::redo_label() const {
  if (parts_->journal->redo().empty()) return std::nullopt;
  return parts_->journal->redo().back().label;
}

EditAnswer Editor::choose(const std::string& conflict, Keep keep) {
  const std::string number = conflict.substr(0, conflict.find('.'));
  for (const Waiting& each : parts_->journal->waiting()) {
    if (!each.has_conflict || std::to_string(each.number) != number) continue;
    Editor::Parts::Reason& reason = parts_->reasons[each.number];
    const auto chosen = std::find_if(reason.conflicts.begin(), reason.conflicts.end(),
                                     [&](const Conflict& one) { return one.id == conflict; });
    if (chosen == reason.conflicts.end()) break;
    const std::size_t claim = std::stoul(conflict.substr(number.size() + 1));
    reason.choices.resize(each.claims.size(), Choice::ask);
    reason.choices[claim] = keep == Keep::mine ? Choice::mine : Choice::theirs;
    reason.conflicts.erase(chosen);
    if (!reason.conflicts.empty()) return {State::conflict, each.label, {}};
    const Waiting whole = each;
    const std::vector<Choice> choices = reason.choices;
    parts_->reasons.erase(whole.number);
    EditAnswer answer = parts_->make(whole.label, whole.group, whole.claims, choices);
    parts_->journal->waits_no_more(whole.number);
    return answer;
  }
  return refused_edit("", {Diagnostic(Id::edit_unknown_conflict, {},
                                      "the choice between these two values was made already")});
}

std::vector<Conflict> Editor::conflicts() const {
  std::vector<Conflict> all;
  for (const auto& [number, reason] : parts_->reasons) {
    all.insert(all.end(), reason.conflicts.begin(), reason.conflicts.end());
  }
  return all;
}

EditAnswer Editor::retry() {
  const std::vector<Waiting> waiting = parts_->journal->waiting();
  EditAnswer last{State::done, "", {}};
  for (const Waiting& each : waiting) {
    const auto reason = parts_->reasons.find(each.number);
    const bool asked = reason != parts_->reasons.end() && !reason->second.conflicts.empty();
    if (asked) continue;
    // Kept anew when it still cannot be made: in the same order, since all that follow are too.
    if (last.state == State::waiting) {
      EditAnswer again =
          parts_->keep({State::waiting, each.label, last.found}, each.group, each.claims, {});
      again.label = last.label;
      last = std::move(again);
    } else {
      last = parts_->make(each.label, each.group, each.claims, {});
    }
    parts_->reasons.erase(each.number);
    parts_->journal->waits_no_more(each.number);
  }
  return last;
}

Diagnostics Editor::waiting() const {
  Diagnostics all;
  for (const Waiting& each : parts_->journal->waiting()) {
    if (each.has_conflict) continue;
    Diagnostic problem(Id::edit_waiting, {},
                       fmt::format("the change \"{}\" waits to be written", each.label));
    const auto reason = parts_->reasons.find(each.number);
    if (reason != parts_->reasons.end() && !reason->second.why.empty()) {
      const Diagnostic& why = reason->second.why.front();
      problem.origin = why.origin;
      problem.detail(why.message);
      for (const std::string& hint : why.hints) problem.hint(hint);
    }
    all.push_back(std::move(problem));
  }
  return all;
}

}  // namespace quoin::job
