#pragma once
#include <set>
#include <string>
#include <vector>

#include "game/game.h"
#include "job/share/used_files.h"

namespace quoin::job {

/// What does not go along.
struct LeftOut {
  std::set<std::string> cards;  ///< ids
  std::set<std::string> backs;  ///< decks whose cards have blank backs
  std::set<std::string> files;  ///< whose pieces go
  enum class Box { goes_along, plain, none } box = Box::goes_along;
  enum class More { goes_along, none } mat = More::goes_along, rules = More::goes_along;
  /// One line each: "shell-3", "the back of main", "what is printed on the box".
  std::vector<std::string> words;
};

/// Reads what is to be left out: ids of cards, `back` or `backs` (of every deck) and `back of
/// DECK`, `box`, `box art`, `mat`, `rules`, or files of the game, which stand for all pieces that
/// show them. Finds `share.unknown-piece`.
[[nodiscard]] Checked<LeftOut> left_out(const std::vector<std::string>& words,
                                        const game::Game& game, const UsedFiles& used);

/// Takes it out of the game: cards have no copies any more, backs are blank, the box is plain or
/// gone, and so are mat and rules.
void leave_out(const LeftOut& what, game::Game& game);

/// The file of the game that a maker means by a word: as it stands, or from the folder art; "" when
/// it is used nowhere.
[[nodiscard]] std::string file_meant(const std::string& word, const UsedFiles& used);

}  // namespace quoin::job
