#include "job/trace/trace_game.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "formats/png/png.h"
#include "job/edit/edit_folder.h"

namespace quoin::job {
namespace {

class NobodyWaits : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

Bytes shape_png(int side, std::uint32_t colour) {
  Raster raster{side, side, {}};
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      const bool inside = x > side / 4 && x < side * 3 / 4 && y > side / 3 && y < side * 2 / 3;
      raster.pixels.push_back(inside ? colour : 0xFFF4E3C1);
    }
  }
  return write_png(raster, 96);
}

/// A game whose cards show pictures by a column, by a pattern and by a plain name.
class TraceGame : public ::testing::Test {
 protected:
  void SetUp() override {
    std::filesystem::create_directories(folder.path("art"));
    folder.write("game.toml",
                 "[game]\ntitle = \"Wrack\"\n\n[card]\nsize = \"poker\"\n\n"
                 "[[layouts]]\nfile = \"layouts/face.toml\"\n");
    folder.write("cards.csv", "id,name,art\na,Adder,crab.png\nb,Boar,clam.png\n");
    folder.write("layouts/face.toml",
                 "[[element]]\nid = \"art\"\nkind = \"picture\"\npicture = \"art/{art}\"\n"
                 "at = [10, 10]\nsize = [40, 40]\n\n"
                 "[[element]]\nid = \"mark\"\nkind = \"picture\"\npicture = \"art/mark.png\"\n"
                 "at = [2, 60]\nsize = [20, 20]\n\n"
                 "[[element]]\nid = \"own\"\nkind = \"picture\"\npicture = \"art/{id}.png\"\n"
                 "at = [30, 60]\nsize = [20, 20]\n");
    folder.write("art/crab.png", shape_png(100, 0xFFC65B3A));
    folder.write("art/clam.png", shape_png(90, 0xFF20505A));
    folder.write("art/mark.png", shape_png(48, 0xFF303030));
    folder.write("art/a.png", shape_png(60, 0xFF7A9E3F));
    folder.write("art/b.png", shape_png(400, 0xFF7A9E3F));  // fine enough
  }
  GameTraced traced(AcceptTraces accept = {}) {
    return trace_game(folder.path().string(), {}, accept, calm);
  }
  static std::string said(const GameTraced& game) {
    std::string text;
    for (const Diagnostic& d : game.found) {
      text += std::string(facts(d.id).name) + ": " + d.message + "\n";
    }
    return text;
  }
  EditFolder folder{"trace-game"};
  NobodyWaits calm;
};

TEST_F(TraceGame, finds_what_prints_too_coarse_and_changes_nothing) {
  const auto before = folder.all();
  const GameTraced game = traced();
  std::vector<std::string> names;
  for (const CoarsePicture& one : game.pictures) names.push_back(one.traced.picture);
  EXPECT_EQ(names,
            (std::vector<std::string>{"art/a.png", "art/clam.png", "art/crab.png", "art/mark.png"}))
      << said(game);
  EXPECT_NEAR(game.pictures[2].ppi, 100 / (40 / 25.4), 0.1);
  EXPECT_EQ(game.pictures[2].pieces, std::vector<std::string>{"a"});
  EXPECT_EQ(game.pictures[3].pieces, (std::vector<std::string>{"a", "b"}));
  EXPECT_EQ(folder.all(), before);
}

TEST_F(TraceGame, names_the_drawings_in_list_and_layout_and_keeps_the_pictures) {
  AcceptTraces accept;
  accept.which = AcceptTraces::Which::all;
  const GameTraced game = traced(accept);
  EXPECT_EQ(folder.read("cards.csv"), "id,name,art\na,Adder,crab.svg\nb,Boar,clam.svg\n")
      << said(game);
  const std::string layout = folder.read("layouts/face.toml");
  EXPECT_NE(layout.find("picture = \"art/mark.svg\""), std::string::npos) << layout;
  EXPECT_NE(layout.find("picture = \"art/{art}\""), std::string::npos);
  for (const char* name : {"crab", "clam", "mark", "a"}) {
    EXPECT_TRUE(std::filesystem::exists(folder.path(std::string("art/") + name + ".svg"))) << name;
    EXPECT_TRUE(std::filesystem::exists(folder.path(std::string("art/") + name + ".png"))) << name;
  }
  EXPECT_EQ(game.changes, 3);
  // b.png is fine as it is, so the pattern that makes both names must stay.
  EXPECT_NE(layout.find("picture = \"art/{id}.png\""), std::string::npos);
  EXPECT_NE(said(game).find("trace.name-composed: art/a.png was redrawn as art/a.svg, but the "
                            "original is still shown"),
            std::string::npos)
      << said(game);
}

