#pragma once
#include <httplib.h>

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace quoin::desk {

/// Threads for connections: one for each that is open, made when it is needed and kept for later
/// ones, `most` at a time. One over that is run at once on a thread that is there for nothing
/// else, with `is_turned_away` true, so that it can be told and closed.
class Callers : public httplib::TaskQueue {
 public:
  explicit Callers(std::size_t most) : most_(most) {}

  void enqueue(std::function<void()> connection) override;
  /// Waits for all connections to end.
  void shutdown() override;

  [[nodiscard]] static bool is_turned_away();
  /// How many connections are open.
  [[nodiscard]] std::size_t open() const;

 private:
  enum class Desk { served, turned_away };
  void work(Desk desk);
  void start(Desk desk);

  const std::size_t most_;
  mutable std::mutex mutex_;
  std::condition_variable more_;
  std::deque<std::function<void()>> waiting_, turned_away_;
  std::vector<std::thread> threads_;
  std::size_t served_threads_ = 0, busy_ = 0;
  bool has_doorkeeper_ = false, is_closing_ = false;
};

}  // namespace quoin::desk
