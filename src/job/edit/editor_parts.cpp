#include "job/edit/editor_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "base/hash.h"
#include "game/sources.h"
#include "job/edit/step_json.h"

namespace quoin::job {
namespace {

using AnswerState = EditAnswer::State;

Diagnostic not_readable(const ReadAnswer& answer, const std::string& file) {
  const Id id = answer.failure == ReadFailure::missing     ? Id::game_missing_file
                : answer.failure == ReadFailure::too_large ? Id::game_too_large
                                                           : Id::game_unreadable_file;
  return Diagnostic(id, {FileName(file)}, explain(answer, file));
}

/// Problems of the files themselves: they may be mended, and then the change can be made.
bool may_pass(const Diagnostics& problems) {
  return std::any_of(problems.begin(), problems.end(), [](const Diagnostic& each) {
    return !facts(each.id).name.starts_with("edit.");
  });
}

std::vector<FileSplice> splices_of(const Texts& before, const Texts& after) {
  std::vector<FileSplice> splices;
  for (const auto& [file, text] : after) {
    splices.push_back(splice_between(file, *before.at(file), *text));
  }
  return splices;
}

std::vector<Conflict> conflicts_of(const Merged& merged, const std::vector<game::Claim>& claims,
                                   const std::string& label) {
  std::vector<Conflict> made;
  for (const Collided& each : merged.collided) {
    made.push_back({std::to_string(each.claim), label, game::file_of(claims[each.claim].change),
                    each.what.mine, each.what.theirs, each.what.place});
  }
  return made;
}

bool are_the_same(const std::shared_ptr<const Bytes>& a, const std::shared_ptr<const Bytes>& b) {
  return a && b && *a == *b;
}

}  // namespace

std::shared_ptr<const Bytes> Editor::Parts::read(const std::string& file, Diagnostics& found) {
  const ReadAnswer answer = disk.world().read(file, largest_file);
  if (!answer.ok()) {
    known.erase(file);
    found.push_back(not_readable(answer, file));
    return nullptr;
  }
  std::shared_ptr<const Bytes>& last = known[file];
  if (!are_the_same(last, answer.bytes)) last = answer.bytes;
  return last;
}

Texts Editor::Parts::read_for(const std::vector<game::Claim>& claims, Diagnostics& found) {
  Texts texts;
  for (const game::Claim& claim : claims) {
    const std::string& file = game::file_of(claim.change);
    if (texts.contains(file)) continue;
    if (auto text = read(file, found)) texts[file] = std::move(text);
  }
  return texts;
}

Texts Editor::Parts::read_all() {
  std::set<std::string> files;
  std::error_code failed;
  for (std::filesystem::directory_iterator it(disk.root(), failed), end; !failed && it != end;
       it.increment(failed)) {
    files.insert(it->path().filename().string());
  }
  for (std::string& each : disk.world().files_below("layouts")) files.insert(std::move(each));
  files.insert(game::sources_file);
  Texts texts;
  Diagnostics ignored;
  for (const std::string& file : files) {
    if (!may_be_changed(file)) continue;
    if (auto text = read(file, ignored)) texts[file] = std::move(text);
  }
  std::erase_if(known, [&](const auto& each) { return !texts.contains(each.first); });
  return texts;
}

Texts Editor::Parts::with_waiting(Texts texts) const {
  for (const Waiting& each : journal->waiting()) {
    if (each.has_conflict) continue;
    const bool readable =
        std::all_of(each.claims.begin(), each.claims.end(), [&](const game::Claim& claim) {
          const auto at = texts.find(game::file_of(claim.change));
          return at != texts.end() && at->second;
        });
    if (!readable) continue;
    Merged made = merge(each.claims, texts);
    if (!made.collided.empty() || !made.refused.empty()) continue;
    for (auto& [file, text] : made.texts) texts[file] = std::move(text);
  }
  return texts;
}

EditAnswer Editor::Parts::keep(EditAnswer answer, const std::string& group,
                               std::vector<game::Claim> claims, std::vector<Conflict> conflicts) {
  const std::uint64_t number =
      journal->wait({0, answer.label, group, std::move(claims), !conflicts.empty()});
  for (Conflict& each : conflicts) each.id = fmt::format("{}.{}", number, each.id);
  reasons[number] = {answer.found, std::move(conflicts), {}};
  return answer;
}

EditAnswer Editor::Parts::make(const std::string& label, const std::string& group,
                               const std::vector<game::Claim>& claims,
                               const std::vector<Choice>& choices) {
  constexpr int tries = 5;
  EditAnswer answer{AnswerState::waiting, label, {}};
  for (int i = 0; i < tries && answer.state == AnswerState::waiting; ++i) {
    answer.found.clear();
    const Texts now = read_for(claims, answer.found);
    if (!answer.found.empty()) break;
    Merged made = merge(claims, now, choices);
    if (!made.refused.empty()) {
      answer.found = std::move(made.refused);
      if (may_pass(answer.found)) break;
      answer.state = AnswerState::refused;
      return answer;
    }
    if (!made.collided.empty()) {
      answer.state = AnswerState::conflict;
      return keep(std::move(answer), group, claims, conflicts_of(made, claims, label));
    }
    if (made.texts.empty()) return {AnswerState::done, label, {}};
    const std::vector<FileSplice> writes = splices_of(now, made.texts);
    const Step step{label, group, writes, std::move(made.done), std::move(made.back)};
    const std::optional<Step> whole = joined_to_last(step, now);
    answer =
        whole ? commit(Move::extend, *whole, writes, now) : commit(Move::make, step, writes, now);
    if (!answer.found.empty()) break;
  }
  if (answer.state != AnswerState::waiting) return answer;
  // A choice that was made holds for the next try too; it is asked for again then.
  return keep(std::move(answer), group, claims, {});
}

std::optional<Step> Editor::Parts::joined_to_last(const Step& step, const Texts& now) const {
  const std::vector<KeptStep>& pile = journal->undo();
  if (step.group.empty() || pile.empty() || pile.back().group != step.group ||
      !journal->redo().empty()) {
    return std::nullopt;
  }
  std::optional<Step> last = journal->step(pile.back());
  if (!last) return std::nullopt;
  std::vector<FileSplice> whole = step.files;
  for (const FileSplice& earlier : last->files) {
    const auto text = now.find(earlier.file);
    const auto later = std::find_if(whole.begin(), whole.end(), [&](const FileSplice& each) {
      return each.file == earlier.file;
    });
    const std::optional<Bytes> first =
        text == now.end() ? std::nullopt : backward(earlier, *text->second);
    if (!first) return std::nullopt;
    if (later == whole.end()) {
      whole.push_back(earlier);
      continue;
    }
    const std::optional<Bytes> newest = forward(*later, *text->second);
    if (!newest) return std::nullopt;
    *later = splice_between(earlier.file, *first, *newest);
  }
  return joined(std::move(*last), step, std::move(whole));
}

/// `waiting` without a diagnostic: somebody wrote a file meanwhile, and it is to be made anew.
EditAnswer Editor::Parts::commit(Move move, const Step& step, const std::vector<FileSplice>& writes,
                                 const Texts& now) {
  EditAnswer answer{AnswerState::waiting, step.label, {}};
  if (quoin::Outcome begun = journal->begin(move, step, writes); !begun) {
    answer.found = std::move(begun).why();
    return answer;
  }
  Diagnostics unread;
  for (const FileSplice& each : writes) {
    const std::shared_ptr<const Bytes> text = read(each.file, unread);
    if (are_the_same(text, now.at(each.file))) continue;
    journal->give_up();
    return answer;
  }
  for (std::size_t i = 0; i < writes.size(); ++i) {
    const std::optional<Bytes> after = forward(writes[i], *now.at(writes[i].file));
    quoin::Outcome written =
        after ? disk.replace(writes[i].file, *after) : quoin::Outcome(Diagnostics{});
    if (written) {
      known[writes[i].file] = std::make_shared<const Bytes>(*after);
      continue;
    }
    answer.found = std::move(written).why();
    for (std::size_t earlier = 0; earlier < i; ++earlier) {
      quoin::Outcome restored = disk.replace(writes[earlier].file, *now.at(writes[earlier].file));
      if (!restored) answer.found.push_back(restored.why().front());
    }
    journal->give_up();
    return answer;
  }
  journal->finish();
  answer.state = AnswerState::done;
  return answer;
}

EditAnswer Editor::Parts::go_back(Move move) {
  const bool undoes = move == Move::undo;
  const KeptStep kept = undoes ? journal->undo().back() : journal->redo().back();
  const std::optional<Step> step = journal->step(kept);
  EditAnswer answer{AnswerState::refused, kept.label, {}};
  if (!step) {
    answer.found.push_back(Diagnostic(Id::edit_journal_damaged, {},
                                      "this change cannot be read from the journal any more"));
    journal->drop(move);
    return answer;
  }
  Texts now = read_for(step->back, answer.found);
  if (!answer.found.empty()) return answer;
  Texts earlier;
  for (const FileSplice& each : step->files) {
    const auto text = now.find(each.file);
    std::optional<Bytes> before = text == now.end() ? std::nullopt : backward(each, *text->second);
    if (before) earlier[each.file] = std::make_shared<const Bytes>(std::move(*before));
  }
  Step back{step->label, step->group, {}, step->back, step->done};
  Diagnostics kept_values;
  if (earlier.size() != step->files.size()) {
    Merged made = merge(step->back, now);
    earlier = std::move(made.texts);
    back.done = std::move(made.done);
    back.back = std::move(made.back);
    kept_values = std::move(made.refused);
    for (const Collided& each : made.collided) {
      kept_values.push_back(
          Diagnostic(Id::edit_both_changed, each.what.place,
                     "this value was changed elsewhere since then and stays as it is"));
    }
  }
  back.files = splices_of(now, earlier);
  if (may_pass(kept_values)) {
    answer.found = std::move(kept_values);
    return answer;
  }
  if (earlier.empty()) {
    journal->drop(move);
    return {AnswerState::done, step->label, std::move(kept_values)};
  }
  answer = commit(move, back, back.files, now);
  if (answer.state == AnswerState::waiting) answer.state = AnswerState::refused;
  for (Diagnostic& each : kept_values) answer.found.push_back(std::move(each));
  return answer;
}

void Editor::Parts::finish_cut_short(Diagnostics& found) {
  const std::vector<FileSplice> unfinished = journal->unfinished();
  if (unfinished.empty()) {
    journal->give_up();
    return;
  }
  Texts after;
  std::vector<std::string> foreign, late;
  for (const FileSplice& each : unfinished) {
    disk.clear_leftover(each.file);
    Diagnostics ignored;
    const auto text = read(each.file, ignored);
    std::optional<Bytes> made = text ? forward(each, *text) : std::nullopt;
    if (text && sha256(*text) == each.after) continue;
    late.push_back(each.file);
    if (made)
      after[each.file] = std::make_shared<const Bytes>(std::move(*made));
    else
      foreign.push_back(each.file);
  }
  for (const auto& [file, text] : after) {
    if (!foreign.empty()) break;
    if (quoin::Outcome written = disk.replace(file, *text); !written) {
      found.push_back(written.why().front());
      foreign.push_back(file);
    }
  }
  if (!foreign.empty()) {
    Diagnostic problem(Id::edit_cut_short, {FileName(foreign.front())},
                       fmt::format("a change was cut short, and {} is not as it was then",
                                   fmt::join(foreign, ", ")));
    found.push_back(
        problem.hint("look at the files, and make the change again where it is missing"));
    journal->give_up();
    return;
  }
  journal->finish();
  if (late.empty()) return;
  found.push_back(Diagnostic(
      Id::edit_finished, {FileName(late.front())},
      fmt::format("a change that was cut short is now written to {}", fmt::join(late, ", "))));
}

}  // namespace quoin::job
