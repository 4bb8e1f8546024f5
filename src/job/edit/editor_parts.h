#pragma once
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "job/edit/disk.h"
#include "job/edit/editor.h"
#include "job/edit/journal.h"
#include "job/edit/merge.h"

namespace quoin::job {

/// What an Editor holds. Each function does one thing with the disk, the journal and what is shown.
struct Editor::Parts {
  GameDisk disk;
  FolderLock lock;
  std::unique_ptr<Journal> journal;
  Texts known;    ///< as last read, so that views share what did not change
  Texts passing;  ///< laid over the texts while the mouse moves
  /// Of each waiting edit: why, its conflicts, and what was chosen for each claim.
  struct Reason {
    Diagnostics why;
    std::vector<Conflict> conflicts;
    std::vector<Choice> choices;
  };
  std::map<std::uint64_t, Reason> reasons;

  /// The text of a file as it is on the disk; null with the problem in `found` when it cannot be
  /// read.
  std::shared_ptr<const Bytes> read(const std::string& file, Diagnostics& found);
  /// Those of all files that the claims are for.
  Texts read_for(const std::vector<game::Claim>& claims, Diagnostics& found);
  /// All texts of the game as they are on the disk.
  Texts read_all();
  /// The texts with what waits to be written laid over them.
  Texts with_waiting(Texts texts) const;

  /// Makes claims in the newest texts and writes them down as a step.
  EditAnswer make(const std::string& label, const std::string& group,
                  const std::vector<game::Claim>& claims, const std::vector<Choice>& choices);
  /// Keeps an edit for later.
  EditAnswer keep(EditAnswer answer, const std::string& group, std::vector<game::Claim> claims,
                  std::vector<Conflict> conflicts);
  /// Journal first, then the files; all or none. `now` are the texts that the step was made for.
  EditAnswer commit(Move move, const Step& step, const std::vector<FileSplice>& writes,
                    const Texts& now);
  EditAnswer go_back(Move move);
  /// The last step with the one to be made joined to it; nothing when they do not belong together.
  std::optional<Step> joined_to_last(const Step& step, const Texts& now) const;
  void finish_cut_short(Diagnostics& found);
};

}  // namespace quoin::job
