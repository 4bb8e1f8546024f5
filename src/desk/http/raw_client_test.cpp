#include "desk/http/raw_client.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cctype>
#include <charconv>

namespace quoin::desk {
namespace {

std::string lower(std::string_view text) {
  std::string all(text);
  for (char& c : all) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return all;
}

std::size_t number_in(std::string_view text, int base) {
  std::size_t number = 0;
  (void)std::from_chars(text.data(), text.data() + text.size(), number, base);
  return number;
}

}  // namespace

std::string Reply::header(std::string_view name) const {
  const std::string all = lower(head), wanted = "\r\n" + lower(name) + ": ";
  const std::size_t at = all.find(wanted);
  if (at == std::string::npos) return {};
  const std::size_t start = at + wanted.size();
  return head.substr(start, head.find("\r\n", start) - start);
}

RawClient::RawClient(int port) : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  if (::connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0) {
    ::close(socket_);
    socket_ = -1;
  }
}

RawClient::~RawClient() {
  if (socket_ >= 0) ::close(socket_);
}

bool RawClient::send(std::string_view bytes) {
  while (!bytes.empty()) {
    pollfd on{socket_, POLLOUT, 0};
    if (::poll(&on, 1, 5000) <= 0) return false;
    const ssize_t went = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
    if (went <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(went));
  }
  return true;
}

void RawClient::close_sending() { ::shutdown(socket_, SHUT_WR); }

std::string RawClient::receive_some(int milliseconds) {
  pollfd on{socket_, POLLIN, 0};
  if (::poll(&on, 1, milliseconds) <= 0) return {};
  std::array<char, 65'536> buffer;
  const ssize_t got = ::recv(socket_, buffer.data(), buffer.size(), 0);
  return got > 0 ? std::string(buffer.data(), static_cast<std::size_t>(got)) : std::string{};
}

bool RawClient::is_closed_within(int milliseconds) {
  for (;;) {
    pollfd on{socket_, POLLIN, 0};
    if (::poll(&on, 1, milliseconds) <= 0) return false;
    char byte = 0;
    if (::recv(socket_, &byte, 1, 0) <= 0) return true;
  }
}

Reply RawClient::receive(int milliseconds) {
  const auto more = [&] {
    const std::string some = receive_some(milliseconds);
    waiting_ += some;
    return !some.empty();
  };
  while (waiting_.find("\r\n\r\n") == std::string::npos) {
    if (!more()) return {};
  }
  Reply reply;
  const std::size_t end = waiting_.find("\r\n\r\n") + 4;
  reply.head = waiting_.substr(0, end);
  waiting_.erase(0, end);
  if (reply.head.size() > 12) reply.status = static_cast<int>(number_in(reply.head.substr(9), 10));
  if (reply.header("Transfer-Encoding") == "chunked") {
    for (;;) {
      while (waiting_.find("\r\n") == std::string::npos) {
        if (!more()) return reply;
      }
      const std::size_t line = waiting_.find("\r\n");
      const std::size_t size = number_in(waiting_.substr(0, line), 16);
      while (waiting_.size() < line + 4 + size) {
        if (!more()) return reply;
      }
      reply.body += waiting_.substr(line + 2, size);
      waiting_.erase(0, line + 4 + size);
      if (size == 0) return reply;
    }
  }
  const std::size_t length = number_in(reply.header("Content-Length"), 10);
  while (reply.status != 304 && waiting_.size() < length) {
    if (!more()) break;
  }
  reply.body = waiting_.substr(0, length);
  waiting_.erase(0, reply.body.size());
  return reply;
}

}  // namespace quoin::desk
