#pragma once
#include <chrono>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/world.h"
#include "desk/http/guard.h"

namespace quoin::desk {

/// A request that was let in.
struct Asked {
  std::string method;                                     ///< GET or POST; HEAD comes as GET
  std::string path;                                       ///< decoded, begins with '/'
  std::map<std::string, std::string, std::less<>> query;  ///< decoded; the first of each name
  Bytes body;
  std::string known_tag;      ///< If-None-Match
  bool accepts_gzip = false;  ///< Accept-Encoding names gzip

  [[nodiscard]] std::string value(std::string_view name) const;
};

/// Messages to one page, as they come. Ended by destroying it.
class EventStream {
 public:
  virtual ~EventStream() = default;
  /// The next messages in the form of text/event-stream; "" when `within` went by without one;
  /// nothing when there will be no more.
  [[nodiscard]] virtual std::optional<std::string> next(std::chrono::milliseconds within) = 0;
};

/// What is sent back.
struct Answer {
  int status = 200;
  std::string type = "application/json";
  std::shared_ptr<const Bytes> bytes;  ///< may be null: no body
  std::string_view fixed;              ///< instead of `bytes`: lives as long as the program
  std::vector<std::pair<std::string, std::string>> headers;
  std::unique_ptr<EventStream> events;  ///< instead of a body
};

[[nodiscard]] Answer text_answer(std::string type, Bytes bytes, int status = 200);
[[nodiscard]] Answer refusal_answer(const Refusal& refusal);

}  // namespace quoin::desk
