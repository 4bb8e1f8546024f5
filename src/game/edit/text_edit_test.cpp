#include "game/edit/text_edit.h"

#include <gtest/gtest.h>

namespace quoin::game {
namespace {

const Bytes text_seen = "# Reef\n\nDraw a card.\nPlay a card.\n\nThe end.\n";

Claim claimed(const std::string& wanted, const Bytes& text = text_seen) {
  return claim_in_text({"rules.md", wanted, {}}, text).value();
}

Bytes with(Bytes text, const std::string& what, const std::string& by) {
  return text.replace(text.find(what), what.size(), by);
}

TEST(TextEdit, changes_the_passage_that_differs_and_takes_it_back) {
  const Claim claim = claimed(with(text_seen, "Draw a", "Draw one"));
  const EditAnswer answer = edit_in_text(claim, text_seen, WhenChanged::ask);
  const auto& done = std::get<Edited>(answer);
  EXPECT_EQ(done.text, with(text_seen, "Draw a", "Draw one"));
  EXPECT_EQ(done.place.line, 3U);
  const EditAnswer back = edit_in_text(done.inverse, done.text, WhenChanged::ask);
  EXPECT_EQ(std::get<Edited>(back).text, text_seen);
}

TEST(TextEdit, leaves_what_was_written_elsewhere_in_the_file_meanwhile) {
  const Claim claim = claimed(with(text_seen, "Play a card", "Play two cards"));
  const Bytes now = "A new line.\n" + with(text_seen, "The end.", "The end of all.");
  const EditAnswer answer = edit_in_text(claim, now, WhenChanged::ask);
  EXPECT_EQ(std::get<Edited>(answer).text, with(now, "Play a card", "Play two cards"));
}

TEST(TextEdit, does_not_take_one_place_for_another) {
  const Bytes twice = "one\nsame\ntwo\nsame\nthree\n";
  const Claim claim = claimed("one\nsame\ntwo\nother\nthree\n", twice);
  const Bytes now = "zero\n" + twice;
  EXPECT_EQ(std::get<Edited>(edit_in_text(claim, now, WhenChanged::ask)).text,
            "zero\none\nsame\ntwo\nother\nthree\n");
  const Bytes torn = "same\nsame\n";
  EXPECT_TRUE(std::holds_alternative<Collision>(edit_in_text(claim, torn, WhenChanged::ask)));
}

TEST(TextEdit, asks_when_the_same_passage_was_changed_and_loses_neither) {
  const Claim claim = claimed(with(text_seen, "Draw a card", "Draw two cards"));
  const Bytes now = with(text_seen, "Draw a card", "Take a card");
  const EditAnswer asked = edit_in_text(claim, now, WhenChanged::ask);
  const auto& collision = std::get<Collision>(asked);
  EXPECT_NE(collision.theirs.find("Take"), std::string::npos);
  EXPECT_EQ(std::get<Edited>(edit_in_text(claim, now, WhenChanged::take_mine)).text,
            with(text_seen, "Draw a card", "Draw two cards"));
  // Nothing of it is there any more: mine goes in, and nothing goes.
  const Bytes other = "All is new.\nAll of it.\n";
  const Bytes kept = std::get<Edited>(edit_in_text(claim, other, WhenChanged::take_mine)).text;
  EXPECT_NE(kept.find("All is new."), std::string::npos);
  EXPECT_NE(kept.find("All of it."), std::string::npos);
  EXPECT_EQ(kept.size(), other.size() + std::get<EditText>(claim.change).text.size());
}

TEST(TextEdit, keeps_letters_whole_and_refuses_what_is_no_text) {
  const Bytes before = "caf\xC3\xA9\n";
  const Claim claim = claimed("caf\xC3\xA8\n", before);
  EXPECT_EQ(std::get<EditText>(claim.change).text, "caf\xC3\xA8\n");
  EXPECT_EQ(std::get<Edited>(edit_in_text(claim, before, WhenChanged::ask)).text, "caf\xC3\xA8\n");
  EXPECT_EQ(claim_in_text({"rules.md", "\xFF", {}}, text_seen).why().front().id,
            Id::edit_not_writable);
}

TEST(TextEdit, fills_and_empties_a_file) {
  EXPECT_EQ(std::get<Edited>(edit_in_text(claimed("new\n", ""), "", WhenChanged::ask)).text,
            "new\n");
  EXPECT_EQ(std::get<Edited>(edit_in_text(claimed(""), text_seen, WhenChanged::ask)).text, "");
}

}  // namespace
}  // namespace quoin::game
