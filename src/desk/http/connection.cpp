#include "desk/http/connection.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

namespace quoin::desk {
namespace {

int milliseconds_until(std::chrono::steady_clock::time_point until) {
  const auto left =
      std::chrono::ceil<std::chrono::milliseconds>(until - std::chrono::steady_clock::now());
  return static_cast<int>(std::clamp<std::int64_t>(left.count(), 0, 3'600'000));
}

}  // namespace

Connection::Connection(int socket, int stop, const ServerLimits& limits)
    : socket_(socket), stop_(stop), limits_(limits) {
  (void)::fcntl(socket_, F_SETFD, FD_CLOEXEC);
}

Connection::~Connection() {
  ::shutdown(socket_, SHUT_RDWR);
  ::close(socket_);
}

Connection::Wait Connection::wait(short events, Clock::time_point until) const {
  for (;;) {
    pollfd watched[2] = {{socket_, events, 0}, {stop_, POLLIN, 0}};
    const int ready = ::poll(watched, 2, milliseconds_until(until));
    if (ready < 0 && errno == EINTR) continue;
    if (ready < 0 || watched[1].revents != 0) return Wait::lost;
    if (ready == 0) return Wait::late;
    if ((watched[0].revents & events) != 0) return Wait::ready;
    return Wait::lost;
  }
}

bool Connection::begins_another(std::chrono::milliseconds idle) {
  refusal.reset();
  asked = {};
  if (at_ == filled_ && wait(POLLIN, Clock::now() + idle) != Wait::ready) return false;
  in_head_ = true;
  left_ = limits_.largest_head;
  deadline_ = Clock::now() + limits_.head_within;
  return true;
}

void Connection::head_is_read() {
  in_head_ = false;
  left_ = largest_body;
  deadline_ = Clock::now() + limits_.body_within;
}

bool Connection::is_lost() const {
  pollfd watched[2] = {{socket_, POLLIN | POLLRDHUP, 0}, {stop_, POLLIN, 0}};
  if (::poll(watched, 2, 0) < 0) return errno != EINTR;
  return watched[1].revents != 0 || (watched[0].revents & (POLLRDHUP | POLLHUP | POLLERR)) != 0;
}

bool Connection::is_readable() const {
  return at_ < filled_ || wait(POLLIN, deadline_) == Wait::ready;
}

bool Connection::is_writable() const {
  return !is_lost() && wait(POLLOUT, Clock::now() + limits_.write_within) == Wait::ready;
}

/// An answer to a head that never came to its end; the HTTP library knows nothing of it.
void Connection::say(std::string_view status) {
  is_last = true;
  if (!in_head_) return;
  const std::string answer =
      fmt::format("HTTP/1.1 {}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n", status);
  (void)write(answer.data(), answer.size());
}

ssize_t Connection::read(char* to, std::size_t size) {
  if (left_ == 0) {
    say("431 Request Header Fields Too Large");
    return -1;
  }
  if (at_ == filled_) {
    const Wait came = wait(POLLIN, deadline_);
    if (came == Wait::late) say("408 Request Timeout");
    if (came != Wait::ready) return -1;
    ssize_t got = 0;
    do {
      got = ::recv(socket_, buffer_.data(), buffer_.size(), 0);
    } while (got < 0 && errno == EINTR);
    if (got <= 0) return got;
    at_ = 0;
    filled_ = static_cast<std::size_t>(got);
  }
  const std::size_t taken = std::min({size, filled_ - at_, left_});
  std::memcpy(to, buffer_.data() + at_, taken);
  at_ += taken;
  left_ -= taken;
  return static_cast<ssize_t>(taken);
}

ssize_t Connection::write(const char* from, std::size_t size) {
  // A reader may be slow, but not without end.
  constexpr std::size_t slowest_bytes_a_second = 65'536;
  const auto until =
      Clock::now() + limits_.write_within + std::chrono::seconds(size / slowest_bytes_a_second);
  std::size_t sent = 0;
  while (sent < size) {
    if (wait(POLLOUT, until) != Wait::ready) return -1;
    const ssize_t went = ::send(socket_, from + sent, size - sent, MSG_NOSIGNAL | MSG_DONTWAIT);
    if (went < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (went < 0) return -1;
    sent += static_cast<std::size_t>(went);
  }
  return static_cast<ssize_t>(sent);
}

void Connection::get_remote_ip_and_port(std::string& ip, int& port) const {
  ip = "127.0.0.1";
  port = 0;
}

void Connection::get_local_ip_and_port(std::string& ip, int& port) const {
  ip = "127.0.0.1";
  port = 0;
}

}  // namespace quoin::desk
