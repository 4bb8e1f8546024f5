#include "job/box_shown.h"

#include "base/build_id.h"
#include "base/hash.h"
#include "formats/decimal.h"
#include "job/scene_name.h"

namespace quoin::job {
namespace {

/// The name of everything that pictures of a box follow from: `rest`, which names the game's files
/// and the top card; the sizes of the box and its deck; and the words and pictures in its art.
std::string name_of_box(const pieces::BoxLook& look, const std::string& rest) {
  PackedWriter out;
  out.string(build_id());
  out.string(rest);
  const pieces::Box& box = look.box;
  const fold::Block deck = pieces::thickest(box.deck);
  for (const Mm size :
       {box.plan.inside.width, box.plan.inside.height, box.plan.inside.depth, box.plan.board,
        deck.width, deck.height, deck.depth, box.deck.height.typical, box.deck.card.typical}) {
    out.string(decimal(size.value, 9));
  }
  for (const pieces::NetArt& art : look.art) {
    write_contents(out, art.printed);
    write_contents(out, art.inside);
  }
  return sha256(out.take());
}

}  // namespace

std::optional<pack::BoxPictureWork> box_picture_work(const Outcome& outcome, const Wishes& wishes,
                                                     const std::optional<TopCard>& top_card,
                                                     const std::string& game_hash) {
  if (!outcome.box || !wishes.parts.contains(Part::pictures)) return std::nullopt;
  pack::BoxPictureWork work{
      {*outcome.box, outcome.box_art, nullptr, outcome.game.card.corner}, outcome.game.title, {}};
  if (top_card) work.look.top_card = &top_card->scene;
  if (!game_hash.empty() && top_card && !top_card->looks.empty()) {
    work.looks = name_of_box(work.look, game_hash + top_card->looks);
  }
  return work;
}

pack::BoxRow box_row(const std::optional<pack::BoxPictureWork>& work, PictureShelf& shelf) {
  if (!work) return {};
  return {work->looks, [&work, &shelf](int width, Colour table) {
            Diagnostics told_elsewhere;  // with the box's own pictures
            return pack::box_band(*work, width, table, shelf, told_elsewhere);
          }};
}

}  // namespace quoin::job
