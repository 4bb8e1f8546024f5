#include "desk/http/guard.h"

#include <gtest/gtest.h>

namespace quoin::desk {
namespace {

const Identity identity{4711, std::string(64, 'a')};

Head own(std::string method, std::string path) {
  Head head;
  head.method = std::move(method);
  head.path = std::move(path);
  head.hosts = {"127.0.0.1:4711"};
  head.token = identity.token;
  return head;
}

int status(const Head& head) {
  const auto refusal = refused(head, identity);
  return refusal ? refusal->status : 200;
}

TEST(Guard, lets_the_desks_own_page_ask) {
  Head head = own("POST", "/api/edit");
  head.origins = {"http://127.0.0.1:4711"};
  head.fetch_site = "same-origin";
  head.lengths = {"12"};
  EXPECT_EQ(status(head), 200);
  head.hosts = {"localhost:4711"};
  head.origins = {"http://localhost:4711"};
  EXPECT_EQ(status(head), 200);
}

TEST(Guard, lets_files_of_the_page_go_without_a_token) {
  Head head = own("GET", "/assets/page.js");
  head.token.clear();
  EXPECT_EQ(status(head), 200);
  head.path = "/api/state";
  EXPECT_EQ(status(head), 401);
  head.path = "/api";
  EXPECT_EQ(status(head), 401);
}

TEST(Guard, refuses_foreign_names_that_lead_here) {
  for (const char* host : {"evil.example", "evil.example:4711", "127.0.0.1", "127.0.0.1:80",
                           "127.0.0.1:4711.evil.example", "[::1]:4711", "localhost", ""}) {
    Head head = own("GET", "/");
    head.hosts = {host};
    EXPECT_EQ(status(head), 403) << host;
  }
  Head two = own("GET", "/");
  two.hosts.push_back("evil.example");
  EXPECT_EQ(status(two), 400);
  two.hosts.clear();
  EXPECT_EQ(status(two), 400);
}

TEST(Guard, refuses_foreign_pages_even_with_the_token) {
  for (const char* origin : {"http://evil.example", "null", "https://127.0.0.1:4711",
                             "http://127.0.0.1:4712", "http://127.0.0.1:4711.evil.example"}) {
    Head head = own("POST", "/api/undo");
    head.lengths = {"0"};
    head.origins = {origin};
    EXPECT_EQ(status(head), 403) << origin;
  }
  for (const char* site : {"cross-site", "same-site"}) {
    Head head = own("GET", "/api/picture/cards/a.png");
    head.fetch_site = site;
    EXPECT_EQ(status(head), 403) << site;
  }
}

TEST(Guard, refuses_what_does_not_say_where_it_ends) {
  for (const char* length : {"-1", "1x", "", "0x10", "+1"}) {
    Head head = own("POST", "/api/edit");
    head.lengths = {length};
    EXPECT_EQ(status(head), 400) << length;
  }
  Head twice = own("POST", "/api/edit");
  twice.lengths = {"1", "2"};
  EXPECT_EQ(status(twice), 400);
  EXPECT_EQ(status(own("POST", "/api/edit")), 411);
  Head chunked = own("POST", "/api/edit");
  chunked.encodings = {"chunked"};
  EXPECT_EQ(status(chunked), 400);
  Head with_body = own("GET", "/");
  with_body.lengths = {"5"};
  EXPECT_EQ(status(with_body), 400);
}

TEST(Guard, refuses_bodies_that_are_too_large) {
  Head head = own("POST", "/api/upload");
  head.lengths = {"64000000"};
  EXPECT_EQ(status(head), 200);
  for (const char* length : {"64000001", "99999999999999999999999999"}) {
    head.lengths = {length};
    EXPECT_EQ(status(head), 413) << length;
  }
  EXPECT_EQ(refused(head, identity)->message,
            "99999999999999999999999999 bytes are too many; the desk takes 64000000 at once");
}

TEST(Guard, knows_three_methods) {
  for (const char* method : {"PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "get", ""}) {
    EXPECT_EQ(status(own(method, "/")), 405) << method;
  }
  EXPECT_EQ(status(own("HEAD", "/")), 200);
}

TEST(Token, is_new_each_time_and_long_enough) {
  const std::string one = new_token(), other = new_token();
  EXPECT_EQ(one.size(), 64U);
  EXPECT_NE(one, other);
  EXPECT_EQ(one.find_first_not_of("0123456789abcdef"), std::string::npos);
}

TEST(Token, is_compared_as_a_whole) {
  EXPECT_TRUE(equal_in_constant_time("abc", "abc"));
  for (const char* guess : {"", "a", "ab", "abd", "xbc", "abca", "abcabc"}) {
    EXPECT_FALSE(equal_in_constant_time("abc", guess)) << guess;
  }
  EXPECT_FALSE(equal_in_constant_time("", "")) << "no token lets nobody in";
}

}  // namespace
}  // namespace quoin::desk
