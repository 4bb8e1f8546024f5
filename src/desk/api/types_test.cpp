#include "desk/api/types.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "desk/api/expression.h"

namespace quoin::desk {
namespace {

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

void expect_page(const std::string& name, const std::string& generated) {
  const std::string path = std::string(QUOIN_SOURCE_DIR) + "/" + name;
  if (std::getenv("QUOIN_ACCEPT") != nullptr) std::ofstream(path, std::ios::binary) << generated;
  EXPECT_EQ(text_of(path), generated)
      << name << " is stale; run the desk tests with QUOIN_ACCEPT=1 to write it anew";
}

TEST(ApiTypes, of_the_page_are_as_committed) {
  expect_page("web/src/api/types.ts", api_typescript());
}

TEST(ApiTypes, as_json_schema_are_as_committed) {
  expect_page("docs/schemas/desk.schema.json", api_json_schema());
}

TEST(ApiTypes, name_no_type_that_there_is_not) {
  for (const ApiType& type : api_types()) {
    EXPECT_NE(type.fields.empty(), type.alias.empty()) << type.name;
    EXPECT_NO_THROW((void)fault_in(Json::object(), type.name)) << type.name;
    for (const ApiField& field : type.fields) {
      EXPECT_NO_THROW((void)fault_in(Json::object(), field.type)) << type.name << field.name;
      EXPECT_NO_THROW((void)fault_in(Json::array({1}), field.type)) << type.name << field.name;
    }
  }
  for (const ApiRoute& route : api_routes()) {
    const std::string_view asks = route.asks.empty() ? "Json" : route.asks;
    EXPECT_NO_THROW((void)fault_in(Json::object(), asks)) << route.path;
    const bool is_media = route.answers.find('/') != std::string_view::npos;
    const std::string_view answers = is_media ? "Json" : route.answers;
    EXPECT_NO_THROW((void)fault_in(Json::object(), answers)) << route.path;
  }
  EXPECT_THROW((void)fault_in(1, "Nonsense"), std::logic_error);
  EXPECT_THROW((void)read_type("string[ | 3"), std::logic_error);
}

TEST(ApiTypes, say_where_a_value_is_not_as_it_should) {
  const Json good{{"kind", "cell"}, {"row", 1}, {"id", "a"}, {"column", "name"}, {"text", "x"}};
  EXPECT_EQ(fault_in(good, "Change"), std::nullopt);
  Json bad = good;
  bad["row"] = "1";
  EXPECT_EQ(*fault_in(bad, "Change"), "row: a number is wanted");
  bad = good;
  bad["more"] = 1;
  EXPECT_EQ(*fault_in(bad, "Change"), "here: has keys that CellChange does not know");
  bad = good;
  bad.erase("text");
  EXPECT_EQ(*fault_in(Json{{"base", 1}, {"label", ""}, {"changes", {good, bad}}}, "EditRequest"),
            "changes[1].text: is missing");
  EXPECT_EQ(*fault_in(Json::array({1, "a", true}), "TomlPath"), "[2]: a number is wanted");
  EXPECT_EQ(fault_in(nullptr, "Place | null"), std::nullopt);
  EXPECT_EQ(*fault_in("x", "'a' | 'b'"), "here: \"b\" is wanted");
}

TEST(Json, deeper_than_anybody_needs_is_not_read) {
  EXPECT_TRUE(read_json(std::string(64, '[') + std::string(64, ']')));
  EXPECT_FALSE(read_json(std::string(65, '[') + std::string(65, ']')));
  EXPECT_FALSE(read_json(std::string(1'000'000, '[')));
  EXPECT_TRUE(read_json("\"" + std::string(100, '[') + "\""));
  EXPECT_FALSE(read_json("{"));
  EXPECT_FALSE(read_json(""));
}

TEST(Json, is_written_whatever_bytes_a_text_has) {
  EXPECT_EQ(written(Json{{"a", "x\xff"}}), "{\"a\":\"x\xef\xbf\xbd\"}");
}

}  // namespace
}  // namespace quoin::desk
