#include "job/pictures/shown_pictures.h"

#include <algorithm>

#include "job/mat_made.h"
#include "job/rules_shown.h"
#include "job/share/used_files.h"
#include "pieces/box/box_art.h"

namespace quoin::job {
namespace {

bool has_unset_symbols(const std::vector<Item>& items) {
  return std::any_of(items.begin(), items.end(), [](const Item& item) {
    if (const auto* group = std::get_if<GroupItem>(&item.what)) {
      return has_unset_symbols(group->items);
    }
    const auto* text = std::get_if<TextItem>(&item.what);
    if (text == nullptr || text->set.state() != nullptr) return false;
    return std::any_of(text->block.runs.begin(), text->block.runs.end(), [](const TextRun& run) {
      return run.symbol && run.symbol->picture && !run.symbol->picture->facts().is_vector();
    });
  });
}

void add_once(std::vector<std::string>& words, const std::string& word) {
  if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
}

/// How far a use falls short: below 1 it is too coarse.
double share_of_wanted(const pieces::PictureUse& use, double good_ppi) {
  return use.ppi() / good_ppi;
}

/// Errors but for those of the form of box, mat and rules, which have nothing to do with pictures.
void keep_errors(Diagnostics found, Diagnostics& errors) {
  constexpr std::string_view of_form[] = {"box.", "mat.", "rules.", "sheet."};
  for (Diagnostic& problem : found) {
    const std::string_view name = facts(problem.id).name;
    const bool is_of_form =
        std::any_of(std::begin(of_form), std::end(of_form),
                    [&](std::string_view floor) { return name.starts_with(floor); });
    if (problem.severity == Severity::error && !is_of_form) errors.push_back(std::move(problem));
  }
}

}  // namespace

void PictureFinder::see(const Scene& scene, const std::string& piece, const game::Limits& limits,
                        Typesetter& typesetter) {
  if (has_unset_symbols(scene.items)) {
    Scene set = scene;
    typeset(set, typesetter);
    return see(set, piece, limits, typesetter);
  }
  for_each_picture(scene, [&](const Picture& picture) {
    ShownPicture& one = shown[picture.path()];
    if (!one.pieces.empty() && one.pieces.back() == piece) return;
    add_once(one.pieces, piece);
    for (const std::string& file : shown_by(picture, world_)) {
      add_once(shown[file].pieces, piece);
      add_once(shown[file].within, picture.path());
    }
  });
  for (const pieces::PictureUse& use : pieces::picture_uses(scene)) {
    ShownPicture& one = shown[use.path];
    if (one.coarsest &&
        share_of_wanted(*one.coarsest, one.good_ppi) <= share_of_wanted(use, limits.good_ppi)) {
      continue;
    }
    one.coarsest = use;
    one.good_ppi = limits.good_ppi;
    one.poor_ppi = limits.poor_ppi;
  }
}

void PictureFinder::see_other_pieces(const Outcome& outcome, Typesetter& typesetter) {
  const game::Limits& limits = outcome.game.limits;
  for (const pieces::NetArt& net : outcome.box_art) {
    see(net.printed, "box", limits, typesetter);
    see(net.inside, "box", limits, typesetter);
  }
  if (outcome.mat) see(outcome.mat->scene, "mat", pieces::mat_limits(outcome.game), typesetter);
  if (!outcome.rules) return;
  for (const Scene& page : outcome.rules->pages) see(page, "rules", limits, typesetter);
}

std::vector<int> cards_with_faces(const game::Game& game) {
  std::vector<int> cards;
  for (std::size_t i = 0; i < game.cards.size(); ++i) {
    if (game.cards[i].layout >= 0) cards.push_back(static_cast<int>(i));
  }
  return cards;
}

ShownPictures draw_and_find(const World& world, Workshop& shop, Outcome& outcome,
                            Watcher& watcher) {
  PictureFinder finder(world);
  const std::size_t all = shop.drawings().size();
  for (std::size_t i = 0; i < all; ++i) {
    if (!watcher.at("looking at cards", static_cast<int>(i), static_cast<int>(all))) {
      outcome.found.push_back(
          Diagnostic(Id::pack_cancelled, {}, "the work was stopped before it was done"));
      return std::move(finder.shown);
    }
    finder.see(shop.compose(i), shop.drawings()[i].piece, outcome.game.limits, shop.typesetter());
  }
  Diagnostics found;
  const Wishes wishes;
  fold_rules(wishes, shop, outcome, found);
  if (outcome.game.box && outcome.game.box->art >= 0) {
    Checked<std::optional<pieces::Box>> made = pack::box_for_paper(outcome.game);
    outcome.box = std::move(made.value);
    if (outcome.box) {
      auto art = pieces::box_art(shop.studio(), shop.typesetter(), *outcome.box);
      outcome.box_art = std::move(art.value);
      for (Diagnostic& problem : art.found) found.push_back(std::move(problem));
    }
  }
  draw_mat(wishes, shop, outcome, found);
  keep_errors(std::move(found), outcome.found);
  keep_errors(shop.found(), outcome.found);
  finder.see_other_pieces(outcome, shop.typesetter());
  return std::move(finder.shown);
}

}  // namespace quoin::job
