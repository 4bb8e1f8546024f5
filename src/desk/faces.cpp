#include "desk/faces.h"

#include <algorithm>

#include "base/hash.h"
#include "base/packed.h"
#include "job/workshop.h"
#include "pieces/card/face.h"
#include "pieces/card/studio.h"

namespace quoin::desk {
namespace {

/// Everything of a row that its drawing may show.
std::string name_of_row(const game::Card& card, bool is_back) {
  PackedWriter out;
  for (const int number : {card.number, card.copies, card.layout + 1, card.back + 1}) {
    out.number(static_cast<std::uint64_t>(number));
  }
  out.number(is_back ? 1 : 0);
  out.string(card.id);
  out.string(card.suit);
  out.string(card.deck);
  for (const game::Text& cell : card.cells) out.string(cell.text);
  return out.take();
}

std::string name_of_columns(const game::Game& game) {
  PackedWriter out;
  for (const game::Text& column : game.columns) out.string(column.text);
  return out.take();
}

/// What bears on every stamp besides the scene: how far it is cut and drawn, and its letters.
std::string name_of_format(const game::Game& game, const Materials& materials) {
  PackedWriter out;
  for (const Mm length : {game.card.size.width, game.card.size.height, game.card.corner,
                          game.card.bleed, pieces::back_bleed(game)}) {
    out.number(static_cast<std::uint64_t>(std::llround(length.value * 1e6)));
  }
  out.string(materials.fonts_name);
  return out.take();
}

std::vector<int> all_cards(const game::Game& game) {
  std::vector<int> cards;
  for (std::size_t i = 0; i < game.cards.size(); ++i) {
    if (game.cards[i].layout >= 0) cards.push_back(static_cast<int>(i));
  }
  return cards;
}

std::shared_ptr<const std::vector<FontFile>> read_fonts(const World& world,
                                                        const std::vector<std::string>& paths,
                                                        std::string& name) {
  auto files = std::make_shared<std::vector<FontFile>>();
  std::string all;
  for (const std::string& path : paths) {
    const ReadAnswer answer = world.read(path, largest_file);
    if (!answer.ok()) continue;  // said by the checks
    files->push_back({path, answer.bytes});
    all += path + "\n" + sha256(*answer.bytes) + "\n";
  }
  name = sha256(all);
  return files;
}

}  // namespace

const Face* Faces::find(std::string_view key) const {
  const auto found = std::ranges::find(all, key, &Face::key);
  return found == all.end() ? nullptr : &*found;
}

Faces FaceMaker::compose(const game::Game& game, const Materials& materials,
                         const std::string& texts) {
  const std::string made_for = materials.name + texts + name_of_columns(game);
  if (made_for != made_for_) known_.clear();
  if (materials.name != looks_for_) looks_ = {};
  made_for_ = made_for;
  looks_for_ = materials.name;
  const std::vector<int> cards = all_cards(game);
  const job::DrawingList list = job::list_drawings(game, cards);
  const std::string format = name_of_format(game, materials);
  Diagnostics said_by_the_checks;
  std::optional<pieces::Studio> studio;
  std::unordered_map<std::string, Composed> met;
  Faces faces;
  for (const job::Drawing& drawing : list.drawings) {
    const game::Card& card = game.cards[static_cast<std::size_t>(drawing.card)];
    std::string row = name_of_row(card, drawing.is_back);
    Composed composed;
    if (const auto known = known_.find(row); known != known_.end()) {
      composed = known->second;
    } else {
      if (!studio) studio.emplace(game, *materials.shelf, said_by_the_checks);
      composed.scene = std::make_shared<const Scene>(
          drawing.is_back ? pieces::back(*studio, card, said_by_the_checks)
                          : pieces::front(*studio, card, said_by_the_checks));
      composed.stamp = sha256(looks_.of(*composed.scene) + format).substr(0, 20);
    }
    faces.all.push_back({drawing.file, drawing.piece, drawing.card, drawing.is_back, composed.stamp,
                         composed.scene});
    met.emplace(std::move(row), std::move(composed));
  }
  known_ = std::move(met);
  faces.front_of.assign(game.cards.size(), -1);
  faces.back_of.assign(game.cards.size(), -1);
  for (std::size_t i = 0; i < cards.size(); ++i) {
    const auto card = static_cast<std::size_t>(cards[i]);
    faces.front_of[card] = static_cast<int>(i);
    if (list.back_of[i] >= 0) faces.back_of[card] = list.fronts + list.back_of[i];
  }
  return faces;
}

std::shared_ptr<const Materials> materials_for(const game::Game& game, const std::string& folder,
                                               const std::string& name,
                                               std::shared_ptr<const Materials> earlier) {
  if (earlier && earlier->name == name && earlier->font_files == game.font_files) return earlier;
  auto materials = std::make_shared<Materials>();
  materials->name = name;
  materials->world = real_world(folder);
  materials->shelf = std::make_shared<PictureShelf>(*materials->world);
  materials->font_files = game.font_files;
  materials->fonts = read_fonts(*materials->world, game.font_files, materials->fonts_name);
  return materials;
}

}  // namespace quoin::desk
