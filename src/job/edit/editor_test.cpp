#include "job/edit/editor.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include "job/edit/edit_folder.h"

namespace quoin::job {
namespace {
namespace fs = std::filesystem;

std::unique_ptr<Editor> open_editor(const EditFolder& folder) {
  auto opened = Editor::open(folder.path().string());
  if (!opened) throw std::logic_error(opened.why().front().message);
  return std::move(opened->editor);
}

std::string apply(Editor& editor, Edit edit) {
  return words_of(editor.apply(editor.look(), std::move(edit)));
}

TEST(Editor, writes_all_changes_of_an_edit) {
  const EditFolder folder("all");
  const auto editor = open_editor(folder);
  EXPECT_EQ(apply(*editor, edit_of("both", {set_title("Tide"), set_name(1, "b", "Bear")})),
            "done: both");
  EXPECT_EQ(folder.read("game.toml"),
            "[game]\ntitle = \"Tide\" # ours\n\n[card]\nsize = 'poker'\n");
  EXPECT_EQ(folder.read("cards.csv"), "id,name\na,Adder\nb,Bear\n");
}

TEST(Editor, writes_nothing_when_one_change_of_an_edit_cannot_be_made) {
  const EditFolder folder("none");
  const auto before = folder.all();
  const auto editor = open_editor(folder);
  EXPECT_EQ(apply(*editor, edit_of("both", {set_title("Tide"), set_name(5, "q", "Quail")})),
            "refused: both; cards.csv: the card q is not in the list any more [edit.place-gone]");
  EXPECT_EQ(folder.all(), before);
  EXPECT_EQ(editor->undo_label(), std::nullopt);
}

TEST(Editor, makes_the_second_change_in_what_the_first_one_made) {
  const EditFolder folder("second");
  const auto editor = open_editor(folder);
  const game::ValuePath fresh{"element", std::size_t{2}};
  game::ValuePath key = fresh;
  key.emplace_back("kind");
  EXPECT_EQ(
      apply(*editor, edit_of("add", {game::EditElement{"layouts/face.toml", game::ListOp::add,
                                                       fresh, 0, game::Node{{}, game::Table{}}},
                                     game::SetValue{"layouts/face.toml", key,
                                                    game::Node{{}, std::string("text")}}})),
      "done: add");
  EXPECT_EQ(folder.read("layouts/face.toml"),
            "[[element]]\nid = \"name\"\nat = [1, 2]\n\n[[element]]\nid = \"art\"\n\n[[element]]\n"
            "kind = \"text\"\n");
}

TEST(Editor, shows_a_passing_edit_without_writing_it) {
  const EditFolder folder("passing");
  const auto before = folder.all();
  const auto editor = open_editor(folder);
  EXPECT_EQ(apply(*editor, passing({set_at(5)})), "done: drag");
  EXPECT_EQ(apply(*editor, passing({set_at(6)})), "done: drag");
  const View view = editor->look();
  EXPECT_THAT(*view.world->read("layouts/face.toml", 1000).bytes, testing::HasSubstr("[6, 2]"));
  EXPECT_EQ(folder.all(), before);
  EXPECT_EQ(words_of(editor->apply(view, edit_of("move", {set_at(7)}))), "done: move");
  EXPECT_THAT(folder.read("layouts/face.toml"), testing::HasSubstr("[7, 2]"));
  EXPECT_THAT(*editor->look().world->read("layouts/face.toml", 1000).bytes,
              testing::HasSubstr("[7, 2]"));
}

TEST(Editor, shares_texts_that_did_not_change_between_views) {
  const EditFolder folder("shares");
  const auto editor = open_editor(folder);
  const View first = editor->look();
  EXPECT_EQ(apply(*editor, edit_of("title", {set_title("Tide")})), "done: title");
  const View second = editor->look();
  EXPECT_EQ(first.kept.at("cards.csv"), second.kept.at("cards.csv"));
  EXPECT_NE(first.kept.at("game.toml"), second.kept.at("game.toml"));
}

TEST(Editor, writes_rules_beside_what_others_write_and_takes_them_back_after_a_stop) {
  const EditFolder folder("rules");
  folder.write("rules.md", "# Reef\n\nDraw.\n\nPlay.\n\nThe end.\n");
  const auto write = [&](const std::string& text) {
    return edit_of("write", {game::EditText{"rules.md", text, {}}}, "rules 1");
  };
  {
    const auto editor = open_editor(folder);
    const View seen = editor->look();
    folder.write("rules.md", "# Reef\n\nDraw.\n\nPlay.\n\nThe very end.\n");
    EXPECT_EQ(words_of(editor->apply(seen, write("# Reef\n\nDraw two.\n\nPlay.\n\nThe end.\n"))),
              "done: write");
    EXPECT_EQ(folder.read("rules.md"), "# Reef\n\nDraw two.\n\nPlay.\n\nThe very end.\n");
    EXPECT_EQ(apply(*editor, write("# Reef\n\nDraw three.\n\nPlay.\n\nThe very end.\n")),
              "done: write");
  }
  const auto editor = open_editor(folder);
  EXPECT_EQ(words_of(editor->undo()), "done: write");
  EXPECT_EQ(folder.read("rules.md"), "# Reef\n\nDraw.\n\nPlay.\n\nThe very end.\n");
  EXPECT_EQ(words_of(editor->redo()), "done: write");
  EXPECT_EQ(folder.read("rules.md"), "# Reef\n\nDraw three.\n\nPlay.\n\nThe very end.\n");
  EXPECT_EQ(apply(*editor, edit_of("art", {game::EditText{"cards.csv", "x", {}}})),
            "refused: art; cards.csv: cards.csv is not a file whose text can be changed here "
            "[edit.not-possible]");
}

TEST(Editor, asks_when_the_same_lines_of_the_rules_were_changed_elsewhere) {
  const EditFolder folder("both");
  folder.write("rules.md", "# Reef\n\nDraw.\n\nThe end.\n");
  const auto editor = open_editor(folder);
  const View seen = editor->look();
  folder.write("rules.md", "# Reef\n\nTake.\n\nThe end.\n");
  const game::EditText mine{"rules.md", "# Reef\n\nDraw two.\n\nThe end.\n", {}};
  EXPECT_EQ(words_of(editor->apply(seen, edit_of("write", {mine}))), "conflict: write");
  EXPECT_EQ(folder.read("rules.md"), "# Reef\n\nTake.\n\nThe end.\n");
  const std::vector<Conflict> open = editor->conflicts();
  ASSERT_EQ(open.size(), 1U);
  EXPECT_EQ(open[0].mine, "Draw two.\n");
  EXPECT_EQ(open[0].theirs, "Take.\n");
  EXPECT_EQ(open[0].place.line, 3U);
  EXPECT_EQ(words_of(editor->choose(open[0].id, Keep::mine)), "done: write");
  EXPECT_EQ(folder.read("rules.md"), mine.text);
}

TEST(Undo, gives_the_same_bytes_back_step_by_step) {
  const EditFolder folder("undo");
  const auto before = folder.all();
  const auto editor = open_editor(folder);
  EXPECT_EQ(apply(*editor, edit_of("title", {set_title("Tide")})), "done: title");
  const auto between = folder.all();
  EXPECT_EQ(
      apply(*editor, edit_of("row", {game::EditRow{"cards.csv", game::ListOp::remove, 0, "a"}})),
      "done: row");
  const auto after = folder.all();
  EXPECT_EQ(editor->undo_label(), "row");
  EXPECT_EQ(words_of(editor->undo()), "done: row");
  EXPECT_EQ(folder.all(), between);
  EXPECT_EQ(words_of(editor->undo()), "done: title");
  EXPECT_EQ(folder.all(), before);
  EXPECT_EQ(words_of(editor->undo()),
            "refused: ; : there is no change to take back [edit.nothing-to-undo]");
  EXPECT_EQ(words_of(editor->redo()), "done: title");
  EXPECT_EQ(words_of(editor->redo()), "done: row");
  EXPECT_EQ(folder.all(), after);
  EXPECT_EQ(words_of(editor->redo()),
            "refused: ; : there is no change to make again [edit.nothing-to-undo]");
  EXPECT_EQ(words_of(editor->undo()), "done: row");
  EXPECT_EQ(apply(*editor, edit_of("other", {set_at(9)})), "done: other");
  EXPECT_EQ(editor->redo_label(), std::nullopt);
}

TEST(Undo, outlives_the_program) {
  const EditFolder folder("outlives");
  const auto before = folder.all();
  EXPECT_EQ(apply(*open_editor(folder), edit_of("title", {set_title("Tide")})), "done: title");
  const auto after = folder.all();
  EXPECT_EQ(words_of(open_editor(folder)->undo()), "done: title");
  EXPECT_EQ(folder.all(), before);
  EXPECT_EQ(words_of(open_editor(folder)->redo()), "done: title");
  EXPECT_EQ(folder.all(), after);
}

TEST(Undo, takes_a_group_back_as_one_step) {
  const EditFolder folder("group");
  const auto before = folder.all();
  {
    const auto editor = open_editor(folder);
    EXPECT_EQ(apply(*editor, edit_of("title", {set_title("Tide")})), "done: title");
    for (int i = 2; i < 6; ++i) {
      EXPECT_EQ(apply(*editor, edit_of("move", {set_at(i)}, "drag 1")), "done: move");
    }
    EXPECT_EQ(apply(*editor, edit_of("move", {set_at(9)}, "drag 2")), "done: move");
  }
  const auto editor = open_editor(folder);
  EXPECT_EQ(words_of(editor->undo()), "done: move");
  EXPECT_THAT(folder.read("layouts/face.toml"), testing::HasSubstr("[5, 2]"));
  EXPECT_EQ(words_of(editor->undo()), "done: move");
  EXPECT_THAT(folder.read("layouts/face.toml"), testing::HasSubstr("[1, 2]"));
  EXPECT_EQ(words_of(editor->redo()), "done: move");
  EXPECT_THAT(folder.read("layouts/face.toml"), testing::HasSubstr("[5, 2]"));
  EXPECT_EQ(words_of(editor->undo()), "done: move");
  EXPECT_EQ(words_of(editor->undo()), "done: title");
  EXPECT_EQ(folder.all(), before);
}

TEST(Undo, leaves_what_others_changed) {
  const EditFolder folder("others");
  const auto editor = open_editor(folder);
  EXPECT_EQ(apply(*editor, edit_of("both", {set_title("Tide"), set_name(0, "a", "Asp")})),
            "done: both");
  folder.write("cards.csv", "name,id\nBear,b\nAsp,a\nnew,c\n");
  EXPECT_EQ(words_of(editor->undo()), "done: both");
  EXPECT_EQ(folder.read("cards.csv"), "name,id\nBear,b\nAdder,a\nnew,c\n");
  EXPECT_THAT(folder.read("game.toml"), testing::HasSubstr("\"Wrack\""));
  EXPECT_EQ(words_of(editor->redo()), "done: both");
  EXPECT_EQ(folder.read("cards.csv"), "name,id\nBear,b\nAsp,a\nnew,c\n");
  folder.write("cards.csv", "id,name\na,Aardvark\n");
  EXPECT_EQ(words_of(editor->undo()),
            "done: both; cards.csv:2:3: this value was changed elsewhere since then and stays as "
            "it is [edit.both-changed]");
  EXPECT_EQ(folder.read("cards.csv"), "id,name\na,Aardvark\n");
  EXPECT_THAT(folder.read("game.toml"), testing::HasSubstr("\"Wrack\""));
}

TEST(Conflict, keeps_both_changes_when_they_are_of_different_values) {
  const EditFolder folder("different");
  const auto editor = open_editor(folder);
  const View seen = editor->look();
  folder.write("game.toml", "# theirs\n[game]\ntitle = \"Wrack\"\n[card]\nsize = 'tarot'\n");
  EXPECT_EQ(words_of(editor->apply(seen, edit_of("title", {set_title("Tide")}))), "done: title");
  EXPECT_EQ(folder.read("game.toml"),
            "# theirs\n[game]\ntitle = \"Tide\"\n[card]\nsize = 'tarot'\n");
}

TEST(Conflict, waits_for_the_maker_and_survives_the_program) {
  const EditFolder folder("waits");
  const std::string theirs = "[game]\ntitle = \"Theirs\"\n";
  {
    const auto editor = open_editor(folder);
    const View seen = editor->look();
    folder.write("game.toml", theirs);
    const Edit edit = edit_of("both", {set_title("Mine"), set_name(0, "a", "Asp")});
    EXPECT_EQ(words_of(editor->apply(seen, edit)), "conflict: both");
    EXPECT_EQ(folder.read("game.toml"), theirs);
    EXPECT_EQ(folder.read("cards.csv"), "id,name\na,Adder\nb,Boar\n");
  }
  const auto editor = open_editor(folder);
  ASSERT_EQ(editor->conflicts().size(), 1U);
  const Conflict conflict = editor->conflicts()[0];
  EXPECT_EQ(conflict.label + " " + conflict.file + " " + conflict.mine + " " + conflict.theirs,
            "both game.toml \"Mine\" \"Theirs\"");
  EXPECT_EQ(to_string(conflict.place), "game.toml:2:9");
  EXPECT_EQ(words_of(editor->choose(conflict.id, Keep::mine)), "done: both");
  EXPECT_EQ(folder.read("game.toml"), "[game]\ntitle = \"Mine\"\n");
  EXPECT_EQ(folder.read("cards.csv"), "id,name\na,Asp\nb,Boar\n");
  EXPECT_TRUE(editor->conflicts().empty());
  EXPECT_EQ(words_of(editor->choose(conflict.id, Keep::mine)),
            "refused: ; : the choice between these two values was made already "
            "[edit.unknown-conflict]");
  EXPECT_EQ(words_of(editor->undo()), "done: both");
  EXPECT_EQ(folder.read("game.toml"), theirs);
}

TEST(Conflict, can_be_left_to_the_other_program) {
  const EditFolder folder("theirs");
  const auto editor = open_editor(folder);
  const View seen = editor->look();
  folder.write("game.toml", "[game]\ntitle = \"Theirs\"\n");
  const Edit edit = edit_of("both", {set_title("Mine"), set_name(0, "a", "Asp")});
  EXPECT_EQ(words_of(editor->apply(seen, edit)), "conflict: both");
  EXPECT_EQ(words_of(editor->choose(editor->conflicts().at(0).id, Keep::theirs)), "done: both");
  EXPECT_EQ(folder.read("game.toml"), "[game]\ntitle = \"Theirs\"\n");
  EXPECT_EQ(folder.read("cards.csv"), "id,name\na,Asp\nb,Boar\n");
  EXPECT_TRUE(editor->conflicts().empty());
}

TEST(EditorOfBadFiles, waits_until_a_broken_file_can_be_read_again) {
  const EditFolder folder("broken");
  auto editor = open_editor(folder);
  const View seen = editor->look();
  folder.write("game.toml", "[game\n");
  EXPECT_EQ(words_of(editor->apply(seen, edit_of("title", {set_title("Tide")}))).substr(0, 31),
            "waiting: title; game.toml:1:6: ");
  EXPECT_EQ(folder.read("game.toml"), "[game\n");
  EXPECT_EQ(editor->waiting().at(0).message, "the change \"title\" waits to be written");
  editor.reset();
  editor = open_editor(folder);
  EXPECT_EQ(editor->undo_label(), "title");
  folder.write("game.toml", "[game]\ntitle = \"Wrack\"\n");
  EXPECT_EQ(words_of(editor->retry()), "done: title");
  EXPECT_EQ(folder.read("game.toml"), "[game]\ntitle = \"Tide\"\n");
  EXPECT_TRUE(editor->waiting().empty());
}

TEST(EditorOfBadFiles, waits_for_a_file_that_was_deleted_or_became_a_folder) {
  const EditFolder folder("deleted");
  const auto editor = open_editor(folder);
  const View seen = editor->look();
  fs::remove(folder.path("game.toml"));
  EXPECT_EQ(words_of(editor->apply(seen, edit_of("title", {set_title("Tide")}))),
            "waiting: title; game.toml: there is no file game.toml [game.missing-file]");
  EXPECT_FALSE(fs::exists(folder.path("game.toml")));
  fs::create_directory(folder.path("game.toml"));
  EXPECT_EQ(words_of(editor->apply(seen, edit_of("second", {set_title("Tides")}))),
            "waiting: second; game.toml: game.toml is a folder, not a file "
            "[game.unreadable-file]");
  EXPECT_EQ(editor->waiting().size(), 2U);
  EXPECT_EQ(words_of(editor->undo()), "done: second");
  EXPECT_EQ(words_of(editor->undo()), "done: title");
  EXPECT_TRUE(editor->waiting().empty());
}

TEST(EditorOfBadFiles, waits_for_a_file_that_may_only_be_read) {
  const EditFolder folder("readonly");
  const auto editor = open_editor(folder);
  ::chmod(folder.path("game.toml").c_str(), 0444);
  EXPECT_EQ(apply(*editor, edit_of("title", {set_name(0, "a", "Asp"), set_title("Tide")})),
            "waiting: title; game.toml: game.toml may only be read, not changed "
            "[edit.read-only]");
  EXPECT_EQ(folder.read("cards.csv"), "id,name\na,Adder\nb,Boar\n");
  EXPECT_THAT(*editor->look().world->read("game.toml", 1000).bytes, testing::HasSubstr("\"Tide\""));
  ::chmod(folder.path("game.toml").c_str(), 0640);
  EXPECT_EQ(words_of(editor->retry()), "done: title");
  EXPECT_THAT(folder.read("game.toml"), testing::HasSubstr("\"Tide\""));
  EXPECT_EQ(folder.read("cards.csv"), "id,name\na,Asp\nb,Boar\n");
  struct stat facts {};
  ASSERT_EQ(::stat(folder.path("game.toml").c_str(), &facts), 0);
  EXPECT_EQ(facts.st_mode & 07777U, 0640U);
}

TEST(EditorOfBadFiles, follows_links_inside_the_game_folder_only) {
  const EditFolder folder("links"), other("other");
  fs::rename(folder.path("game.toml"), folder.path("layouts/real.toml"));
  fs::create_symlink("layouts/real.toml", folder.path("game.toml"));
  fs::remove(folder.path("cards.csv"));
  fs::create_symlink(other.path("cards.csv"), folder.path("cards.csv"));
  const auto before = other.all();
  const auto editor = open_editor(folder);
  EXPECT_EQ(apply(*editor, edit_of("title", {set_title("Tide")})), "done: title");
  EXPECT_TRUE(fs::is_symlink(folder.path("game.toml")));
  EXPECT_THAT(folder.read("layouts/real.toml"), testing::HasSubstr("\"Tide\""));
  EXPECT_EQ(apply(*editor, edit_of("name", {set_name(0, "a", "Asp")})),
            "refused: name; cards.csv: cards.csv lies outside the game folder "
            "[game.unreadable-file]");
  EXPECT_EQ(
      apply(*editor, edit_of("out", {game::SetValue{"../x.toml", {"a"}, game::Node{{}, 1.0}}})),
      "refused: out; : ../x.toml lies outside the game folder [edit.outside-the-game]");
  EXPECT_EQ(apply(*editor, edit_of("md", {game::SetValue{"rules.md", {"a"}, game::Node{{}, 1.0}}})),
            "refused: md; rules.md: rules.md is not a file whose values can be changed here "
            "[edit.not-possible]");
  EXPECT_EQ(other.all(), before);
}

TEST(Editor, is_one_for_each_folder) {
  const EditFolder folder("one");
  const auto editor = open_editor(folder);
  const auto second = Editor::open(folder.path().string());
  ASSERT_FALSE(second.ok());
  EXPECT_EQ(second.why().front().message, "the game is open for changes in another desk");
}

}  // namespace
}  // namespace quoin::job
