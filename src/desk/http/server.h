#pragma once
#include <chrono>
#include <functional>
#include <memory>
#include <string>

#include "desk/http/exchange.h"

namespace quoin::desk {

/// What a server of one maker's page puts up with. Sizes in bytes.
struct ServerLimits {
  std::size_t most_connections = 64;  ///< a browser opens 6, and one for each window's events
  std::size_t most_streams = 16;
  std::size_t largest_head = 32'768;
  std::chrono::milliseconds head_within{5'000};   ///< from its first byte to its end
  std::chrono::milliseconds body_within{60'000};  ///< the same for a body
  std::chrono::milliseconds idle{15'000};         ///< between two requests
  std::chrono::milliseconds write_within{5'000};  ///< for a reader that takes nothing
};

/// HTTP/1.1 on the loopback, for one page. Every request is looked at by `refused` first; the
/// rest goes to `respond`, which is called from several threads at once. What `respond` throws is
/// answered with 500 and ends nothing.
///
/// Each connection has a thread of its own while it is open, `most_connections` at most; one more
/// is told so and closed at once, so no connection waits for another. A head or a body that does
/// not arrive in time, however slowly it trickles, ends its connection, as does a reader that
/// takes nothing. Event streams over `most_streams` are answered with 503.
class Server {
 public:
  using Respond = std::function<Answer(const Asked&)>;

  /// Takes `port` of 127.0.0.1, a free one for 0. Null when it cannot be had.
  [[nodiscard]] static std::unique_ptr<Server> open(int port, std::string token, Respond respond,
                                                    const ServerLimits& limits);
  /// Ends every connection, waits for what is being answered.
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  [[nodiscard]] const Identity& identity() const;

 private:
  struct State;
  explicit Server(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace quoin::desk
