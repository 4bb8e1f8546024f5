#pragma once
#include <httplib.h>

#include <array>
#include <optional>

#include "desk/http/server.h"

namespace quoin::desk {

/// One connection while its requests are read and answered: a stream for the HTTP library that
/// keeps to the limits of time and size. Owns the socket.
class Connection : public httplib::Stream {
 public:
  /// `stop` is a descriptor that can be read once the server ends.
  Connection(int socket, int stop, const ServerLimits& limits);
  ~Connection() override;
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  /// Waits for the first byte of the next request; false when none comes in time, the other side
  /// left, or the server ends.
  [[nodiscard]] bool begins_another(std::chrono::milliseconds idle);
  /// The head is read: from now on it is the body's time and size that count.
  void head_is_read();
  /// True when the other side is gone or the server ends.
  [[nodiscard]] bool is_lost() const;

  std::optional<Refusal> refusal;  ///< of the request in hand
  Asked asked;                     ///< the same, but for its body
  bool is_last = false;            ///< close after this answer

  [[nodiscard]] bool is_readable() const override;
  [[nodiscard]] bool is_writable() const override;
  ssize_t read(char* to, std::size_t size) override;
  ssize_t write(const char* from, std::size_t size) override;
  void get_remote_ip_and_port(std::string& ip, int& port) const override;
  void get_local_ip_and_port(std::string& ip, int& port) const override;
  [[nodiscard]] socket_t socket() const override { return socket_; }

 private:
  using Clock = std::chrono::steady_clock;
  enum class Wait { ready, late, lost };
  [[nodiscard]] Wait wait(short events, Clock::time_point until) const;
  void say(std::string_view status);

  int socket_, stop_;
  const ServerLimits& limits_;
  std::array<char, 16'384> buffer_{};
  std::size_t at_ = 0, filled_ = 0;
  std::size_t left_ = 0;  // bytes that the part in hand may still take
  bool in_head_ = true;
  Clock::time_point deadline_;
};

}  // namespace quoin::desk
