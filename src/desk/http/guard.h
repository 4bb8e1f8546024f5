#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quoin::desk {

/// Why a request is not answered: for people, as JSON {message, hint}.
struct Refusal {
  int status = 400;
  std::string message;  ///< one sentence, lower case start, no full stop
  std::string hint;
};

/// What only one run of the desk knows of itself.
struct Identity {
  int port = 0;       ///< on the loopback
  std::string token;  ///< 64 hexadecimal digits
};

/// A new token: 256 bits of the system's own randomness (getrandom). Throws `std::runtime_error`
/// when the system has none to give.
[[nodiscard]] std::string new_token();

/// Compares without telling, by the time it takes, how much of the guess was right.
[[nodiscard]] bool equal_in_constant_time(std::string_view known, std::string_view guess);

/// The head of a request as far as it bears on whether the request may pass.
struct Head {
  std::string method;
  std::string path;                    ///< decoded, without the query
  std::vector<std::string> hosts;      ///< every Host header
  std::vector<std::string> origins;    ///< every Origin header
  std::string fetch_site;              ///< Sec-Fetch-Site, "" when not sent
  std::string token;                   ///< of the header or, with GET, of the query
  std::vector<std::string> lengths;    ///< every Content-Length
  std::vector<std::string> encodings;  ///< Transfer-Encoding and Content-Encoding
};

/// No body of a request is larger than this: 64 MB, for pictures that are dropped on the page.
inline constexpr std::size_t largest_body = 64'000'000;

/// Why a request is refused before anything of it is looked at, or nothing.
///
/// - 400: two hosts, lengths that do not agree or are no numbers, bodies coded or sent in pieces
///   (what one reader takes for the end of a request another may not: RFC 9112, 11.2), a body with
///   GET
/// - 403: a host other than this desk by its own name or address (a foreign name that leads here
///   would make a foreign page one of ours), an origin other than the desk's own page
/// - 401: without the token, for everything below /api/
/// - 405: methods other than GET, HEAD and POST
/// - 411: a POST without a length
/// - 413: bodies over `largest_body`
[[nodiscard]] std::optional<Refusal> refused(const Head& head, const Identity& identity);

}  // namespace quoin::desk
