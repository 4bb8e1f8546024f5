#include "desk/http/guard.h"

#include <fmt/format.h>
#include <sys/random.h>

#include <array>
#include <charconv>
#include <stdexcept>

namespace quoin::desk {
namespace {

std::optional<Refusal> refused_by_framing(const Head& head) {
  const Refusal unclear{400, "the request does not say clearly where it ends",
                        "reload the page of the desk"};
  if (!head.encodings.empty() || head.lengths.size() > 1) return unclear;
  if (head.lengths.empty() && head.method == "POST") {
    return Refusal{411, "the request does not say how long it is", "reload the page of the desk"};
  }
  if (head.lengths.empty()) return std::nullopt;
  const std::string& text = head.lengths.front();
  std::size_t length = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), length);
  const bool is_number = end == text.data() + text.size() && !text.empty();
  if (is_number && (fault == std::errc::result_out_of_range || length > largest_body)) {
    return Refusal{
        413, fmt::format("{} bytes are too many; the desk takes {} at once", text, largest_body),
        "make the picture smaller"};
  }
  if (!is_number || (head.method != "POST" && length > 0)) return unclear;
  return std::nullopt;
}

bool is_own_host(std::string_view host, int port) {
  return host == fmt::format("127.0.0.1:{}", port) || host == fmt::format("localhost:{}", port);
}

bool is_own_origin(std::string_view origin, int port) {
  constexpr std::string_view scheme = "http://";
  return origin.starts_with(scheme) && is_own_host(origin.substr(scheme.size()), port);
}

std::optional<Refusal> refused_by_origin(const Head& head, int port) {
  const Refusal foreign{403, "this came from a page that is not the desk's own",
                        "open the address that `quoin desk` printed"};
  for (const std::string& origin : head.origins) {
    if (!is_own_origin(origin, port)) return foreign;
  }
  const bool is_own_site =
      head.fetch_site.empty() || head.fetch_site == "same-origin" || head.fetch_site == "none";
  return is_own_site ? std::nullopt : std::optional(foreign);
}

}  // namespace

std::string new_token() {
  std::array<unsigned char, 32> bytes{};
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size())) {
    throw std::runtime_error("the system gave no random bytes");
  }
  std::string token;
  for (const unsigned char byte : bytes) token += fmt::format("{:02x}", byte);
  return token;
}

bool equal_in_constant_time(std::string_view known, std::string_view guess) {
  if (known.empty()) return false;
  unsigned difference = known.size() == guess.size() ? 0 : 1;
  for (std::size_t i = 0; i < known.size(); ++i) {
    const char other = guess.empty() ? '\0' : guess[i % guess.size()];
    difference |= static_cast<unsigned char>(known[i]) ^ static_cast<unsigned char>(other);
  }
  return difference == 0;
}

std::optional<Refusal> refused(const Head& head, const Identity& identity) {
  if (head.method != "GET" && head.method != "HEAD" && head.method != "POST") {
    return Refusal{405, "the desk knows GET, HEAD and POST", "reload the page of the desk"};
  }
  if (head.hosts.size() != 1) {
    return Refusal{400, "the request does not say which host it is for", "use a current browser"};
  }
  if (!is_own_host(head.hosts.front(), identity.port)) {
    return Refusal{403, "the desk answers to its own address only",
                   "open the address that `quoin desk` printed"};
  }
  if (auto refusal = refused_by_framing(head)) return refusal;
  const bool is_api = head.path == "/api" || head.path.starts_with("/api/");
  if (!is_api && head.method != "POST") return std::nullopt;
  if (auto refusal = refused_by_origin(head, identity.port)) return refusal;
  if (!equal_in_constant_time(identity.token, head.token)) {
    return Refusal{401, "this page does not know the desk's password for today",
                   "open the address that `quoin desk` printed, with all that stands after the #"};
  }
  return std::nullopt;
}

}  // namespace quoin::desk
