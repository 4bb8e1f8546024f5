#include "desk/http/callers.h"

#include <system_error>

namespace quoin::desk {
namespace {

thread_local bool on_the_doorstep = false;

}  // namespace

bool Callers::is_turned_away() { return on_the_doorstep; }

std::size_t Callers::open() const {
  const std::lock_guard lock(mutex_);
  return busy_;
}

void Callers::start(Desk desk) {
  try {
    threads_.emplace_back([this, desk] { work(desk); });
    if (desk == Desk::served) ++served_threads_;
    if (desk == Desk::turned_away) has_doorkeeper_ = true;
  } catch (const std::system_error&) {  // the machine has no thread left: those there are serve on
  }
}

void Callers::enqueue(std::function<void()> connection) {
  {
    const std::lock_guard lock(mutex_);
    if (!has_doorkeeper_) start(Desk::turned_away);
    const bool is_full = busy_ + waiting_.size() >= most_;
    if (!is_full && busy_ + waiting_.size() >= served_threads_) start(Desk::served);
    (is_full ? turned_away_ : waiting_).push_back(std::move(connection));
  }
  more_.notify_all();
}

void Callers::work(Desk desk) {
  on_the_doorstep = desk == Desk::turned_away;
  std::deque<std::function<void()>>& queue = on_the_doorstep ? turned_away_ : waiting_;
  std::unique_lock lock(mutex_);
  for (;;) {
    more_.wait(lock, [&] { return !queue.empty() || is_closing_; });
    if (queue.empty()) return;
    const std::function<void()> connection = std::move(queue.front());
    queue.pop_front();
    if (!on_the_doorstep) ++busy_;
    lock.unlock();
    connection();
    lock.lock();
    if (!on_the_doorstep) --busy_;
  }
}

void Callers::shutdown() {
  {
    const std::lock_guard lock(mutex_);
    is_closing_ = true;
  }
  more_.notify_all();
  for (std::thread& thread : threads_) thread.join();
  threads_.clear();
}

}  // namespace quoin::desk
