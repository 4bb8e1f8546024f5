#include "job/share/share.h"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <filesystem>

#include "base/hash.h"
#include "game/card_id.h"
#include "game/words.h"
#include "job/kept_findings.h"
#include "job/rules_shown.h"
#include "job/settled.h"
#include "job/share/edition.h"
#include "job/share/leave_out.h"
#include "job/share/permission.h"
#include "job/share/shared_mat.h"
#include "job/share/write_share.h"
#include "pack/image_cache.h"
#include "pack/share/archive.h"
#include "pieces/box/box_art.h"

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

std::vector<int> cards_to_print(const game::Game& game) {
  std::vector<int> cards;
  for (std::size_t i = 0; i < game.cards.size(); ++i) {
    const game::Card& card = game.cards[i];
    if (card.copies > 0 && card.layout >= 0) cards.push_back(static_cast<int>(i));
  }
  return cards;
}

/// What is printed on the boxes, whatever their paper: the same box is drawn once.
class Boxes {
 public:
  explicit Boxes(Workshop& shop) : shop_(shop) {}

  /// The number of the game's box on its paper, or -1. What is found of a box that is known already
  /// was found of it before.
  int of(const game::Game& game, Diagnostics& found) {
    if (!game.box) return -1;
    Checked<std::optional<pieces::Box>> made = pack::box_for_paper(game);
    if (!made.value) {
      add(std::move(made.found), found);
      return -1;
    }
    const std::vector<Rect> sizes = cuts_of(*made.value);
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (cuts_of(*all[i].box) == sizes) return static_cast<int>(i);
    }
    add(std::move(made.found), found);
    SharedBox box;
    box.box = std::move(made.value);
    Checked<pack::BoxArt> art = pieces::box_art(shop_.studio(), shop_.typesetter(), *box.box);
    add(std::move(art.found), found);
    box.full_art = std::move(art.value);
    all.push_back(std::move(box));
    return static_cast<int>(all.size()) - 1;
  }

  /// In both inks, ready to be placed.
  bool draw(LowInk& low_ink, Diagnostics& found) {
    for (SharedBox& box : all) {
      for (const pieces::NetArt& net : box.full_art) {
        pieces::NetArt low{low_ink(net.printed), low_ink(net.inside), net.bleed};
        typeset(low.printed, shop_.typesetter());
        typeset(low.inside, shop_.typesetter());
        box.low_art.push_back(std::move(low));
      }
      const auto drawn = [&](const pack::BoxArt& art) {
        return DrawnSymbols::draw(pack::box_symbols(*box.box, art), shop_.shelf(), {})
            .or_report(found);
      };
      auto full = drawn(box.full_art), low = drawn(box.low_art);
      if (!full || !low) return false;
      box.full.emplace(std::move(*full));
      box.low.emplace(std::move(*low));
    }
    return true;
  }

  std::deque<SharedBox> all;

 private:
  static std::vector<Rect> cuts_of(const pieces::Box& box) {
    std::vector<Rect> cuts;
    for (const pack::BoxNet& net : pack::box_nets(box, "")) cuts.push_back(net.bounds);
    return cuts;
  }

  Workshop& shop_;
};

/// One sharing while it goes on.
class Sharing {
 public:
  Sharing(const World& world, const ShareWishes& wishes) : world_(world), wishes_(wishes) {
    const WitnessedWorld witnessed(world);
    Checked<game::Game> read = game::read_game(witnessed);
    outcome.game = std::move(read.value);
    found_ = std::move(read.found);
    if (wishes.cache_folder.empty()) return;
    cache_ = pack::image_cache(wishes.cache_folder);
    for (const std::string& font : outcome.game.font_files) {
      (void)witnessed.read(font, largest_file);
    }
    game_hash_ = witnessed.hash();
  }

  /// What the files are used for, and what stands against giving them on.
  bool permit() {
    if (any_errors(found_)) return false;
    begin_shop();
    see_uses();
    Checked<LeftOut> left = left_out(wishes_.without, outcome.game, outcome.used);
    add(std::move(left.found), found_);
    left_ = std::move(left.value);
    outcome.left_out = left_.words;
    std::set<std::string> asked = files_asked();
    if (any_errors(found_)) return false;
    if (!left_.words.empty()) {
      leave_out(left_, outcome.game);
      mat_.reset();  // drawn by the shop
      shop_.reset();
      begin_shop();
      outcome.used.clear();
      see_uses();
    }
    add(permissions(outcome.game, outcome.used, asked), found_);
    std::vector<std::string> files = outcome.game.font_files;
    for (const auto& [file, pieces] : outcome.used) files.push_back(file);
    std::sort(files.begin(), files.end());
    outcome.credits = game::credits(outcome.game, files, asked);
    if (cards_to_print(outcome.game).empty()) {
      found_.push_back(Diagnostic(Id::pack_nothing_to_print, {}, "there is no card to give on"));
    }
    name_places();
    return !any_errors(found_);
  }

