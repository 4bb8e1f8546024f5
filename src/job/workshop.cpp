#include "job/workshop.h"

#include <fmt/format.h>

#include <map>

#include "pieces/card/check_backs.h"
#include "pieces/card/edge_colour.h"
#include "pieces/card/face.h"

namespace quoin::job {

DrawingList list_drawings(const game::Game& game, const std::vector<int>& cards) {
  DrawingList list;
  for (const int card : cards) {
    const std::string& id = game.cards[static_cast<std::size_t>(card)].id;
    list.drawings.push_back({card, false, id, "cards/" + id});
  }
  list.fronts = static_cast<int>(cards.size());
  std::map<std::string, int> known, backs_of_deck;
  for (const int card : cards) {
    const game::Card& row = game.cards[static_cast<std::size_t>(card)];
    const std::string key = pieces::back_key(game, row);
    if (key.empty()) {
      list.back_of.push_back(-1);
      continue;
    }
    const auto [at, fresh] = known.emplace(key, static_cast<int>(known.size()));
    if (fresh) {
      const int nth = ++backs_of_deck[row.deck];
      const std::string number = nth == 1 ? "" : fmt::format("-{}", nth);
      list.drawings.push_back({card, true, "back of " + row.deck, "backs/" + row.deck + number});
    }
    list.back_of.push_back(at->second);
  }
  return list;
}

Workshop::Workshop(const World& world, const game::Game& game, std::vector<int> cards,
                   ImageCache* cache, const std::string& game_hash)
    : game_(game),
      shelf_(world, cache),
      typesetter_(fonts(world)),
      studio_(game, shelf_, found_),
      kept_(cache, game_hash),
      list_(list_drawings(game, cards)) {
  measures_.resize(list_.drawings.size());
  read_suit_colours();
}

Workshop::~Workshop() = default;

std::vector<FontFile> Workshop::fonts(const World& world) {
  std::vector<FontFile> files;
  for (const std::string& path : game_.font_files) {
    const ReadAnswer answer = world.read(path, largest_file);
    if (answer.ok()) {
      files.push_back({path, answer.bytes});
      continue;
    }
    found_.push_back(Diagnostic(Id::game_missing_file, Origin{FileName("game.toml"), 0, 0, 0},
                                explain(answer, path))
                         .hint("correct [fonts] in game.toml, or put the font there"));
  }
  return files;
}

const game::Card& Workshop::card_of(const Drawing& what) const {
  return game_.cards[static_cast<std::size_t>(what.card)];
}

Scene Workshop::compose(std::size_t drawing) {
  const Drawing& what = list_.drawings[drawing];
  const game::Card& card = card_of(what);
  return what.is_back ? pieces::back(studio_, card, found_) : pieces::front(studio_, card, found_);
}

std::string Workshop::name(std::size_t drawing, const Scene& scene) {
  if (!typesetter_.borrowed().empty()) return {};
  const Drawing& what = list_.drawings[drawing];
  return kept_.name(what.piece, game_, card_of(what), scene);
}

bool Workshop::must_look(std::size_t drawing, const Scene& scene) {
  return known(list_.drawings[drawing], scene) == nullptr;
}

void Workshop::finish(std::size_t drawing, Scene& scene) {
  const Drawing& what = list_.drawings[drawing];
  typeset(scene, typesetter_);
  game::CardFormat format = game_.card;
  if (what.is_back) format.bleed = pieces::back_bleed(game_);
  const FaceFindings* earlier = known(what, scene);
  take_over(drawing, earlier != nullptr
                         ? *earlier
                         : look_over(what, {what.piece, scene, format, card_of(what).origin}));
}

void Workshop::check(std::size_t drawing, Scene& scene) {
  const Drawing& what = list_.drawings[drawing];
  if (const FaceFindings* earlier = known(what, scene)) return take_over(drawing, *earlier);
  finish(drawing, scene);
}

void Workshop::take_over(std::size_t drawing, const FaceFindings& findings) {
  add(findings.found);
  measures_[drawing] = findings.measure;
  if (!list_.drawings[drawing].is_back) compare_edges(findings.edge);
}

/// Suits that declare no colour are known by the colours of their cards.
bool Workshop::is_measured_for_suit(const Drawing& what) const {
  const std::string& suit = card_of(what).suit;
  return !what.is_back && !suit.empty() && !declared_.contains(suit);
}

const FaceFindings* Workshop::known(const Drawing& what, const Scene& scene) {
  if (is_measured_for_suit(what)) return nullptr;
  return kept_.find(kept_.name(what.piece, game_, card_of(what), scene));
}

FaceFindings Workshop::look_over(const Drawing& what, const pieces::Face& face) {
  const pieces::FaceLook look = pieces::look_at(face, shelf_);
  FaceFindings findings{pieces::check_face(face, game_.limits, look), pieces::edge_colour(look),
                        pieces::measure_face(face, look)};
  findings.found.insert(findings.found.end(), look.found.begin(), look.found.end());
  if (what.is_back) {
    for (Diagnostic& d : pieces::check_back(face, look)) findings.found.push_back(std::move(d));
  }
  if (is_measured_for_suit(what)) {
    suit_colours_.add(card_of(what).suit, look);
  } else {
    kept_.keep(kept_.name(what.piece, game_, card_of(what), face.scene), findings);
  }
  return findings;
}

void Workshop::add(Diagnostics problems) {
  for (Diagnostic& problem : problems) found_.push_back(std::move(problem));
}

void Workshop::read_suit_colours() {
  for (const game::Suit& suit : game_.suits) {
    const auto text = suit.values.find("colour");
    if (text == suit.values.end()) continue;
    if (const auto colour = studio_.colour(text->second.text)) declared_[suit.id] = *colour;
  }
}

void Workshop::check_backs() {
  std::vector<pieces::DeckBack> backs;
  for (std::size_t i = 0; i < list_.back_of.size(); ++i) {
    const game::Card& card = game_.cards[static_cast<std::size_t>(list_.drawings[i].card)];
    backs.push_back({card.deck, card.id, pieces::back_key(game_, card), card.copies, card.origin});
  }
  add(pieces::check_deck_backs(backs));
}

void Workshop::compare_edges(std::optional<std::uint32_t> edge) {
  if (!edges_alike_) return;
  if (!edge_seen_) edge_ = edge;
  edge_seen_ = true;
  edges_alike_ = pieces::edges_alike(edge, edge_);
}

void Workshop::conclude() {
  // What a font of the machine did to a text may change without any file of the game changing.
  if (typesetter_.borrowed().empty()) kept_.save();
  check_backs();
  add(pieces::check_suits(pieces::suit_looks(game_, declared_, suit_colours_.main_colours()),
                          pieces::suit_cues(game_), game_.limits));
  for (const std::string& reason : typesetter_.refused()) {
    found_.push_back(Diagnostic(Id::font_not_a_font, Origin{FileName("game.toml"), 0, 0, 0}, reason)
                         .hint("use TrueType or OpenType files (.ttf, .otf, .ttc)"));
  }
  for (const std::string& family : typesetter_.borrowed()) {
    found_.push_back(
        Diagnostic(Id::font_of_this_machine, Origin{FileName("game.toml"), 0, 0, 0},
                   fmt::format("the font {} is taken from this machine", family))
            .detail("on a machine without it the cards would look different")
            .hint("put its files into the game's fonts folder, if its licence allows"));
  }
}

}  // namespace quoin::job
