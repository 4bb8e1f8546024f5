#include "desk/http/server.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <stdexcept>
#include <thread>
#include <vector>

#include "desk/http/raw_client.h"

namespace quoin::desk {
namespace {

using testing::HasSubstr;
using Clients = std::vector<std::unique_ptr<RawClient>>;

class Silence : public EventStream {
 public:
  explicit Silence(std::atomic<int>& open) : open_(open) { ++open_; }
  ~Silence() override { --open_; }
  std::optional<std::string> next(std::chrono::milliseconds within) override {
    if (is_new_) {
      is_new_ = false;
      return "retry: 500\n\n";
    }
    std::this_thread::sleep_for(std::min(within, std::chrono::milliseconds(20)));
    return "";
  }

 private:
  std::atomic<int>& open_;
  bool is_new_ = true;
};

class ServerTest : public testing::Test {
 protected:
  ServerTest() {
    limits_.most_connections = 12;
    limits_.most_streams = 4;
    limits_.head_within = std::chrono::milliseconds(400);
    limits_.body_within = std::chrono::milliseconds(800);
    limits_.idle = std::chrono::milliseconds(600);
    limits_.write_within = std::chrono::milliseconds(400);
  }
  void SetUp() override {
    server_ = Server::open(
        0, std::string(64, 'a'), [this](const Asked& a) { return answer(a); }, limits_);
    ASSERT_NE(server_, nullptr);
    port_ = server_->identity().port;
  }

  Answer answer(const Asked& asked) {
    ++asked_;
    if (asked.path == "/api/throw") throw std::runtime_error("secret words");
    if (asked.path == "/api/large") return text_answer("text/plain", Bytes(8'000'000, 'x'));
    if (asked.path == "/api/events") {
      Answer answer;
      answer.events = std::make_unique<Silence>(streams_);
      return answer;
    }
    return text_answer("text/plain", asked.method + " " + asked.path + " " + asked.body);
  }

  [[nodiscard]] std::string request(std::string_view method, std::string_view path,
                                    std::string_view more = {}, std::string_view body = {}) const {
    return fmt::format("{} {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nX-Quoin-Token: {}\r\n{}\r\n{}",
                       method, path, port_, std::string(64, 'a'), more, body);
  }
  [[nodiscard]] Reply ask(const std::string& raw) const {
    RawClient client(port_);
    client.send(raw);
    return client.receive();
  }