  void write(Watcher& watcher) {
    const auto earlier = earlier_share();
    if (any_errors(found_)) return;
    auto staging = pack::Staging::begin(outcome.out, pack::share_folder).or_report(found_);
    auto archive = pack::Archive::begin(outcome.archive).or_report(found_);
    if (!staging || !archive) return;
    LowInk low_ink(flood_area(outcome.game.card.size));
    const DrawnFaces faces =
        draw_faces_twice(*shop_, outcome.game, low_ink, cache_.get(), watcher, found_);
    if (!faces.full) return;
    shop_->conclude();
    add(std::move(shop_->found()), found_);
    shop_->found().clear();
    pack::Manifest manifest = manifest_of(faces);
    if (earlier) outcome.changes = pack::changes_between(*earlier, manifest);
    Boxes boxes(*shop_);
    SharedMat& mat = *mat_;
    add(std::move(mat_found_), found_);
    std::deque<Edition> editions;
    std::vector<int> box_of;
    lay_editions(faces, boxes, mat, editions, box_of);
    if (any_errors(found_) || editions.empty() || !boxes.draw(low_ink, found_) ||
        !draw_shared_mat(*shop_, low_ink, mat, found_)) {
      return;
    }
    for (const Edition& edition : editions) outcome.editions.push_back(edition.facts);
    manifest.editions = outcome.editions;
    const ShareWork work{outcome, *shop_, faces,    editions, boxes.all,
                         box_of,  mat,    manifest, watcher};
    if (write_share(work, *staging, found_)) publish(*staging, *archive);
  }

  ShareOutcome end() {
    outcome.found = settled(outcome.game, std::move(found_));
    return std::move(outcome);
  }

  ShareOutcome outcome;

 private:
  void begin_shop() {
    shop_ = std::make_unique<Workshop>(world_, outcome.game, cards_to_print(outcome.game),
                                       cache_.get(), game_hash_);
  }

  /// Which files each piece shows. What composing finds is found again when it is drawn.
  void see_uses() {
    Diagnostics& said = shop_->found();
    const std::size_t before = said.size();
    for (std::size_t i = 0; i < shop_->drawings().size(); ++i) {
      add_used(shop_->compose(i), shop_->drawings()[i].piece, world_, outcome.used);
    }
    if (outcome.game.box && outcome.game.box->art >= 0) see_box();
    see_mat();
    see_rules();
    said.erase(said.begin() + static_cast<std::ptrdiff_t>(before), said.end());
  }

  void see_box() {
    const Checked<std::optional<pieces::Box>> made = pack::box_for_paper(outcome.game);
    if (!made.value) return;
    const auto art = pieces::box_art(shop_->studio(), shop_->typesetter(), *made.value);
    for (const pieces::NetArt& net : art.value) {
      add_used(net.printed, "box", world_, outcome.used);
      add_used(net.inside, "box", world_, outcome.used);
    }
  }

  void see_mat() {
    mat_found_.clear();
    make_shared_mat(*shop_, mat_.emplace(), mat_found_);
    if (mat_->mat) add_used(mat_->mat->scene, "mat", world_, outcome.used);
  }

  void see_rules() {
    Outcome rules;
    rules.game = outcome.game;
    Diagnostics told_later;
    fold_rules({}, *shop_, rules, told_later);
    if (!rules.rules) return;
    for (const Scene& page : rules.rules->pages) {
      add_used(page, "rules", world_, outcome.used);
    }
  }

  std::set<std::string> files_asked() {
    std::set<std::string> asked;
    std::vector<std::string> known;
    for (const auto& [file, pieces] : outcome.used) known.push_back(file);
    for (const std::string& word : wishes_.asked) {
      const std::string file = file_meant(word, outcome.used);
      if (!file.empty()) {
        asked.insert(file);
        continue;
      }
      Diagnostic problem(
          Id::share_unknown_piece, {},
          fmt::format("no piece of the game shows a file {}", game::in_quotes(word)));
      if (const auto meant = game::nearest(word, known)) {
        problem.hint(fmt::format("did you mean {}?", *meant));
      }
      found_.push_back(std::move(problem));
    }
    return asked;
  }

  void name_places() {
    const std::string own =
        (fs::path(wishes_.folder) / "share" / share_name(outcome.game)).string();
    outcome.out = wishes_.out.empty() ? own : wishes_.out;
    std::string bare = outcome.out;
    while (bare.size() > 1 && bare.ends_with('/')) bare.pop_back();
    outcome.archive = bare + ".zip";
  }

