#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/overlay_world.h"
#include "base/result.h"
#include "game/edit/change.h"

namespace quoin::job {

/// The game as it was at one moment: its texts (TOML, the card lists and Markdown, also those not
/// yet written to the disk) held in memory, everything else read from the disk. Never changes. The
/// desk checks and draws from it, and hands it back as what the maker had in view when a change was
/// asked for.
struct View {
  std::shared_ptr<const OverlayWorld> world;  ///< what is shown, passing changes among it
  Texts kept;                                 ///< the same texts without passing changes
};

/// What a maker does in one go: all of it is done, or nothing.
struct Edit {
  enum class Kind {
    kept,    ///< written to the disk, can be taken back
    passing  ///< while the mouse moves: shown only; the next edit of either kind replaces it
  };
  std::string label;       ///< "move the name"
  std::string group = {};  ///< edits in a row with one group are one step to take back
  Kind kind = Kind::kept;
  std::vector<game::Change> changes;
};

/// A value that was changed here and elsewhere; the maker chooses.
struct Conflict {
  std::string id;
  std::string label, file;
  std::string mine, theirs;  ///< as they stand in a file; "" for nothing there
  Origin place;              ///< of theirs
};

enum class Keep { mine, theirs };

/// What became of an edit.
struct EditAnswer {
  enum class State {
    done,      ///< in the files (a passing one: in the view)
    conflict,  ///< waits for the maker's choice; see Editor::conflicts
    waiting,   ///< could not be written now; `found` says why, Editor::retry tries again
    refused    ///< cannot be done at all; `found` says why, nothing is kept
  };
  State state = State::done;
  std::string label;  ///< of what was done, taken back or made again
  Diagnostics found;
};

/// Changes the files of one game folder a value at a time, and takes changes back, also after the
/// program was stopped. For one thread at a time; views may be read from any.
///
/// A change made in view of an older text is made in the newest one when nothing else touched its
/// value, else it becomes a conflict. Files are written whole or not at all; nothing outside the
/// game folder is ever written; links inside it are followed. Every step is in the journal
/// `.quoin/journal` before a file is touched.
class Editor {
 public:
  struct Opened;
  /// Opens the folder, finishing a change that was cut short.
  ///
  /// Fails with `edit.open-elsewhere` and `edit.journal-not-written`. What is found on the way
  /// (`edit.finished`, `edit.cut-short`, `edit.journal-damaged`) is in Opened.
  [[nodiscard]] static Result<Opened> open(const std::string& folder);
  ~Editor();
  Editor(const Editor&) = delete;
  Editor& operator=(const Editor&) = delete;

  /// The game as it stands now. Texts that did not change are shared with the last view.
  [[nodiscard]] View look();

  /// `seen` is what the maker had in view.
  ///
  /// `found` has what game::claim and game::edit find; for what waits `edit.not-written`,
  /// `edit.read-only`, `edit.outside-the-game`, `edit.journal-not-written`.
  [[nodiscard]] EditAnswer apply(const View& seen, Edit edit);

  /// Takes back the newest step, those that wait to be written first. Values that were changed
  /// elsewhere since then stay as they are, and `edit.both-changed` or `edit.place-gone` says so.
  /// `edit.nothing-to-undo` when there is none.
  [[nodiscard]] EditAnswer undo();
  [[nodiscard]] EditAnswer redo();
  /// The label of what `undo` would take back and `redo` make again.
  [[nodiscard]] std::optional<std::string> undo_label() const;
  [[nodiscard]] std::optional<std::string> redo_label() const;

  /// Once the last value of an edit is chosen, the edit is done with those chosen to be mine.
  [[nodiscard]] EditAnswer choose(const std::string& conflict, Keep keep);
  [[nodiscard]] std::vector<Conflict> conflicts() const;

  /// Tries again to write what waits: after the disk has room, the file can be read again.
  [[nodiscard]] EditAnswer retry();
  /// `edit.waiting` for each edit that waits, with why.
  [[nodiscard]] Diagnostics waiting() const;

 private:
  struct Parts;
  explicit Editor(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

struct Editor::Opened {
  std::unique_ptr<Editor> editor;
  Diagnostics found;
};

}  // namespace quoin::job