  ServerLimits limits_;
  std::atomic<int> asked_ = 0, streams_ = 0;
  std::unique_ptr<Server> server_;
  int port_ = 0;
};

TEST_F(ServerTest, answers_with_what_keeps_a_page_safe) {
  const Reply reply = ask(request("GET", "/page"));
  EXPECT_EQ(reply.status, 200);
  EXPECT_EQ(reply.body, "GET /page ");
  EXPECT_THAT(reply.header("Content-Security-Policy"), HasSubstr("default-src 'none'"));
  EXPECT_THAT(reply.header("Content-Security-Policy"), HasSubstr("frame-ancestors 'none'"));
  EXPECT_EQ(reply.header("X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(reply.header("Referrer-Policy"), "no-referrer");
  EXPECT_EQ(reply.header("Cache-Control"), "no-store");
  EXPECT_EQ(reply.header("Access-Control-Allow-Origin"), "");
}

TEST_F(ServerTest, refuses_a_foreign_name_and_a_foreign_page) {
  const std::string foreign_name = "GET / HTTP/1.1\r\nHost: evil.example\r\n\r\n";
  EXPECT_EQ(ask(foreign_name).status, 403);
  EXPECT_EQ(ask(request("POST", "/api/edit", "Origin: http://evil.example\r\nContent-Length: 2\r\n",
                        "{}"))
                .status,
            403);
  EXPECT_EQ(ask(fmt::format("GET /api/state HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n", port_)).status,
            401);
  EXPECT_EQ(asked_, 0);
}

TEST_F(ServerTest, takes_the_token_of_an_address_for_looking_only) {
  const std::string token(64, 'a');
  const auto by_address = [&](std::string_view method) {
    return ask(fmt::format("{} /api/x?token={} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n"
                           "Content-Length: 0\r\n\r\n",
                           method, token, port_))
        .status;
  };
  EXPECT_EQ(by_address("GET"), 200);
  EXPECT_EQ(by_address("POST"), 401);
}

TEST_F(ServerTest, reads_nothing_after_what_it_refused) {
  RawClient client(port_);
  client.send(request("POST", "/api/edit", "Transfer-Encoding: chunked\r\nContent-Length: 4\r\n",
                      "0\r\n\r\n" + request("POST", "/api/undo", "Content-Length: 0\r\n")));
  const Reply reply = client.receive();
  EXPECT_EQ(reply.status, 400);
  EXPECT_EQ(reply.header("Connection"), "close");
  EXPECT_TRUE(client.is_closed_within(1000));
  EXPECT_EQ(asked_, 0);
}

TEST_F(ServerTest, answers_one_after_another_on_one_connection) {
  RawClient client(port_);
  client.send(request("GET", "/a") + request("POST", "/api/b", "Content-Length: 3\r\n", "xyz") +
              request("GET", "/c"));
  EXPECT_EQ(client.receive().body, "GET /a ");
  EXPECT_EQ(client.receive().body, "POST /api/b xyz");
  EXPECT_EQ(client.receive().body, "GET /c ");
}

TEST_F(ServerTest, gives_a_path_as_it_is_meant_and_stands_a_nul) {
  EXPECT_EQ(ask(request("GET", "/%2e%2e/a%20b?x=1")).body, "GET /../a b ");
  EXPECT_EQ(ask(request("GET", "/a%00b")).body, std::string("GET /a\0b ", 9));
  EXPECT_NE(ask(request("GET", "/a%")).status, 0);
}

TEST_F(ServerTest, tells_nothing_of_what_went_wrong_inside) {
  const Reply reply = ask(request("GET", "/api/throw"));
  EXPECT_EQ(reply.status, 500);
  EXPECT_EQ(reply.head.find("secret"), std::string::npos);
  EXPECT_EQ(reply.body.find("secret"), std::string::npos);
  EXPECT_EQ(ask(request("GET", "/api/x")).status, 200);
}

TEST_F(ServerTest, takes_no_endless_heads_and_no_huge_bodies) {
  std::string heads;
  for (int i = 0; i < 4000; ++i) heads += fmt::format("X-{}: {}\r\n", i, std::string(20, 'x'));
  EXPECT_EQ(ask(request("GET", "/", heads)).status, 431);
  EXPECT_GE(ask("GET /" + std::string(100'000, 'x') + " HTTP/1.1\r\n\r\n").status, 400);
  EXPECT_EQ(ask(request("POST", "/api/x", "Content-Length: 64000001\r\n")).status, 413);
  EXPECT_EQ(asked_, 0);
}

TEST_F(ServerTest, waits_for_no_head_that_trickles) {
  Clients slow;
  for (int i = 0; i < 8; ++i) {
    slow.push_back(std::make_unique<RawClient>(port_));
    slow.back()->send("GET / HTTP/1.1\r\nX: ");
  }
  EXPECT_EQ(ask(request("GET", "/quick")).status, 200);
  for (int i = 0; i < 6; ++i) {
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    for (const auto& client : slow) client->send("x");
  }
  for (const auto& client : slow) EXPECT_TRUE(client->is_closed_within(1000));
  RawClient body(port_);
  body.send(request("POST", "/api/x", "Content-Length: 10\r\n", "abc"));
  EXPECT_EQ(ask(request("GET", "/quick")).status, 200);
  EXPECT_TRUE(body.is_closed_within(2000));
}

TEST_F(ServerTest, waits_for_no_reader_that_takes_nothing) {
  Clients lazy;
  for (int i = 0; i < 8; ++i) {
    lazy.push_back(std::make_unique<RawClient>(port_));
    lazy.back()->send(request("GET", "/api/large"));
  }
  EXPECT_EQ(ask(request("GET", "/quick")).status, 200);
  std::this_thread::sleep_for(std::chrono::milliseconds(700));
  for (int i = 0; i < 10; ++i) EXPECT_EQ(ask(request("GET", "/quick")).status, 200);
}

TEST_F(ServerTest, turns_away_what_is_too_many_and_recovers) {
  Clients idle;
  for (int i = 0; i < 40; ++i) idle.push_back(std::make_unique<RawClient>(port_));
  int told = 0;
  for (const auto& client : idle) {
    told += client->receive(2000).status == 503 ? 1 : 0;
    EXPECT_TRUE(client->is_closed_within(2000));
  }
  EXPECT_GE(told, 1);
  EXPECT_LE(told, 28) << "twelve were let in";
  EXPECT_EQ(ask(request("GET", "/after")).status, 200) << "connections that say nothing give way";
}

TEST_F(ServerTest, keeps_some_room_beside_a_hundred_event_streams) {
  Clients pages;
  int open = 0, refused_politely = 0;
  for (int i = 0; i < 100; ++i) {
    auto page = std::make_unique<RawClient>(port_);
    page->send(request("GET", "/api/events"));
    const std::string first = page->receive_some(2000);
    open += first.find("200") != std::string::npos ? 1 : 0;
    refused_politely += first.find("503") != std::string::npos ? 1 : 0;
    if (first.find("200") != std::string::npos) pages.push_back(std::move(page));
  }
  EXPECT_EQ(open, 4);
  EXPECT_EQ(refused_politely, 96);
  EXPECT_EQ(ask(request("GET", "/quick")).status, 200);
  pages.clear();
  for (int i = 0; i < 50 && streams_ > 0; ++i) {
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  EXPECT_EQ(streams_, 0) << "pages that are gone are noticed";
}

TEST_F(ServerTest, answers_whoever_has_stopped_sending) {
  RawClient half(port_);
  half.send(request("GET", "/half"));
  half.close_sending();
  EXPECT_EQ(half.receive().body, "GET /half ");
  RawClient cut(port_);
  cut.send("GET / HT");
  cut.close_sending();
  EXPECT_TRUE(cut.is_closed_within(1000));
}

TEST_F(ServerTest, ends_at_once_with_connections_open) {
  Clients idle;
  for (int i = 0; i < 6; ++i) idle.push_back(std::make_unique<RawClient>(port_));
  RawClient events(port_);
  events.send(request("GET", "/api/events"));
  EXPECT_THAT(events.receive_some(), HasSubstr("200"));
  const auto start = std::chrono::steady_clock::now();
  server_.reset();
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::milliseconds(500));
}

TEST_F(ServerTest, shares_its_port_with_nobody) {
  EXPECT_EQ(Server::open(
                port_, "x", [](const Asked&) { return Answer{}; }, limits_),
            nullptr);
}

}  // namespace
}  // namespace quoin::desk