  std::optional<pack::Manifest> earlier_share() {
    if (wishes_.since.empty()) return std::nullopt;
    const std::string shown = (fs::path(wishes_.since) / pack::manifest_name).string();
    const ReadAnswer answer = real_world(wishes_.since)->read(pack::manifest_name, largest_file);
    if (!answer.ok()) {
      found_.push_back(Diagnostic(Id::share_earlier_unreadable, {}, explain(answer, shown))
                           .hint("name the folder of an earlier share after --since: the one with "
                                 "share.json in it"));
      return std::nullopt;
    }
    return pack::read_manifest(*answer.bytes, shown).or_report(found_);
  }

  [[nodiscard]] pack::Manifest manifest_of(const DrawnFaces& faces) const {
    const game::Game& game = outcome.game;
    pack::Manifest manifest{game.title, game.version, {}};
    const int name = game::column(game, "name");
    const auto fronts = static_cast<std::size_t>(shop_->fronts());
    for (std::size_t i = 0; i < fronts; ++i) {
      const auto& card = game.cards[static_cast<std::size_t>(shop_->drawings()[i].card)];
      const int back = shop_->back_of()[i];
      const std::string behind =
          back < 0 ? "blank" : faces.digests[fronts + static_cast<std::size_t>(back)];
      manifest.cards.push_back({card.id,
                                name < 0 ? "" : card.cells[static_cast<std::size_t>(name)].text,
                                sha256(faces.digests[i] + " " + behind), card.copies});
    }
    return manifest;
  }

  void lay_editions(const DrawnFaces& faces, Boxes& boxes, const SharedMat& mat,
                    std::deque<Edition>& editions, std::vector<int>& box_of) {
    static const SharedBox no_box;
    Wishes one_deck;
    one_deck.credits = outcome.credits;
    for (const SharedPaper& paper : shared_papers) {
      Edition& edition = editions.emplace_back();
      edition.paper = &paper;
      edition.outcome.game = for_strangers(outcome.game, paper);
      Diagnostics why;
      fold_rules(one_deck, *shop_, edition.outcome, why);
      const int box = boxes.of(edition.outcome.game, found_);
      const SharedBox& made = box < 0 ? no_box : boxes.all[static_cast<std::size_t>(box)];
      if (lay_edition(*shop_, faces, {made, mat}, outcome.changes ? &*outcome.changes : nullptr,
                      edition, why)) {
        if (editions.size() == 1) add(std::move(why), found_);
        box_of.push_back(box);
        continue;
      }
      editions.pop_back();
      leave_paper_out(paper, why);
    }
    if (!editions.empty()) return;
    found_.push_back(Diagnostic(Id::share_not_written, outcome.game.card.origin,
                                "the game goes on none of the papers that are given on"));
  }

  void leave_paper_out(const SharedPaper& paper, const Diagnostics& why) {
    Diagnostic warning(Id::share_edition_left_out, outcome.game.card.origin,
                       fmt::format("there is no edition on {}", paper.name));
    for (const Diagnostic& one : why) {
      if (one.severity == Severity::error) warning.detail(one.message);
    }
    found_.push_back(std::move(warning));
  }

  void publish(pack::Staging& staging, pack::Archive& archive) {
    const auto bytes = archive_of(staging, share_name(outcome.game)).or_report(found_);
    if (!bytes || !archive.write(*bytes).or_report(found_)) return;
    if (!staging.publish().or_report(found_)) return;
    outcome.archive_bytes = bytes->size();
    outcome.files = staging.files();
    outcome.published = archive.publish().or_report(found_).has_value();
  }

  const World& world_;
  const ShareWishes& wishes_;
  Diagnostics found_;
  std::unique_ptr<ImageCache> cache_;
  std::string game_hash_;
  std::unique_ptr<Workshop> shop_;
  LeftOut left_;
  std::optional<SharedMat> mat_;  // of the shop's game, and what was found making it
  Diagnostics mat_found_;
};

}  // namespace

std::string share_name(const game::Game& game) {
  std::string name = game::lower_case(game::id_from(game.title));
  if (name.empty()) name = "game";
  const std::string version = game::id_from(game.version);
  return version.empty() ? name : name + "-" + version;
}

ShareOutcome share(const World& world, const ShareWishes& wishes, Watcher& watcher) {
  Sharing sharing(world, wishes);
  if (sharing.permit()) sharing.write(watcher);
  return sharing.end();
}

ShareOutcome survey(const World& world, const ShareWishes& wishes) {
  Sharing sharing(world, wishes);
  (void)sharing.permit();
  return sharing.end();
}

}  // namespace quoin::job
