#include "game/sources.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "game/game.h"

namespace quoin::game {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Checked<Sources> listed(const std::string& list) {
  MemoryWorld world;
  world.put("art/sources.csv", list);
  for (const char* file :
       {"art/gull.svg", "art/finds/whelk.svg", "art/finds/limpet.svg", "fonts/Text.otf"}) {
    world.put(file, "x");
  }
  return read_sources(world);
}

std::vector<std::string> notes_of(const Diagnostics& found) {
  std::vector<std::string> lines;
  for (const Diagnostic& one : found) {
    EXPECT_EQ(one.severity, Severity::note);
    lines.push_back(to_string(one.origin) + " " + std::string(facts(one.id).name) + ": " +
                    one.message);
  }
  return lines;
}

constexpr const char* complete_list =
    "file,author,source,licence,changes\n"
    "gull.svg,Mara Lund,https://example.org/gull,CC-BY-4.0,recoloured\n"
    "finds/*,Ida,,own,\n"
    "fonts/Text.otf,The Text Authors,,OFL-1.1,\n";

TEST(Sources, are_read_with_their_places) {
  const Checked<Sources> sources = listed(complete_list);
  EXPECT_THAT(notes_of(sources.found), IsEmpty());
  const SourceRow* gull = source_of(sources.value, "art/gull.svg");
  ASSERT_NE(gull, nullptr);
  EXPECT_EQ(gull->author.text, "Mara Lund");
  EXPECT_EQ(to_string(gull->licence.origin), "art/sources.csv:2:45");
  EXPECT_EQ(gull->changes.text, "recoloured");
}

TEST(Sources, name_files_from_their_own_folder_or_from_the_games) {
  const Sources sources = listed(complete_list).value;
  EXPECT_EQ(source_of(sources, "art/finds/whelk.svg")->author.text, "Ida");
  EXPECT_EQ(source_of(sources, "fonts/Text.otf")->licence.text, "OFL-1.1");
  EXPECT_EQ(source_of(sources, "art/other.svg"), nullptr);
}

TEST(Sources, prefer_a_file_to_a_pattern_and_the_longer_pattern) {
  const Sources sources = listed(
                              "file,author,licence\n*,A,own\nfinds/*,B,own\n"
                              "finds/whelk.svg,C,own\n")
                              .value;
  EXPECT_EQ(source_of(sources, "art/gull.svg")->author.text, "A");
  EXPECT_EQ(source_of(sources, "art/finds/limpet.svg")->author.text, "B");
  EXPECT_EQ(source_of(sources, "art/finds/whelk.svg")->author.text, "C");
}

TEST(Sources, take_columns_in_any_order_and_under_other_names) {
  const Sources sources = listed("licence,note,made_by,file\nCC0,drawn here,Ida,gull.svg\n").value;
  const SourceRow* gull = source_of(sources, "art/gull.svg");
  ASSERT_NE(gull, nullptr);
  EXPECT_EQ(gull->author.text, "Ida");
  EXPECT_EQ(gull->licence.text, "CC0");
}

TEST(Sources, tell_of_what_is_missing_as_notes) {
  EXPECT_THAT(
      notes_of(listed("file,licence\ngul.svg,own\nfinds/,CC-BY-4\n").found),
      ElementsAre(
          "art/sources.csv:1:1 share.sources-table: the list of sources has no column author",
          "art/sources.csv:2:1 share.row-without-file: there is no file \"gul.svg\"",
          "art/sources.csv:3:8 share.unknown-licence: \"CC-BY-4\" is no licence that is "
          "known here",
          "art/sources.csv share.no-source-row: 1 picture in art/ has no row in the list "
          "of sources"));
}

TEST(Sources, of_a_damaged_list_are_what_could_be_read) {
  const Checked<Sources> sources =
      listed("file,author,licence\n\"gull.svg,Ida,own\nfinds/,Ida,own\n");
  EXPECT_TRUE(sources.value.is_there);
  EXPECT_FALSE(sources.found.empty());
  notes_of(sources.found);
  EXPECT_TRUE(listed(std::string("\0\1\2", 3)).value.rows.empty());
  EXPECT_TRUE(listed("").value.rows.empty());
}

TEST(Sources, of_many_patterns_and_files_are_read_in_time) {
  std::string list = "file,author,licence\n";
  for (int i = 0; i < 20'000; ++i) list += "*a*a*a*a*" + std::to_string(i) + ",Ida,own\n";
  const Checked<Sources> sources = listed(list);
  EXPECT_LE(sources.value.patterns.size(), 500U);
}

std::string hindrance_of(const std::string& row, Asked asked = Asked::no) {
  const Sources sources = listed("file,author,source,licence,changes\n" + row).value;
  const auto why = hindrance(sources, "art/gull.svg", asked);
  return why ? std::string(facts(why->id).name) : "";
}

TEST(Hindrance, is_none_where_the_licence_lets_it_be_given) {
  EXPECT_EQ(hindrance_of("gull.svg,Mara,,CC-BY-4.0,recoloured\n"), "");
  EXPECT_EQ(hindrance_of("gull.svg,,,own,\n"), "");
  EXPECT_EQ(hindrance_of("gull.svg,Mara,,CC-BY-ND-4.0,\n"), "");
  EXPECT_EQ(hindrance_of("gull.svg,Mara,,CC-BY-NC-4.0,\n"), "");
}

TEST(Hindrance, names_what_stands_against_it) {
  EXPECT_EQ(hindrance_of(""), "share.no-source-row");
  EXPECT_EQ(hindrance_of("gull.svg,,,CC-BY-4.0,\n"), "share.no-author");
  EXPECT_EQ(hindrance_of("gull.svg,unknown,,CC0-1.0,\n"), "share.no-author");
  EXPECT_EQ(hindrance_of("gull.svg,Mara,,unknown,\n"), "share.unknown-licence");
  EXPECT_EQ(hindrance_of("gull.svg,Mara,,,\n"), "share.unknown-licence");
  EXPECT_EQ(hindrance_of("gull.svg,Mara,,free,\n"), "share.unknown-licence");
  EXPECT_EQ(hindrance_of("gull.svg,Mara,,all rights reserved,\n"), "share.not-to-be-given");
  EXPECT_EQ(hindrance_of("gull.svg,Mara,,CC-BY-ND-4.0,cropped\n"), "share.changed-against-licence");
}

TEST(Hindrance, gives_way_when_the_maker_has_asked) {
  EXPECT_EQ(hindrance_of("", Asked::yes), "");
  EXPECT_EQ(hindrance_of("gull.svg,Mara,,all rights reserved,\n", Asked::yes), "");
}

TEST(Credits, group_files_by_author_and_licence) {
  Game game;
  game.title = "Reef";
  game.author = "Ida";
  game.licence = "CC BY 4.0";
  game.sources = listed(complete_list).value;
  EXPECT_THAT(
      credits(game,
              {"art/finds/limpet.svg", "art/finds/whelk.svg", "art/gull.svg", "fonts/Text.otf"}),
      ElementsAre("Reef by Ida. CC BY 4.0.",
                  "Pictures by Ida: limpet and whelk. Made for this game.",
                  "Picture by Mara Lund: gull. CC BY 4.0. From: https://example.org/gull. Changed: "
                  "recoloured.",
                  "Font by The Text Authors: Text. OFL-1.1."));
}

TEST(Credits, name_pictures_before_fonts_and_patterns_by_their_common_beginning) {
  Game game;
  game.title = "Reef";
  game.sources = listed(
                     "file,author,licence\n../fonts/Text-*.otf,Ada,OFL-1.1\n"
                     "finds/*,Zoe,CC0-1.0\n")
                     .value;
  EXPECT_THAT(credits(game),
              ElementsAre("Pictures by Zoe: finds. CC0 1.0.", "Fonts by Ada: Text. OFL-1.1."));
}

TEST(Credits, say_what_was_permitted) {
  Game game;
  game.sources = listed("file,author,licence\ngull.svg,Mara,all rights reserved\n").value;
  EXPECT_THAT(credits(game, {"art/gull.svg"}, {"art/gull.svg"}),
              ElementsAre("Picture by Mara: gull. Used with permission."));
}

TEST(SourcesToFillIn, are_read_without_a_fault_and_stop_a_share) {
  const Sources sources = listed(sources_to_fill_in({"gull.svg", "finds/a, b.svg"})).value;
  ASSERT_EQ(sources.rows.size(), 2U);
  EXPECT_EQ(sources.rows[1].file.text, "finds/a, b.svg");
  EXPECT_EQ(hindrance(sources, "art/gull.svg", Asked::no)->id, Id::share_unknown_licence);
}

}  // namespace
}  // namespace quoin::game
