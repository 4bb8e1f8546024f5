#pragma once
#include <condition_variable>
#include <deque>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "desk/http/exchange.h"

namespace quoin::desk {

/// Tells every open page what happens. A page that does not keep up gets the newest of each kind.
class Events {
 public:
  /// `event: KIND` with one line of data; an earlier one of that kind with the same `subject` that
  /// was not sent yet is dropped.
  void tell(const std::string& kind, const std::string& subject, const std::string& data);
  [[nodiscard]] std::unique_ptr<EventStream> listen();
  /// Ends all streams.
  void close();

 private:
  struct Message {
    std::string kind, subject, data;
  };
  struct Hub {
    std::mutex mutex;
    std::condition_variable more;
    std::vector<std::deque<Message>*> listeners;
    bool is_closed = false;
  };
  class Stream;
  std::shared_ptr<Hub> hub_ = std::make_shared<Hub>();
};

}  // namespace quoin::desk
