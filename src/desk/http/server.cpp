#include "desk/http/server.h"

#include <fmt/format.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <thread>

#include "desk/http/callers.h"
#include "desk/http/connection.h"

namespace quoin::desk {
namespace {

/// What every answer carries. The policy lets the page load from the desk alone, and nobody frame
/// it; pictures it makes itself (blob:, data:) may be shown.
const std::pair<const char*, const char*> safety_headers[] = {
    {"Content-Security-Policy",
     "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; "
     "font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; "
     "frame-src 'self'; "
     "frame-ancestors 'none'; base-uri 'none'; form-action 'none'"},
    {"X-Content-Type-Options", "nosniff"},
    {"Referrer-Policy", "no-referrer"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
    {"Cross-Origin-Opener-Policy", "same-origin"},
    {"X-Frame-Options", "DENY"},
};

/// Between two messages of a stream, so that a page that is gone is noticed.
constexpr std::chrono::milliseconds heartbeat{10'000};
/// How soon the end of the server is noticed by a stream.
constexpr std::chrono::milliseconds glance{250};

std::vector<std::string> all_of(const httplib::Request& request, const char* name) {
  std::vector<std::string> values;
  const auto [first, last] = request.headers.equal_range(name);
  for (auto it = first; it != last; ++it) values.push_back(it->second);
  return values;
}

Head head_of(const httplib::Request& request) {
  Head head{request.method,
            request.path,
            all_of(request, "Host"),
            all_of(request, "Origin"),
            request.get_header_value("Sec-Fetch-Site"),
            request.get_header_value("X-Quoin-Token"),
            all_of(request, "Content-Length"),
            all_of(request, "Transfer-Encoding")};
  for (std::string& coding : all_of(request, "Content-Encoding")) {
    head.encodings.push_back(std::move(coding));
  }
  if (head.token.empty() && request.method != "POST") head.token = request.get_param_value("token");
  return head;
}

Asked asked_of(const httplib::Request& request) {
  Asked asked;
  asked.method = request.method == "HEAD" ? "GET" : request.method;
  asked.path = request.path;
  for (const auto& [name, value] : request.params) asked.query.emplace(name, value);
  asked.known_tag = request.get_header_value("If-None-Match");
  asked.accepts_gzip =
      request.get_header_value("Accept-Encoding").find("gzip") != std::string::npos;
  return asked;
}

thread_local Connection* in_hand = nullptr;

/// The HTTP library's server on connections of our own.
class Listener : public httplib::Server {
 public:
  Listener(const ServerLimits& limits, quoin::desk::Server::Respond respond)
      : limits_(limits), respond_(std::move(respond)), stop_(::eventfd(0, EFD_CLOEXEC)) {
    new_task_queue = [this] { return callers_ = new Callers(limits_.most_connections); };
    set_payload_max_length(largest_body);
    set_pre_routing_handler([](const httplib::Request&, httplib::Response& response) {
      if (!in_hand->refusal) return HandlerResponse::Unhandled;
      fill(response, refusal_answer(*in_hand->refusal));
      return HandlerResponse::Handled;
    });
    const auto handler = [this](const httplib::Request& request, httplib::Response& response) {
      handle(request, response);
    };
    Get("/", handler);
    Post("/", handler);
    set_exception_handler(
        [](const httplib::Request&, httplib::Response& response, std::exception_ptr) {
          fill(response, refusal_answer({500, "the desk met something that it did not expect",
                                         "try it again; what is on the disk is as it was"}));
        });
  }
  ~Listener() override { ::close(stop_); }
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

  void end() {
    ending_ = true;
    const std::uint64_t one = 1;
    (void)!::write(stop_, &one, sizeof one);
    stop();
  }

  /// The library keeps five callers waiting at the door, fewer than a browser sends at once: the
  /// others would try again a second later.
  void widen_door() const { (void)::listen(svr_sock_, 128); }

  Identity identity;

 private:
  bool process_and_close_socket(socket_t socket) override {
    Connection connection(socket, stop_, limits_);
    if (Callers::is_turned_away()) {
      constexpr std::string_view full =
          "HTTP/1.1 503 Service Unavailable\r\nConnection: close\r\nRetry-After: 1\r\n"
          "Content-Length: 0\r\n\r\n";
      (void)connection.write(full.data(), full.size());
      return true;
    }
    in_hand = &connection;
    while (!connection.is_last && connection.begins_another(idle())) {
      bool is_closed = false, was_understood = false;
      const bool went_well =
          process_request(connection, false, is_closed, [&](httplib::Request& request) {
            was_understood = true;
            look_at(connection, request);
          });
      if (!went_well || is_closed || !was_understood) break;
    }
    in_hand = nullptr;
    return true;
  }

  /// Connections that wait give way when there are many.
  [[nodiscard]] std::chrono::milliseconds idle() const {
    const bool is_crowded = callers_->open() * 2 > limits_.most_connections;
    return is_crowded ? std::min(limits_.idle, std::chrono::milliseconds{500}) : limits_.idle;
  }

  /// Between head and body: takes over what the request is, and lets it pass or not. The library is
  /// left one route, no ranges and no compression to work out.
  void look_at(Connection& connection, httplib::Request& request) const {
    connection.head_is_read();
    connection.refusal = refused(head_of(request), identity);
    connection.asked = asked_of(request);
    request.path = "/";
    request.ranges.clear();
    request.headers.erase("Accept-Encoding");
    request.headers.erase("Expect");
    request.headers.erase("Content-Type");  // bodies are taken as they come, in one piece
    if (connection.refusal) {  // its body was not read, so what follows cannot be trusted
      connection.is_last = true;
      request.headers.erase("Connection");
      request.set_header("Connection", "close");
    }
  }

  void handle(const httplib::Request& request, httplib::Response& response) {
    Asked asked = in_hand->asked;
    asked.body = request.body;
    Answer answer = respond_(asked);
    if (answer.events) {
      stream(response, std::move(answer.events));
    } else {
      fill(response, std::move(answer));
    }
  }

  static void fill(httplib::Response& response, Answer answer) {
    response.status = answer.status;
    for (const auto& [name, value] : safety_headers) response.set_header(name, value);
    bool says_how_long_to_keep = false;
    bool has_policy = false;
    for (const auto& [name, value] : answer.headers) {
      if (name == "Cache-Control") says_how_long_to_keep = true;
      if (name == "Content-Security-Policy" && !has_policy) response.headers.erase(name);
      if (name == "Content-Security-Policy") has_policy = true;
      if (name == "X-Frame-Options") response.headers.erase(name);
      response.set_header(name, value);
    }
    if (!says_how_long_to_keep) response.set_header("Cache-Control", "no-store");
    if (answer.bytes) {
      response.set_content(*answer.bytes, answer.type);
    } else if (!answer.fixed.empty()) {
      response.set_content(answer.fixed.data(), answer.fixed.size(), answer.type);
    }
  }

  void stream(httplib::Response& response, std::shared_ptr<EventStream> events) {
    if (++streams_ > limits_.most_streams) {
      --streams_;
      fill(response, refusal_answer({503, "too many windows show this desk",
                                     "close some of the other windows"}));
      return;
    }
    const std::shared_ptr<void> counted(nullptr, [this](void*) { --streams_; });
    for (const auto& [name, value] : safety_headers) response.set_header(name, value);
    response.set_header("Cache-Control", "no-store");
    Connection* connection = in_hand;
    connection->is_last = true;
    response.set_chunked_content_provider(
        "text/event-stream",
        [this, events, counted, connection](std::size_t, httplib::DataSink& sink) {
          return pass_on(*events, *connection, sink);
        });
  }

  /// Sends what comes until something was sent; false ends the stream.
  bool pass_on(EventStream& events, const Connection& connection, httplib::DataSink& sink) const {
    const auto until = std::chrono::steady_clock::now() + heartbeat;
    while (!ending_ && !connection.is_lost()) {
      const std::optional<std::string> text = events.next(glance);
      if (!text) return false;
      if (!text->empty()) return sink.write(text->data(), text->size());
      if (std::chrono::steady_clock::now() > until) return sink.write(": here\n\n", 8);
    }
    return false;
  }

  ServerLimits limits_;
  quoin::desk::Server::Respond respond_;
  int stop_;
  std::atomic<bool> ending_ = false;
  std::atomic<std::size_t> streams_ = 0;
  Callers* callers_ = nullptr;  // the library's own while it listens
};

}  // namespace

struct Server::State {
  State(const ServerLimits& limits, Respond respond) : listener(limits, std::move(respond)) {}
  Listener listener;
  std::thread thread;
};

std::unique_ptr<Server> Server::open(int port, std::string token, Respond respond,
                                     const ServerLimits& limits) {
  auto state = std::make_unique<State>(limits, std::move(respond));
  Listener& listener = state->listener;
  // Only one desk has a port: the library's own choice would let a second one share it.
  listener.set_socket_options([](socket_t socket) {
    const int yes = 1;
    (void)::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
  listener.set_tcp_nodelay(true);
  const std::string loopback = "127.0.0.1";
  if (port == 0) {
    port = listener.bind_to_any_port(loopback);
  } else if (!listener.bind_to_port(loopback, port)) {
    port = -1;
  }
  if (port <= 0) return nullptr;
  listener.widen_door();
  listener.identity = {port, std::move(token)};
  state->thread = std::thread([&listener] { listener.listen_after_bind(); });
  while (!listener.is_running()) std::this_thread::yield();
  return std::unique_ptr<Server>(new Server(std::move(state)));
}

Server::Server(std::unique_ptr<State> state) : state_(std::move(state)) {}

Server::~Server() {
  state_->listener.end();
  state_->thread.join();
}

const Identity& Server::identity() const { return state_->listener.identity; }

}  // namespace quoin::desk
