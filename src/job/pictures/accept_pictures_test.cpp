#include "job/pictures/accept_pictures.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quoin::job {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Pair;

/// A game folder of which nothing but names and sources matters.
class AcceptPictures : public testing::Test {
 protected:
  void SetUp() override {
    world.put("game.toml",
              "[game]\ntitle = \"Wrack\"\n[card]\nsize = \"poker\"\n"
              "[[layouts]]\nfile = \"layouts/face.toml\"\n");
    world.put("layouts/face.toml",
              "[[element]]\nid = \"art\"\nkind = \"picture\"\npicture = \"art/{art}\"\n"
              "at = [10, 10]\nsize = [40, 40]\n");
    world.put("cards.csv", "id,name,art\na,Adder,finds/crab.png\n");
    world.put("art/finds/crab.png", "the picture");
  }
  [[nodiscard]] Acceptance accepted(MadeBy how, Instead instead = Instead::no,
                                    std::size_t place = 0) {
    const game::Game game = game::read_game(world).value;
    Accepting accepting{"art/finds/crab.png", how, {{place, &fresh}}, instead};
    return accept_pictures(world, game, accepting, shown);
  }
  /// The cells of the one row that is added to the list of sources.
  [[nodiscard]] static std::map<std::string, std::string> row_in(const Acceptance& acceptance) {
    for (const game::Change& change : acceptance.changes) {
      if (const auto* row = std::get_if<game::EditRow>(&change)) return row->values;
    }
    return {};
  }

  MemoryWorld world;
  NewPicture fresh{"new bytes", 10, 10, {}};
  ShownPictures shown{{"art/finds/crab.png", {}}};
};

TEST_F(AcceptPictures, names_new_files_by_what_was_done) {
  EXPECT_THAT(accepted(MadeBy::redrawing).names, ElementsAre("art/finds/crab.svg"));
  EXPECT_THAT(accepted(MadeBy::straightening).names, ElementsAre("art/finds/crab-straight.png"));
  EXPECT_THAT(accepted(MadeBy::cutting_out).names, ElementsAre("art/finds/crab-cut-out.png"));
  EXPECT_THAT(accepted(MadeBy::recolouring).names, ElementsAre("art/finds/crab-colours.png"));
  EXPECT_THAT(accepted(MadeBy::splitting, Instead::no, 4).names,
              ElementsAre("art/finds/crab-5.png"));
  world.put("art/finds/crab-cut-out.png", "another");
  world.put("art/finds/crab-cut-out-2.png", "another");
  EXPECT_THAT(accepted(MadeBy::cutting_out).names, ElementsAre("art/finds/crab-cut-out-3.png"));
  world.put("art/finds/crab-cut-out-2.png", "new bytes");
  EXPECT_THAT(accepted(MadeBy::cutting_out).names, ElementsAre("art/finds/crab-cut-out-2.png"));
}

TEST_F(AcceptPictures, changes_the_end_of_a_path_that_a_layout_completes) {
  const Acceptance taken = accepted(MadeBy::straightening, Instead::yes);
  ASSERT_EQ(taken.changes.size(), 1U);
  EXPECT_EQ(std::get<game::SetCell>(taken.changes[0]).text, "finds/crab-straight.png");
  EXPECT_EQ(taken.label, "use crab-straight.png instead of crab.png");
  EXPECT_THAT(taken.found, IsEmpty());
}

TEST_F(AcceptPictures, keeps_the_words_of_the_list_of_sources) {
  world.put("art/sources.csv",
            "picture,made_by,from,license,change made\n"
            "art/finds/crab.png,Mara,a walk,CC-BY-4.0,cropped\n");
  EXPECT_THAT(row_in(accepted(MadeBy::cutting_out)),
              ElementsAre(Pair("change made", "cropped; cut out from crab.png"),
                          Pair("from", "a walk"), Pair("license", "CC-BY-4.0"),
                          Pair("made_by", "Mara"), Pair("picture", "art/finds/crab-cut-out.png")));
}

TEST_F(AcceptPictures, gives_a_row_of_its_own_to_what_a_pattern_takes) {
  world.put("art/sources.csv", "file,author,licence\nfinds/*,Mara,own\n");
  const Acceptance taken = accepted(MadeBy::redrawing);
  ASSERT_EQ(taken.changes.size(), 2U);
  EXPECT_EQ(std::get<game::EditColumn>(taken.changes[0]).column, "changes");
  EXPECT_THAT(row_in(taken),
              ElementsAre(Pair("author", "Mara"), Pair("changes", "redrawn from crab.png"),
                          Pair("file", "finds/crab.svg"), Pair("licence", "own")));
}

TEST_F(AcceptPictures, adds_no_row_for_what_has_one_or_whose_original_has_none) {
  world.put("art/sources.csv", "file,author,licence\nother.png,Mara,own\n");
  EXPECT_THAT(accepted(MadeBy::redrawing).changes, IsEmpty());
  world.put("art/sources.csv", "file,licence,changes\nfinds/crab.png,own,\nfinds/crab.svg,own,\n");
  EXPECT_THAT(accepted(MadeBy::redrawing).changes, IsEmpty());
}

TEST_F(AcceptPictures, says_which_drawing_still_shows_the_original) {
  world.put("cards.csv", "id,name,art\na,Adder,frame.svg\n");
  shown["art/finds/crab.png"].within = {"art/frame.svg"};
  const Acceptance taken = accepted(MadeBy::redrawing, Instead::yes);
  EXPECT_THAT(taken.changes, IsEmpty());
  ASSERT_EQ(taken.found.size(), 1U);
  EXPECT_EQ(taken.found[0].details[0], "art/frame.svg shows it inside");
  EXPECT_THAT(taken.found[0].hints[0], HasSubstr("put the new one into art/frame.svg"));
}

TEST_F(AcceptPictures, says_nothing_of_a_picture_that_no_piece_shows) {
  shown.clear();
  world.put("cards.csv", "id,name,art\na,Adder,\n");
  EXPECT_THAT(accepted(MadeBy::redrawing, Instead::yes).found, IsEmpty());
}

}  // namespace
}  // namespace quoin::job
