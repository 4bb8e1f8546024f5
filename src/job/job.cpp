#include "job/job.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/pdf/pdf.h"
#include "job/prefetch.h"
#include "job/workshop.h"
#include "pack/card_files.h"
#include "pack/image_cache.h"
#include "pack/previews.h"
#include "pack/report.h"
#include "pieces/card/face.h"

namespace quoin::job {
namespace {

/// The cards to be printed: all with a copy or more, or those asked for with --only.
std::vector<int> chosen_cards(const game::Game& game, const Wishes& wishes, Diagnostics& found) {
  std::vector<int> cards;
  for (std::size_t i = 0; i < game.cards.size(); ++i) {
    const game::Card& card = game.cards[i];
    const bool asked = wishes.only.empty() ? card.copies > 0
                                           : std::find(wishes.only.begin(), wishes.only.end(),
                                                       card.id) != wishes.only.end();
    if (asked && card.layout >= 0) cards.push_back(static_cast<int>(i));
  }
  std::vector<std::string> ids;
  for (const game::Card& card : game.cards) ids.push_back(card.id);
  for (const std::string& id : wishes.only) {
    if (std::find(ids.begin(), ids.end(), id) != ids.end()) continue;
    Diagnostic unknown(Id::pack_unknown_card, {}, fmt::format("there is no card {}", id));
    if (const auto meant = game::nearest(id, ids))
      unknown.hint(fmt::format("did you mean {}?", *meant));
    found.push_back(std::move(unknown));
  }
  if (cards.empty() && !any_errors(found)) {
    found.push_back(Diagnostic(Id::pack_nothing_to_print, {}, "there is no card to print"));
  }
  return cards;
}

/// Every piece that is to be printed, deck after deck. A reprint takes each id as often as it is
/// asked for.
std::vector<sheets::Copy> all_copies(const game::Game& game, const Workshop& shop,
                                     const Wishes& wishes) {
  std::vector<sheets::Copy> copies;
  for (int deck = 0; deck < wishes.decks; ++deck) {
    for (int front = 0; front < shop.fronts(); ++front) {
      const auto at = static_cast<std::size_t>(front);
      const game::Card& card = game.cards[static_cast<std::size_t>(shop.drawings()[at].card)];
      const auto again = std::count(wishes.only.begin(), wishes.only.end(), card.id);
      const auto times = wishes.only.empty() ? card.copies : static_cast<int>(again);
      copies.insert(copies.end(), static_cast<std::size_t>(times),
                    {front, shop.back_of()[at], card.suit, card.deck});
    }
  }
  return copies;
}

sheets::PieceFormat piece_format(const game::Game& game, const Workshop& shop) {
  return {game.card.size,     game.card.bleed, pieces::back_bleed(game),
          shop.edges_alike(), "card",          game.card.origin};
}

pack::Totals totals_of(const game::Game& game, const Workshop& shop, std::size_t pieces) {
  pack::Totals totals;
  totals.rows = shop.fronts();
  totals.backs = static_cast<int>(shop.drawings().size()) - shop.fronts();
  totals.pieces = static_cast<int>(pieces);
  for (const game::Card& card : game.cards) {
    if (card.layout >= 0) totals.cards += card.copies;
  }
  return totals;
}

/// Lays the sheets once all faces were drawn, and adds what is found on the way.
void lay_sheets(const Workshop& shop, const Wishes& wishes, Outcome& outcome, Diagnostics& found) {
  const std::vector<sheets::Copy> copies = all_copies(outcome.game, shop, wishes);
  outcome.totals = totals_of(outcome.game, shop, copies.size());
  if (copies.empty()) return;
  outcome.plan =
      sheets::lay(copies, piece_format(outcome.game, shop), outcome.game.sheets).or_report(found);
  if (!outcome.plan) return;
  outcome.totals.sheets = static_cast<int>(outcome.plan->sheets.size());
  for (Diagnostic& problem : sheets::check(*outcome.plan)) found.push_back(std::move(problem));
}

void settle(Outcome& outcome, Diagnostics found) {
  const std::vector<std::string>& off = outcome.game.limits.off;
  for (Diagnostic& problem : found) {
    const std::string name(facts(problem.id).name);
    const bool silenced =
        problem.severity != Severity::error && std::find(off.begin(), off.end(), name) != off.end();
    if (!silenced) outcome.found.push_back(std::move(problem));
  }
  outcome.found = in_order(std::move(outcome.found));
}

Diagnostic stopped() {
  return Diagnostic(Id::pack_cancelled, {}, "the work was stopped before it was done");
}

/// What a run needs while it goes on.
struct Run {
  const World& world;
  const Wishes& wishes;
  Watcher& watcher;
  Outcome outcome;
  Diagnostics found;
};

Run begin(const World& world, const Wishes& wishes, Watcher& watcher) {
  Run run{world, wishes, watcher, {}, {}};
  Checked<game::Game> read = game::read_game(world);
  run.outcome.game = std::move(read.value);
  run.found = std::move(read.found);
  return run;
}

Outcome end(Run& run) {
  settle(run.outcome, std::move(run.found));
  return std::move(run.outcome);
}

/// The shop's findings go before what was found since: when the same is said twice they are kept,
/// since they know the card.
void take_found(Run& run, Workshop& shop) {
  shop.conclude();
  Diagnostics all = std::move(shop.found());
  shop.found().clear();
  for (Diagnostic& problem : run.found) all.push_back(std::move(problem));
  run.found = std::move(all);
}

/// Draws every face once, into the recording and, when asked for, as a preview.
Result<DrawnSymbols> draw_faces(Run& run, Workshop& shop, pack::Previews* previews) {
  const game::CardFormat& format = run.outcome.game.card;
  const Rect front = grown(Rect{{}, format.size}, format.bleed);
  const Rect back = grown(Rect{{}, format.size}, pieces::back_bleed(run.outcome.game));
  Prefetch prefetch(shop.shelf());
  std::vector<Symbol> symbols;
  for (std::size_t i = 0; i < shop.drawings().size(); ++i) {
    symbols.push_back({shop.drawings()[i].is_back ? back : front, [&, i] {
                         Scene scene = shop.draw(i);
                         prefetch.want(scene);
                         if (previews)
                           previews->add(shop.drawings()[i].file, shop.drawings()[i].piece, scene,
                                         run.found);
                         return scene;
                       }});
  }
  const int count = static_cast<int>(symbols.size());
  return DrawnSymbols::draw(symbols, shop.shelf(),
                            [&](int done) { return run.watcher.at("drawing cards", done, count); });
}

pack::CardWork card_work(const Run& run, const Workshop& shop) {
  const game::CardFormat& format = run.outcome.game.card;
  return {run.outcome.game, *run.outcome.plan, shop.fronts(),
          grown(Rect{{}, format.size}, format.bleed),
          grown(Rect{{}, format.size}, pieces::back_bleed(run.outcome.game))};
}

/// One file of sheets: its document's own texts are set, it is written, and its memory is free
/// again before the next.
bool write_document(Run& run, Workshop& shop, pack::Staging& staging, const DrawnSymbols& drawn,
                    const std::string& path, Document document) {
  for (Page& page : document.pages) typeset(page.own, shop.typesetter());
  const auto bytes = write_pdf(document, drawn, shop.shelf()).or_report(run.found);
  return bytes && staging.write(path, *bytes).or_report(run.found).has_value();
}

bool write_documents(Run& run, Workshop& shop, pack::Staging& staging, const DrawnSymbols& drawn) {
  const pack::CardWork work = card_work(run, shop);
  std::vector<std::string> ids;
  for (int i = 0; i < shop.fronts(); ++i) {
    ids.push_back(shop.drawings()[static_cast<std::size_t>(i)].piece);
  }
  std::vector<pack::CardFile> files = pack::card_files(work, ids, shop.back_of());
  std::erase_if(files, [&](const pack::CardFile& file) {
    return !run.wishes.parts.contains(file.for_shop ? Part::shop : Part::home);
  });
  for (std::size_t i = 0; i < files.size(); ++i) {
    if (!run.watcher.at("writing files", static_cast<int>(i), static_cast<int>(files.size()))) {
      run.found.push_back(stopped());
      return false;
    }
    if (!write_document(run, shop, staging, drawn, files[i].path, files[i].make())) return false;
  }
  return true;
}

/// Writes the report last, since it lists the rest, and puts the pack in its place.
void publish(Run& run, pack::Staging& staging) {
  settle(run.outcome, std::exchange(run.found, {}));
  run.outcome.files = staging.files();
  Diagnostics failed;
  if (staging.write(pack::report_name, report(run.outcome)).or_report(failed)) {
    run.outcome.published = staging.publish().or_report(failed).has_value();
  }
  if (run.outcome.published) run.outcome.files = staging.files();
  for (Diagnostic& problem : failed) run.outcome.found.push_back(std::move(problem));
}

/// Draws, lays and writes; leaves early, with the reason among the findings, when it cannot go on.
void make_pack(Run& run, Workshop& shop) {
  std::optional<pack::Staging> staging = pack::Staging::begin(run.wishes.out).or_report(run.found);
  if (!staging) return;
  std::optional<pack::Previews> previews;
  if (run.wishes.parts.contains(Part::pictures)) {
    previews.emplace(run.outcome.game.card, shop.shelf(), shop.typesetter(), *staging);
  }
  auto drawn = draw_faces(run, shop, previews ? &*previews : nullptr).or_report(run.found);
  take_found(run, shop);
  if (!drawn) return;
  lay_sheets(shop, run.wishes, run.outcome, run.found);
  if (previews) previews->finish(run.found);
  if (any_errors(run.found) || !run.outcome.plan) return;
  if (write_documents(run, shop, *staging, *drawn)) publish(run, *staging);
}

}  // namespace

Outcome check(const World& world, const Wishes& wishes, Watcher& watcher) {
  Run run = begin(world, wishes, watcher);
  Workshop shop(world, run.outcome.game, chosen_cards(run.outcome.game, wishes, run.found),
                nullptr);
  for (std::size_t i = 0; i < shop.drawings().size(); ++i) {
    if (!watcher.at("looking at cards", static_cast<int>(i),
                    static_cast<int>(shop.drawings().size()))) {
      run.found.push_back(stopped());
      break;
    }
    const Scene scene = shop.draw(i);
  }
  take_found(run, shop);
  lay_sheets(shop, wishes, run.outcome, run.found);
  return end(run);
}

Outcome make(const World& world, const Wishes& wishes, Watcher& watcher) {
  Run run = begin(world, wishes, watcher);
  const std::vector<int> cards = chosen_cards(run.outcome.game, wishes, run.found);
  // Nothing will be written: find the rest of what is wrong, as `check` does.
  if (any_errors(run.found)) return check(world, wishes, watcher);
  const std::unique_ptr<ImageCache> cache =
      wishes.cache_folder.empty() ? nullptr : pack::image_cache(wishes.cache_folder);
  Workshop shop(world, run.outcome.game, cards, cache.get());
  make_pack(run, shop);
  if (run.outcome.published) return std::move(run.outcome);
  return end(run);
}

Bytes report(const Outcome& outcome) {
  return pack::report_json({outcome.game, outcome.found, outcome.plan ? &*outcome.plan : nullptr,
                            outcome.totals, outcome.files});
}

}  // namespace quoin::job
