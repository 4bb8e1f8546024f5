#include "desk/events.h"

#include <fmt/format.h>

#include <algorithm>

namespace quoin::desk {

class Events::Stream : public EventStream {
 public:
  explicit Stream(std::shared_ptr<Hub> hub) : hub_(std::move(hub)) {
    const std::lock_guard lock(hub_->mutex);
    hub_->listeners.push_back(&waiting_);
  }
  ~Stream() override {
    const std::lock_guard lock(hub_->mutex);
    std::erase(hub_->listeners, &waiting_);
  }
  Stream(const Stream&) = delete;
  Stream& operator=(const Stream&) = delete;

  std::optional<std::string> next(std::chrono::milliseconds within) override {
    std::unique_lock lock(hub_->mutex);
    if (is_new_) {
      is_new_ = false;
      return "retry: 500\n\n";
    }
    hub_->more.wait_for(lock, within, [&] { return !waiting_.empty() || hub_->is_closed; });
    if (hub_->is_closed) return std::nullopt;
    std::string text;
    for (const Message& message : waiting_) {
      text += fmt::format("event: {}\ndata: {}\n\n", message.kind, message.data);
    }
    waiting_.clear();
    return text;
  }

 private:
  std::shared_ptr<Hub> hub_;
  std::deque<Message> waiting_;
  bool is_new_ = true;
};

void Events::tell(const std::string& kind, const std::string& subject, const std::string& data) {
  {
    const std::lock_guard lock(hub_->mutex);
    for (std::deque<Message>* waiting : hub_->listeners) {
      std::erase_if(*waiting, [&](const Message& earlier) {
        return earlier.kind == kind && earlier.subject == subject;
      });
      waiting->push_back({kind, subject, data});
    }
  }
  hub_->more.notify_all();
}

std::unique_ptr<EventStream> Events::listen() { return std::make_unique<Stream>(hub_); }

void Events::close() {
  {
    const std::lock_guard lock(hub_->mutex);
    hub_->is_closed = true;
  }
  hub_->more.notify_all();
}

}  // namespace quoin::desk
