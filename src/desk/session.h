#pragma once
#include <atomic>
#include <condition_variable>
#include <deque>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

#include "desk/changes.h"
#include "desk/easel.h"
#include "desk/events.h"
#include "desk/faces.h"
#include "desk/folder_watch.h"
#include "desk/printer_bench.h"
#include "game/game.h"
#include "job/job.h"
#include "job/workshop.h"

namespace quoin::desk {

/// What the checks found of the game at one moment, with the sheets and the box laid and folded.
struct Checkup {
  job::Outcome outcome;
  job::DrawingList printed;  ///< the drawings that the plan's numbers mean
};

/// The game at one moment. Never changes once it is shown.
struct Snapshot {
  enum class StateOf {
    game,       ///< there is something to see
    empty,      ///< no game in the folder yet
    unreadable  ///< the game's files give no card at all
  };
  std::uint64_t revision = 0;
  StateOf state_of = StateOf::empty;
  Sight sight;
  game::Game game;
  Diagnostics found_reading;  ///< what reading alone found
  std::shared_ptr<const Materials> materials;
  Faces faces;
  std::shared_ptr<const Checkup> checkup;  ///< of this moment, or of the last one that was checked
  bool is_checked = false;                 ///< whether `checkup` is of this moment
  std::optional<std::string> undo, redo;
  std::vector<OpenConflict> conflicts;
  Diagnostics found_changing;
};

/// One game folder while it is open on the desk: reads it, watches it, and shows it anew when
/// something changed, in two steps: first how the cards look, then what the checks say. The newest
/// change wins: checks of an older moment are stopped. Functions may be called from any thread.
class Session {
 public:
  /// `cache_folder` is for what is kept between runs, `printers_folder` holds the printers of this
  /// machine; "" for nothing.
  Session(std::string folder, std::string cache_folder, std::string printers_folder);
  ~Session();
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;

  [[nodiscard]] const std::string& folder() const { return folder_; }
  [[nodiscard]] const std::string& cache_folder() const { return cache_folder_; }
  [[nodiscard]] const std::string& printers_folder() const { return printers_folder_; }
  [[nodiscard]] PrinterBench& printer_bench() { return printer_bench_; }
  /// The newest moment; waits for the first.
  [[nodiscard]] std::shared_ptr<const Snapshot> now() const;
  /// The newest moment that was checked; waits while a check is going on. For what needs sheets and
  /// box of just what is shown.
  [[nodiscard]] std::shared_ptr<const Snapshot> checked() const;
  [[nodiscard]] Events& events() { return events_; }
  [[nodiscard]] Easel& easel() { return easel_; }

  /// What became of a change, and the revision that shows it.
  struct Answered {
    Changed changed;
    std::shared_ptr<const Snapshot> shown;
  };
  /// Changes the files as the page asks, and shows the game as it is then before it answers.
  [[nodiscard]] Answered edit(std::uint64_t base, const Json& asked);
  /// The same for changes that the desk worked out in view of that revision.
  [[nodiscard]] Answered put(std::uint64_t base, const std::string& label,
                             const std::vector<game::Change>& changes);
  [[nodiscard]] Answered undo();
  [[nodiscard]] Answered redo();
  [[nodiscard]] Answered choose(const std::string& conflict, const std::string& keep);

  /// Something that the folder's watch does not see has changed, such as a printer of this machine:
  /// all is read and checked anew. The moment that shows it.
  [[nodiscard]] std::shared_ptr<const Snapshot> look_again();

  /// The folder was made anew: everything is read again, as if it had just been opened.
  void reopen();

  /// Nobody waits for checks any more: the desk is being closed.
  void close();

  /// Remembers how a face was asked for, to draw it so ahead of the page when it changes.
  void was_asked(const std::string& key, int width);

 private:
  /// What changed in the folder is read on a thread of its own, so that it never waits for checks.
  void read_changes(const std::stop_token& stop);
  void check_changes(const std::stop_token& stop);
  void mark_dirty();
  /// While the mouse moves, each picture drawn ahead would be of yesterday before it is asked for,
  /// and hold up the one that is.
  enum class Drawing { ahead, when_asked };
  /// Reads and shows; `work_mutex_` is held.
  void read(Drawing drawing);
  /// Opens the folder for changing anew; what was seen before is no basis for changes any more.
  void begin_changing();
  void check(const std::stop_token& stop);
  void show(std::shared_ptr<Snapshot> next);
  /// Keeps what was shown as what changes may be asked for in view of.
  void remember(const Snapshot& shown);
  /// What was seen then, or null when it is too long ago; `work_mutex_` is held.
  [[nodiscard]] const Sight* sight_at(std::uint64_t revision) const;
  void draw_ahead(const Snapshot& before, const std::shared_ptr<const Snapshot>& after);
  template <typename Do>
  [[nodiscard]] Answered change(const Do& what, Drawing drawing = Drawing::ahead);

  const std::string folder_, cache_folder_, printers_folder_;
  Events events_;
  Easel easel_;
  PrinterBench printer_bench_;

  std::mutex work_mutex_;  // files, faces and what is shown change under it
  std::unique_ptr<Changes> changes_;
  FaceMaker face_maker_;
  FolderNames names_;  // of what was read last
  std::deque<std::pair<std::uint64_t, Sight>> seen_;
  std::size_t bytes_in_sight_ = 0;  // of all in `seen_`

  mutable std::mutex mutex_;  // of all below
  mutable std::condition_variable_any more_;
  std::shared_ptr<const Snapshot> now_;
  std::map<std::string, int> widths_;
  bool is_dirty_ = false, must_check_ = false, is_closing_ = false;
  std::atomic<std::uint64_t> newest_ = 0;  // revision

  std::unique_ptr<FolderWatch> watch_;
  std::jthread reader_, checker_;
};

}  // namespace quoin::desk