TEST_F(TraceGame, changes_a_pattern_when_all_its_pictures_are_redrawn) {
  folder.write("art/b.png", shape_png(60, 0xFF7A9E3F));
  AcceptTraces accept;
  accept.which = AcceptTraces::Which::all;
  const GameTraced game = traced(accept);
  EXPECT_NE(folder.read("layouts/face.toml").find("picture = \"art/{id}.svg\""), std::string::npos)
      << said(game);
  EXPECT_EQ(traced().pictures.size(), 0U);
}

TEST_F(TraceGame, takes_only_what_is_named) {
  AcceptTraces accept;
  accept.which = AcceptTraces::Which::named;
  accept.names = {"art/crab.png", "art/none.png"};
  const GameTraced game = traced(accept);
  EXPECT_EQ(folder.read("cards.csv"), "id,name,art\na,Adder,crab.svg\nb,Boar,clam.png\n");
  EXPECT_NE(said(game).find("trace.kept-as-it-is: no piece shows a picture art/none.png"),
            std::string::npos);
}

/// Box, mat and rules are looked at by the same finder as the cards.
TEST_F(TraceGame, redraws_what_box_mat_and_rules_show) {
  folder.write("game.toml", folder.read("game.toml") +
                                "\n[box]\nkind = \"tuck\"\nlayout = \"layouts/box.toml\"\n\n"
                                "[mat]\nsize = \"300x200\"\nlayout = \"layouts/mat.toml\"\n");
  folder.write("layouts/box.toml",
               "[[element]]\nid = \"front\"\nkind = \"picture\"\npanel = \"front\"\n"
               "picture = \"art/box.png\"\n");
  folder.write("layouts/mat.toml",
               "[[element]]\nid = \"ground\"\nkind = \"picture\"\ninset = \"bleed\"\n"
               "picture = \"art/mat.png\"\n");
  folder.write("rules.md",
               "# Rules\n\nPlay.\n\n![a shore](art/shore.png \"The shore\")\n\nWin with "
               "![crab](<art/crab.png>), see art/shore.png.\n");
  for (const char* name : {"box", "mat", "shore"}) {
    folder.write("art/" + std::string(name) + ".png", shape_png(100, 0xFFC65B3A));
  }
  AcceptTraces accept;
  accept.which = AcceptTraces::Which::all;
  const GameTraced game = traced(accept);
  EXPECT_EQ(folder.read("rules.md"),
            "# Rules\n\nPlay.\n\n![a shore](art/shore.svg \"The shore\")\n\nWin with "
            "![crab](<art/crab.svg>), see art/shore.png.\n")
      << said(game);
  EXPECT_NE(folder.read("layouts/box.toml").find("art/box.svg"), std::string::npos);
  EXPECT_NE(folder.read("layouts/mat.toml").find("art/mat.svg"), std::string::npos);
  std::map<std::string, std::vector<std::string>> shown;
  for (const CoarsePicture& one : game.pictures) shown[one.traced.picture] = one.pieces;
  EXPECT_EQ(shown["art/box.png"], std::vector<std::string>{"box"});
  EXPECT_EQ(shown["art/mat.png"], std::vector<std::string>{"mat"});
  EXPECT_EQ(shown["art/shore.png"], std::vector<std::string>{"rules"});
  EXPECT_EQ(shown["art/crab.png"], (std::vector<std::string>{"a", "rules"}));
}

TEST_F(TraceGame, can_be_taken_back) {
  const std::string cards = folder.read("cards.csv");
  AcceptTraces accept;
  accept.which = AcceptTraces::Which::all;
  (void)traced(accept);
  ASSERT_NE(folder.read("cards.csv"), cards);
  auto opened = Editor::open(folder.path().string());
  ASSERT_TRUE(opened.ok());
  EXPECT_EQ(opened->editor->undo_label(), "redraw 4 pictures");
  EXPECT_EQ(opened->editor->undo().state, EditAnswer::State::done);
  EXPECT_EQ(folder.read("cards.csv"), cards);
}

TEST_F(TraceGame, leaves_a_file_alone_that_has_the_drawings_name) {
  folder.write("art/crab.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>");
  AcceptTraces accept;
  accept.which = AcceptTraces::Which::all;
  const GameTraced game = traced(accept);
  EXPECT_EQ(folder.read("art/crab.svg"), "<svg xmlns='http://www.w3.org/2000/svg'/>");
  EXPECT_NE(folder.read("cards.csv").find("crab.png"), std::string::npos);
  EXPECT_NE(said(game).find("trace.file-there"), std::string::npos);
}

}  // namespace
}  // namespace quoin::job
