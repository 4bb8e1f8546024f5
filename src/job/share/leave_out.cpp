#include "job/share/leave_out.h"

#include <fmt/format.h>

#include <algorithm>

#include "game/words.h"

namespace quoin::job {
namespace {

constexpr std::string_view back_of = "back of ";

/// Reads one word after the other.
class Reader {
 public:
  Reader(const game::Game& game, const UsedFiles& used) : game_(game), used_(used) {}

  void read(const std::string& word) {
    const std::string low = game::lower_case(game::trimmed(word));
    if (low == "box") {
      take_box(LeftOut::Box::none);
    } else if (low == "box art") {
      take_box(LeftOut::Box::plain);
    } else if (low == "mat" || low == "rules") {
      take_more(low);
    } else if (low == "back" || low == "backs") {
      for (const game::Deck& deck : game_.decks) take_back(deck.id);
    } else if (!take_card(word) && !take_piece(word) && !take_file(word)) {
      unknown(word);
    }
  }

  Checked<LeftOut> take() { return std::move(result_); }

 private:
  bool take_card(const std::string& id) {
    const auto card = std::find_if(game_.cards.begin(), game_.cards.end(),
                                   [&](const game::Card& one) { return one.id == id; });
    if (card == game_.cards.end()) return false;
    if (result_.value.cards.insert(id).second) result_.value.words.push_back(id);
    return true;
  }

  bool take_piece(const std::string& piece) {
    if (!piece.starts_with(back_of)) return false;
    const std::string deck = piece.substr(back_of.size());
    const bool is_there = std::any_of(game_.decks.begin(), game_.decks.end(),
                                      [&](const game::Deck& one) { return one.id == deck; });
    if (is_there) take_back(deck);
    return is_there;
  }

  void take_back(const std::string& deck) {
    if (!result_.value.backs.insert(deck).second) return;
    result_.value.words.push_back("the back of " + deck);
  }

  void take_box(LeftOut::Box box) {
    if (result_.value.box == LeftOut::Box::none) return;
    result_.value.box = box;
    std::erase(result_.value.words, "what is printed on the box");
    result_.value.words.emplace_back(box == LeftOut::Box::none ? "the box"
                                                               : "what is printed on the box");
  }

  void take_more(const std::string& piece) {
    LeftOut::More& more = piece == "mat" ? result_.value.mat : result_.value.rules;
    if (more == LeftOut::More::none) return;
    more = LeftOut::More::none;
    result_.value.words.push_back("the " + piece);
  }

  bool take_file(const std::string& word) {
    const std::string file = file_meant(word, used_);
    if (file.empty()) return false;
    result_.value.files.insert(file);
    for (const std::string& piece : used_.at(file)) {
      if (piece == "box") {
        if (result_.value.box == LeftOut::Box::goes_along) take_box(LeftOut::Box::plain);
      } else if (piece == "mat" || piece == "rules") {
        take_more(piece);
      } else if (!take_piece(piece)) {
        take_card(piece);
      }
    }
    return true;
  }

  void unknown(const std::string& word) {
    std::vector<std::string> known{"box", "box art", "back", "mat", "rules"};
    for (const game::Card& card : game_.cards) known.push_back(card.id);
    for (const auto& [file, pieces] : used_) known.push_back(file);
    Diagnostic problem(
        Id::share_unknown_piece, {},
        fmt::format("there is no {} in the game that could be left out", game::in_quotes(word)));
    if (const auto meant = game::nearest(word, known)) {
      problem.hint(fmt::format("did you mean {}?", *meant));
    } else {
      problem.hint("name a card by its id, a file, or one of back, box, box art, mat and rules");
    }
    result_.found.push_back(std::move(problem));
  }

  const game::Game& game_;
  const UsedFiles& used_;
  Checked<LeftOut> result_;
};

}  // namespace

std::string file_meant(const std::string& word, const UsedFiles& used) {
  for (const std::string& path : {normal_path(word), normal_path("art/" + word)}) {
    if (used.contains(path)) return path;
  }
  return {};
}

Checked<LeftOut> left_out(const std::vector<std::string>& words, const game::Game& game,
                          const UsedFiles& used) {
  Reader reader(game, used);
  for (const std::string& word : words) reader.read(word);
  return reader.take();
}

void leave_out(const LeftOut& what, game::Game& game) {
  for (game::Card& card : game.cards) {
    if (what.cards.contains(card.id)) card.copies = 0;
    if (what.backs.contains(card.deck)) card.back = -1;
  }
  if (what.box == LeftOut::Box::none) game.box.reset();
  if (what.mat == LeftOut::More::none) game.mat.reset();
  if (what.rules == LeftOut::More::none) game.rules.reset();
  if (what.box == LeftOut::Box::plain && game.box) game.box->art = -1;
}

}  // namespace quoin::job
