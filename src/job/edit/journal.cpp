#include "job/edit/journal.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <nlohmann/json.hpp>

#include "job/edit/step_json.h"

namespace quoin::job {
namespace {

using nlohmann::json;

std::string line_from(const json& record) {
  return record.dump(-1, ' ', false, json::error_handler_t::replace) + "\n";
}

std::string first_line() { return line_from({{"journal", 1}}); }

Diagnostic journal_not_written(int why) {
  return Diagnostic(Id::edit_journal_not_written, {},
                    fmt::format("cannot write .quoin/journal: {}", std::strerror(why)))
      .detail("without it the change could not be taken back after a stop")
      .hint("make room on the disk, or give yourself the right to write in the game folder");
}

std::string read_whole(int descriptor) {
  std::string text;
  std::string buffer(1 << 16, '\0');
  for (;;) {
    const ssize_t n = ::read(descriptor, buffer.data(), buffer.size());
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return text;
    text.append(buffer, 0, static_cast<std::size_t>(n));
  }
}

OpenFile open_journal(const std::string& path) {
  return OpenFile(::open(path.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC | O_NOFOLLOW, 0666));
}

json waiting_json(const Waiting& what) {
  return {{"wait", what.number},
          {"label", what.label},
          {"group", what.group},
          {"conflict", what.has_conflict},
          {"claims", to_json(what.claims)}};
}

}  // namespace

Result<Journal::Opened> Journal::open(const std::string& quoin_folder, std::uint64_t largest) {
  Opened opened{std::unique_ptr<Journal>(new Journal), {}};
  Journal& journal = *opened.journal;
  journal.folder_ = quoin_folder;
  journal.path_ = quoin_folder + "/journal";
  journal.largest_ = largest;
  if (quoin::Outcome ready = journal.reopen(); !ready) return std::move(ready).why();
  std::string text = read_whole(journal.file_.descriptor());
  const std::size_t whole = text.rfind('\n') == std::string::npos ? 0 : text.rfind('\n') + 1;
  if (whole < text.size() &&
      ::ftruncate(journal.file_.descriptor(), static_cast<off_t>(whole)) != 0) {
    return journal_not_written(errno);
  }
  text.resize(whole);
  if (!journal.replay(text)) {
    const std::string aside = journal.path_ + "-damaged";
    if (std::rename(journal.path_.c_str(), aside.c_str()) != 0) return journal_not_written(errno);
    Result<Opened> fresh = open(quoin_folder, largest);
    if (!fresh) return fresh;
    Diagnostic problem(Id::edit_journal_damaged, {},
                       "the journal of changes cannot be read, so earlier changes cannot be taken "
                       "back");
    fresh->found.push_back(problem.detail("it is kept as .quoin/journal-damaged"));
    return fresh;
  }
  journal.size_ = whole;
  if (whole > 0) return opened;
  if (const int why = journal.append(first_line()); why != 0) return journal_not_written(why);
  return opened;
}

quoin::Outcome Journal::reopen() {
  file_ = open_journal(path_);
  if (!file_.is_open()) return journal_not_written(errno);
  return Done{};
}

bool Journal::replay(const std::string& text) {
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t end = text.find('\n', from);
    if (!replay_line(std::string_view(text).substr(from, end - from), from)) return false;
    from = end + 1;
  }
  if (!begun_) unfinished_.clear();
  return true;
}

bool Journal::replay_line(std::string_view line, std::uint64_t from) {
  const json record = json::parse(line, nullptr, false);
  if (!record.is_object()) return false;
  if (from == 0) return record.contains("journal") && record["journal"] == 1;
  const bool begins = record.contains("begin");
  if (begins || record.contains("pile")) {
    const json& move = record[begins ? "begin" : "pile"];
    const auto step = record.contains("step") ? step_from(record["step"]) : std::nullopt;
    if (!step || !move.is_number_integer() || move < 0 || move > 3) return false;
    begun_ =
        Begun{static_cast<Move>(move.get<int>()), {from, line.size(), step->label, step->group}};
    if (!begins) {
      (move == static_cast<int>(Move::undo) ? redo_ : undo_).push_back(begun_->step);
      begun_.reset();
      return true;
    }
    const auto writes = splices_from(record.value("writes", json::array()));
    if (!writes) return false;
    unfinished_ = record.contains("writes") ? *writes : step->files;
    return true;
  }
  if (record.contains("finish") && begun_) put_on_pile(*begun_);
  if (record.contains("finish") || record.contains("give-up")) begun_.reset();
  if (record.contains("drop") && record["drop"].is_number_integer()) {
    std::vector<KeptStep>& pile = record["drop"] == static_cast<int>(Move::redo) ? redo_ : undo_;
    if (!pile.empty()) pile.pop_back();
  }
  const json number = record.value("wait", record.value("waits-no-more", json(0U)));
  if (!number.is_number_unsigned()) return false;
  next_number_ = std::max(next_number_, number.get<std::uint64_t>() + 1);
  if (record.contains("waits-no-more")) {
    std::erase_if(waiting_, [&](const Waiting& each) { return each.number == number; });
  }
  if (!record.contains("wait")) return true;
  const auto claims = claims_from(record.value("claims", json()));
  const bool sound = claims && record.value("label", json()).is_string() &&
                     record.value("group", json()).is_string() &&
                     record.value("conflict", json()).is_boolean();
  if (!sound) return false;
  waiting_.push_back({number.get<std::uint64_t>(), record["label"].get<std::string>(),
                      record["group"].get<std::string>(), *claims, record["conflict"].get<bool>()});
  return true;
}

