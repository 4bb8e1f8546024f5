#pragma once
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "job/edit/disk.h"
#include "job/edit/step.h"

namespace quoin::job {

/// A step as it lies in the journal: read when it is asked for, so that a long day of changes does
/// not fill the memory.
struct KeptStep {
  std::uint64_t from = 0, size = 0;  ///< its line, in bytes
  std::string label, group;
};

/// An edit that is kept until it can be made, or until the maker chose.
struct Waiting {
  std::uint64_t number = 0;
  std::string label, group;
  std::vector<game::Claim> claims;
  bool has_conflict = false;  ///< waits for a choice, not for the disk
};

/// What a record does to the two piles of steps.
enum class Move { make, extend, undo, redo };

/// `.quoin/journal` in the game folder: what was changed, a line of JSON for each step, with all
/// that is needed to take it back. docs/decisions/changing-files.md has its form. Steps are on the
/// disk before a file is touched. Over `largest_journal` the oldest steps are dropped.
class Journal {
 public:
  static constexpr std::uint64_t largest_journal = 50'000'000;

  struct Opened;
  /// Reads the journal in the folder `.quoin`, or begins one. A last line that was not finished is
  /// cut off. One that cannot be understood is put aside as `journal-damaged`
  /// (`edit.journal-damaged`) and begun anew.
  ///
  /// Fails with `edit.journal-not-written`.
  [[nodiscard]] static Result<Opened> open(const std::string& quoin_folder,
                                           std::uint64_t largest = largest_journal);

  /// Writes down a step that is about to be made; it is not on the piles before `finish`. `writes`
  /// are the changes of the files, which for Move::extend are less than the whole step's.
  [[nodiscard]] quoin::Outcome begin(Move move, const Step& step,
                                     const std::vector<FileSplice>& writes);
  /// The files of the step that was begun are written.
  void finish();
  /// They are as they were.
  void give_up();

  [[nodiscard]] const std::vector<KeptStep>& undo() const { return undo_; }
  [[nodiscard]] const std::vector<KeptStep>& redo() const { return redo_; }
  /// Nothing when the line cannot be read any more.
  [[nodiscard]] std::optional<Step> step(const KeptStep& kept) const;
  /// Takes a step that cannot be made any more off its pile.
  void drop(Move pile);

  [[nodiscard]] const std::vector<Waiting>& waiting() const { return waiting_; }
  /// Keeps an edit for later, in memory also when the journal cannot be written. Gives its number.
  std::uint64_t wait(Waiting what);
  void waits_no_more(std::uint64_t number);

  /// The step that was begun and neither finished nor given up when the journal was opened: its
  /// changes of files.
  [[nodiscard]] const std::vector<FileSplice>& unfinished() const { return unfinished_; }

 private:
  struct Begun {
    Move move = Move::make;
    KeptStep step;
  };
  [[nodiscard]] int append(const std::string& line);
  void note(const std::string& line);
  [[nodiscard]] bool replay(const std::string& text);
  [[nodiscard]] bool replay_line(std::string_view line, std::uint64_t from);
  void put_on_pile(const Begun& begun);
  [[nodiscard]] quoin::Outcome reopen();
  void drop_oldest();
  [[nodiscard]] std::string line_of(const KeptStep& kept) const;

  std::string folder_, path_;
  std::uint64_t largest_ = largest_journal;
  OpenFile file_;
  std::uint64_t size_ = 0;
  std::uint64_t next_number_ = 1;
  std::vector<KeptStep> undo_, redo_;
  std::vector<Waiting> waiting_;
  std::optional<Begun> begun_;
  std::vector<FileSplice> unfinished_;
};

struct Journal::Opened {
  std::unique_ptr<Journal> journal;
  Diagnostics found;
};

}  // namespace quoin::job
