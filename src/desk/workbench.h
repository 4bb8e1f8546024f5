#pragma once
#include <atomic>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <variant>

#include "desk/api/json.h"
#include "desk/events.h"
#include "desk/http/guard.h"
#include "job/job.h"
#include "job/share/share.h"

namespace quoin::desk {

/// Makes packs of one game folder, one at a time, on a thread of its own, and tells the pages how
/// far it is.
class Workbench {
 public:
  Workbench(std::string folder, std::string cache_folder, std::string printers_folder,
            Events& events);
  /// Stops what is going on; the earlier pack is whole.
  ~Workbench();
  Workbench(const Workbench&) = delete;
  Workbench& operator=(const Workbench&) = delete;

  /// Begins; the id of the work, or why not (409 while another pack is being made, 422 for parts
  /// that there are not). `asked` is a MakeRequest. With ids in `only` the pack is a reprint.
  [[nodiscard]] std::variant<std::string, Refusal> make(const Json& asked);
  /// Begins to give the game to others, into its folder `share`; the same answers. `asked` is a
  /// ShareRequest.
  [[nodiscard]] std::variant<std::string, Refusal> share(const Json& asked);
  /// Stops that work; false when it is not going on.
  [[nodiscard]] bool stop(const std::string& id);

 private:
  class Reporter;
  /// How a work ended.
  struct Ended {
    std::string state = "failed", words;
  };
  using Work = std::function<Ended(job::Watcher&, const std::stop_token&)>;
  [[nodiscard]] std::variant<std::string, Refusal> begin(const char* kind, const std::string& what,
                                                         Work work);
  void run(const std::stop_token& stop, const std::string& id, const std::string& what,
           const Work& work);
  [[nodiscard]] Ended make_pack(const job::Wishes& wishes, job::Watcher& watcher,
                                const std::stop_token& stop) const;
  [[nodiscard]] Ended share_game(const job::ShareWishes& wishes, job::Watcher& watcher,
                                 const std::stop_token& stop) const;

  const std::string folder_, cache_folder_, printers_folder_;
  Events& events_;
  std::mutex mutex_;
  int count_ = 0;
  std::string id_;  // of what is going on, or ""
  std::jthread thread_;
};

/// Pack: what Quoin made in a game folder, by the reports of the pack and of the reprint.
[[nodiscard]] Json pack_view(const std::string& game_folder);

/// A file of the pack or of the reprint, or one of their folders ("" for its name).
struct PackPlace {
  std::string folder, name;
};
/// Where the file lies that Pack or ShareMade calls so; for "" the pack's folder. Nothing when no
/// report lists it, or there is no pack.
[[nodiscard]] std::optional<PackPlace> place_in_pack(const std::string& game_folder,
                                                     const std::string& name);

}  // namespace quoin::desk
