#include "job/pictures/list_pictures.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/png/png.h"
#include "job/pictures/pictures_report.h"
#include "job/trace/trace_game.h"

namespace quoin::job {
namespace {
using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using State = ListedPicture::State;

class NeverStops : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

Bytes png_of(int width, int height) {
  Raster raster{width, height, {}};
  for (int i = 0; i < width * height; ++i) {
    raster.pixels.push_back(i % width < width / 2 ? 0xFFC65B3A : 0xFFF4E3C1);
  }
  return write_png(raster, 96);
}

/// A game whose every kind of piece shows a picture of its own that is too coarse there.
MemoryWorld game_of_coarse_pictures() {
  MemoryWorld world;
  world.put("game.toml",
            "[game]\ntitle = \"Wrack\"\n\n[card]\nsize = \"poker\"\n\n"
            "[symbols]\nshell = \"art/shell.png\"\nnever = \"art/never.png\"\n\n"
            "[suits.reef]\nname = \"Reef\"\nicon = \"art/reef.png\"\n\n"
            "[[layouts]]\nfile = \"layouts/face.toml\"\n\n"
            "[decks.main]\nback = \"layouts/back.toml\"\n\n"
            "[box]\nkind = \"tuck\"\nlayout = \"layouts/box.toml\"\n\n"
            "[mat]\nsize = \"300x200\"\nlayout = \"layouts/mat.toml\"\n");
  const auto picture = [](const std::string& id, const std::string& file, const std::string& box) {
    return "[[element]]\nid = \"" + id + "\"\nkind = \"picture\"\npicture = \"" + file + "\"\n" +
           box + "\n";
  };
  world.put("cards.csv", "id,suit,deck\nadder,reef,main\nboar,reef,main\n");
  world.put("layouts/face.toml",
            picture("art", "art/card.png", "at = [10, 10]\nsize = [25.4, 25.4]") +
                picture("icon", "{suit.icon}", "at = [40, 40]\nsize = [12.7, 12.7]") +
                picture("soft", "art/soft.png", "at = [10, 60]\nsize = [25.4, 25.4]") +
                picture("sharp", "art/sharp.png", "at = [40, 60]\nsize = [12.7, 12.7]") +
                picture("drawn", "art/drawn.svg", "at = [40, 10]\nsize = [12, 12]") +
                "[[element]]\nid = \"words\"\nkind = \"text\"\ntext = \"a [shell] here\"\n"
                "type = 20\nat = [10, 40]\nsize = [30, 12]\n");
  world.put("layouts/back.toml",
            picture("back", "art/back.png", "inset = \"bleed\"\nfit = \"cover\""));
  world.put("layouts/box.toml", picture("front", "art/box.png", "panel = \"front\""));
  world.put("layouts/mat.toml", picture("ground", "art/mat.png", "inset = \"bleed\""));
  world.put("rules.md", "# Rules\n\nPlay.\n\n![a shore](art/rules.png)\n\nWin.\n");
  for (const char* name : {"card", "reef", "shell", "never", "back", "box", "mat", "rules"}) {
    world.put("art/" + std::string(name) + ".png", png_of(64, 64));
  }
  world.put("art/soft.png", png_of(250, 250));
  world.put("art/sharp.png", png_of(150, 150));
  world.put(
      "art/drawn.svg",
      "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
      "width=\"10\" height=\"10\"><image xlink:href=\"inner.png\" width=\"10\" height=\"10\"/>"
      "</svg>");
  world.put("art/inner.png", png_of(16, 16));
  world.put("art/old.png", png_of(300, 150));
  world.put("art/old-cut-out.png", png_of(300, 150));
  world.put("art/moving.gif", "GIF89a\x01");
  world.put("art/torn.png", png_of(40, 40).substr(0, 60));
  world.put("art/notes.txt", "not a picture");
  return world;
}

class ListOfPictures : public testing::Test {
 protected:
  const ListedPicture& of(const std::string& file) const {
    const auto found = std::find_if(list.pictures.begin(), list.pictures.end(),
                                    [&](const ListedPicture& one) { return one.file == file; });
    if (found == list.pictures.end()) throw std::runtime_error("not listed: " + file);
    return *found;
  }
  std::vector<std::string> with(State state) const {
    std::vector<std::string> files;
    for (const ListedPicture& one : list.pictures) {
      if (one.state == state) files.push_back(one.file);
    }
    return files;
  }
  std::string said() const {
    std::string text;
    for (const Diagnostic& one : list.found) {
      text += std::string(facts(one.id).name) + ": " + one.message + "\n";
    }
    return text;
  }
  NeverStops steady;
  MemoryWorld world = game_of_coarse_pictures();
  PictureList list = list_pictures(world, steady);
};

TEST_F(ListOfPictures, has_what_prints_too_coarse_on_every_kind_of_piece) {
  EXPECT_EQ(said(), "");
  EXPECT_THAT(with(State::coarse),
              testing::UnorderedElementsAre("art/card.png", "art/reef.png", "art/back.png",
                                            "art/box.png", "art/mat.png", "art/rules.png"));
  EXPECT_THAT(of("art/card.png").pieces, ElementsAre("adder", "boar"));
  EXPECT_THAT(of("art/reef.png").pieces, ElementsAre("adder", "boar", "suit reef"));
  EXPECT_THAT(of("art/shell.png").pieces, ElementsAre("adder", "boar", "symbol shell"));
  EXPECT_THAT(of("art/back.png").pieces, ElementsAre("back of main"));
  EXPECT_THAT(of("art/box.png").pieces, ElementsAre("box"));
  EXPECT_THAT(of("art/mat.png").pieces, ElementsAre("mat"));
  EXPECT_THAT(of("art/rules.png").pieces, ElementsAre("rules"));
}

TEST_F(ListOfPictures, says_how_large_each_prints_and_can_be_printed) {
  const ListedPicture& card = of("art/card.png");  // 64 px on one inch
  ASSERT_TRUE(card.ppi && card.printed);
  EXPECT_NEAR(*card.ppi, 64, 1e-6);
  EXPECT_NEAR(card.printed->width.value, 25.4, 1e-6);
  EXPECT_EQ(card.words,
            "Prints at 64 ppi, 300 are wanted: redraw it, or print it no wider than 5.4 mm.");
  // An inch is 25.4 mm (NIST SP 811, appendix B.8), a resolution pixels over inches.
  EXPECT_NEAR(of("art/old.png").sizes[0].size.width.value, 300 / 300.0 * 25.4, 1e-9);
  EXPECT_NEAR(of("art/old.png").sizes[1].size.height.value, 150 / 220.0 * 25.4, 1e-9);
  EXPECT_NEAR(of("art/old.png").sizes[2].size.width.value, 300 / 150.0 * 25.4, 1e-9);
  EXPECT_THAT(card.details, Contains("no colour profile: taken as sRGB"));
  // A symbol is as high as its type: 64 px over 20 pt of 1/72 in.
  EXPECT_NEAR(*of("art/shell.png").ppi, 64 / (20 / 72.0), 0.01);
}

TEST_F(ListOfPictures, asks_less_of_a_mat_that_is_seen_from_further_off) {
  EXPECT_LT(of("art/mat.png").wanted_ppi, 300);
  EXPECT_EQ(of("art/box.png").wanted_ppi, 300);
}

TEST_F(ListOfPictures, tells_soft_sharp_vectors_unreadable_and_unused_apart) {
  EXPECT_THAT(with(State::soft), ElementsAre("art/shell.png", "art/soft.png"));
  EXPECT_EQ(of("art/soft.png").words,
            "Prints at 250 ppi, 300 are wanted: redraw it, or print it no wider than 21 mm.");
  EXPECT_THAT(with(State::sharp), ElementsAre("art/sharp.png"));
  EXPECT_EQ(of("art/sharp.png").words, "Prints at 300 ppi: sharp.");
  EXPECT_THAT(with(State::vectors), ElementsAre("art/drawn.svg", "art/inner.png"));
  EXPECT_EQ(of("art/inner.png").words, "Is part of art/drawn.svg, and as large as that shows it.");
  EXPECT_THAT(with(State::unreadable), ElementsAre("art/moving.gif", "art/torn.png"));
  EXPECT_FALSE(of("art/torn.png").readable);
  EXPECT_GT(of("art/torn.png").bytes, 0U);
  EXPECT_THAT(of("art/moving.gif").words, HasSubstr("GIF"));
  EXPECT_THAT(with(State::unused),
              ElementsAre("art/never.png", "art/old-cut-out.png", "art/old.png"));
  EXPECT_THAT(of("art/never.png").words, HasSubstr("Is the symbol never, which no piece shows."));
}

TEST_F(ListOfPictures, is_coarsest_first_and_unused_last) {
  std::vector<State> states;
  for (const ListedPicture& one : list.pictures) states.push_back(one.state);
  EXPECT_TRUE(std::is_sorted(states.begin(), states.end()));
  double last = 0;
  for (const ListedPicture& one : list.pictures) {
    if (one.state != State::coarse) break;
    EXPECT_GE(*one.ppi / one.wanted_ppi, last) << one.file;
    last = *one.ppi / one.wanted_ppi;
  }
  EXPECT_THAT(
      list.brief,
      ElementsAre("8 of 16 pictures print too coarse", "pixels show in 6 of them, 2 will look soft",
                  "2 of 16 pictures cannot be read", "3 of 16 pictures are on no piece"));
}

TEST_F(ListOfPictures, names_what_was_made_from_a_picture) {
  EXPECT_THAT(of("art/old.png").made, ElementsAre("art/old-cut-out.png"));
  EXPECT_THAT(of("art/old-cut-out.png").made, IsEmpty());
  const std::vector<std::string> files{
      "art/crab.svg",       "art/crab-straight.png", "art/crab-cut-out-2.png", "art/crab-12.png",
      "art/crab-small.png", "art/crab-claw-1.png",   "art/crabs.png",          "art/crab-1.svg",
      "art/crab-2.svg",     "other/crab.svg"};
  EXPECT_THAT(made_from("art/crab.jpg", files),
              ElementsAre("art/crab.svg", "art/crab-straight.png", "art/crab-cut-out-2.png",
                          "art/crab-12.png", "art/crab-2.svg"));
}

TEST_F(ListOfPictures, says_what_is_shown_in_place_of_an_original) {
  world.put("art/card.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\"/>");
  std::string face(*world.read("layouts/face.toml", 1 << 20).bytes);
  face.replace(face.find("art/card.png"), 12, "art/card.svg");
  world.put("layouts/face.toml", face);
  list = list_pictures(world, steady);
  EXPECT_EQ(of("art/card.png").words,
            "On no piece: art/card.svg, which was made from it, is shown instead.");
}

TEST_F(ListOfPictures, is_the_same_of_pieces_that_were_drawn_already) {
  const Outcome checked = check(world, {}, steady);
  Workshop shop(world, checked.game, cards_with_faces(checked.game), nullptr, "");
  PictureFinder finder(world);
  for (std::size_t i = 0; i < shop.drawings().size(); ++i) {
    finder.see(shop.compose(i), shop.drawings()[i].piece, checked.game.limits, shop.typesetter());
  }
  finder.see_other_pieces(checked, shop.typesetter());
  PictureList again = list_pictures(world, checked.game, finder.shown, shop.shelf());
  again.found = list.found;
  EXPECT_EQ(pictures_report(again), pictures_report(list));
}

/// The checks and the list must never speak of other pictures: they share their limits.
TEST_F(ListOfPictures, agrees_with_the_checks_on_what_is_coarse) {
  std::set<std::string> told, listed;
  for (const Diagnostic& one : check(world, {}, steady).found) {
    if (one.id == Id::art_low_resolution) told.insert(one.message.substr(0, one.message.find(' ')));
  }
  for (const ListedPicture& one : list.pictures) {
    if (one.state == State::coarse || one.state == State::soft) listed.insert(one.file);
  }
  EXPECT_EQ(told, listed);
}

TEST(ListOfDemoPictures, all_print_sharp_and_are_all_listed) {
  NeverStops steady;
  const auto world = real_world(std::string(QUOIN_SOURCE_DIR) + "/examples/tidewrack");
  const PictureList list = list_pictures(*world, steady);
  EXPECT_THAT(list.found, IsEmpty());
  std::set<std::string> files;
  for (const std::string& path : world->files_below("art")) {
    if (path.ends_with(".svg") || path.ends_with(".png")) files.insert(path);
  }
  ASSERT_GT(files.size(), 20U);
  for (const ListedPicture& one : list.pictures) {
    EXPECT_TRUE(one.state == State::vectors || one.state == State::sharp) << one.file;
    files.erase(one.file);
  }
  EXPECT_THAT(files, IsEmpty());
  EXPECT_THAT(list.brief, Contains("all that is printed is sharp"));
}

}  // namespace
}  // namespace quoin::job