void Journal::put_on_pile(const Begun& begun) {
  const bool undoes = begun.move == Move::undo;
  if (undoes && !undo_.empty()) undo_.pop_back();
  if (begun.move == Move::redo && !redo_.empty()) redo_.pop_back();
  if (begun.move == Move::extend && !undo_.empty()) undo_.pop_back();
  if (begun.move == Move::make || begun.move == Move::extend) redo_.clear();
  (undoes ? redo_ : undo_).push_back(begun.step);
}

/// 0, or why not; then nothing of the line is in the file.
int Journal::append(const std::string& line) {
  int why = file_.is_open() ? write_all(file_.descriptor(), line) : EBADF;
  if (why == 0 && ::fdatasync(file_.descriptor()) != 0) why = errno;
  if (why == 0) {
    size_ += line.size();
  } else if (file_.is_open() && ::ftruncate(file_.descriptor(), static_cast<off_t>(size_)) != 0) {
    file_ = OpenFile();
  }
  return why;
}

/// Something that is true also when the journal does not say it: it need not wait for the disk.
void Journal::note(const std::string& line) {
  if (!file_.is_open()) return;
  if (write_all(file_.descriptor(), line) == 0)
    size_ += line.size();
  else if (::ftruncate(file_.descriptor(), static_cast<off_t>(size_)) != 0)
    file_ = OpenFile();
}

quoin::Outcome Journal::begin(Move move, const Step& step, const std::vector<FileSplice>& writes) {
  if (!file_.is_open()) {
    if (quoin::Outcome ready = reopen(); !ready) return ready;
  }
  if (size_ > largest_) drop_oldest();
  json record{{"begin", static_cast<int>(move)}, {"step", to_json(step)}};
  if (move == Move::extend) record["writes"] = to_json(writes);
  const std::string line = line_from(record);
  const KeptStep kept{size_, line.size() - 1, step.label, step.group};
  if (const int why = append(line); why != 0) return journal_not_written(why);
  begun_ = Begun{move, kept};
  return Done{};
}

void Journal::finish() {
  if (!begun_) return;
  note(line_from({{"finish", true}}));
  put_on_pile(*std::exchange(begun_, std::nullopt));
  unfinished_.clear();
}

void Journal::give_up() {
  if (!begun_) return;
  note(line_from({{"give-up", true}}));
  begun_.reset();
  unfinished_.clear();
}

std::string Journal::line_of(const KeptStep& kept) const {
  std::string line(kept.size, '\0');
  const ssize_t got =
      ::pread(file_.descriptor(), line.data(), line.size(), static_cast<off_t>(kept.from));
  return got == static_cast<ssize_t>(line.size()) ? line : std::string{};
}

std::optional<Step> Journal::step(const KeptStep& kept) const {
  const json record = json::parse(line_of(kept), nullptr, false);
  if (!record.is_object() || !record.contains("step")) return std::nullopt;
  return step_from(record["step"]);
}

void Journal::drop(Move pile) {
  std::vector<KeptStep>& steps = pile == Move::redo ? redo_ : undo_;
  if (steps.empty()) return;
  steps.pop_back();
  note(line_from({{"drop", static_cast<int>(pile)}}));
}

std::uint64_t Journal::wait(Waiting what) {
  what.number = next_number_++;
  waiting_.push_back(std::move(what));
  (void)append(line_from(waiting_json(waiting_.back())));
  return waiting_.back().number;
}

void Journal::waits_no_more(std::uint64_t number) {
  std::erase_if(waiting_, [&](const Waiting& each) { return each.number == number; });
  note(line_from({{"waits-no-more", number}}));
}

/// Writes a journal of the newest steps and all that waits, half as large as it may be.
void Journal::drop_oldest() {
  std::string text = first_line();
  std::vector<KeptStep> undo, redo;
  const auto keep = [&](const KeptStep& step, Move pile, std::vector<KeptStep>& into) {
    json record = json::parse(line_of(step), nullptr, false);
    if (!record.is_object() || !record.contains("step")) return;
    const std::string line =
        line_from({{"pile", static_cast<int>(pile)}, {"step", std::move(record["step"])}});
    into.push_back({text.size(), line.size() - 1, step.label, step.group});
    text += line;
  };
  std::size_t first = undo_.size();
  for (std::uint64_t size = 0; first > 0; --first) {
    size += undo_[first - 1].size;
    if (size > largest_ / 2 && first < undo_.size()) break;
  }
  for (std::size_t i = first; i < undo_.size(); ++i) keep(undo_[i], Move::redo, undo);
  for (const KeptStep& step : redo_) keep(step, Move::undo, redo);
  for (const Waiting& each : waiting_) text += line_from(waiting_json(each));
  const std::string part = path_ + "-new";
  {
    OpenFile file(
        ::open(part.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0666));
    const bool written = file.is_open() && write_all(file.descriptor(), text) == 0 &&
                         ::fsync(file.descriptor()) == 0;
    if (!written || std::rename(part.c_str(), path_.c_str()) != 0) {
      ::unlink(part.c_str());
      return;  // the long journal is as good as ever
    }
  }
  undo_ = std::move(undo);
  redo_ = std::move(redo);
  size_ = text.size();
  file_ = open_journal(path_);
}

}  // namespace quoin::job
