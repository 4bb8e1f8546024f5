#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace quoin::desk {

/// What came back, taken apart; status 0 when nothing did.
struct Reply {
  int status = 0;
  std::string head;  ///< with the status line
  std::string body;  ///< pieces of a chunked body are put together
  [[nodiscard]] std::string header(std::string_view name) const;
};

/// A plain socket to a port of this machine, for tests that send what no library would.
class RawClient {
 public:
  explicit RawClient(int port);
  ~RawClient();
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;

  [[nodiscard]] bool is_connected() const { return socket_ >= 0; }
  /// False when the other side takes no more.
  bool send(std::string_view bytes);
  /// No more will be sent; what comes can still be read.
  void close_sending();
  /// One answer; waits `milliseconds` at most for each part.
  [[nodiscard]] Reply receive(int milliseconds = 5000);
  /// Whatever comes next; "" when nothing does, or the other side closed.
  [[nodiscard]] std::string receive_some(int milliseconds = 5000);
  /// Whether the other side closes within the time.
  [[nodiscard]] bool is_closed_within(int milliseconds);

 private:
  int socket_ = -1;
  std::string waiting_;
};

}  // namespace quoin::desk
