#include "job/job.h"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <future>

#include "base/hash.h"
#include "formats/dxf/dxf.h"
#include "formats/pdf/pdf.h"
#include "formats/svg/svg.h"
#include "job/ahead.h"
#include "job/box_shown.h"
#include "job/copies.h"
#include "job/guide_shown.h"
#include "job/kept_findings.h"
#include "job/mat_made.h"
#include "job/prefetch.h"
#include "job/printer/known_printer.h"
#include "job/reckon.h"
#include "job/rules_shown.h"
#include "job/settled.h"
#include "job/workshop.h"
#include "pack/box_files.h"
#include "pack/box_pictures.h"
#include "pack/card_files.h"
#include "pack/image_cache.h"
#include "pack/mat_files.h"
#include "pack/previews.h"
#include "pack/report.h"
#include "pack/rules_pictures.h"
#include "pieces/box/box_art.h"
#include "pieces/card/face.h"
#include "press/fitness.h"

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

/// Lays the sheets once all faces were drawn, and adds what is found on the way.
void lay_sheets(const Workshop& shop, const Wishes& wishes, Outcome& outcome, Diagnostics& found) {
  const std::vector<sheets::Copy> copies = all_copies(outcome.game, shop, wishes, wishes.decks);
  outcome.totals = totals_of(outcome.game, shop, copies.size());
  if (copies.empty()) return;
  outcome.plan =
      sheets::lay(copies, piece_format(outcome.game, shop), outcome.game.sheets).or_report(found);
  if (!outcome.plan) return;
  outcome.totals.sheets = static_cast<int>(outcome.plan->sheets.size());
  print_cards_for_printer(outcome, found);
  for (Diagnostic& problem : sheets::check(*outcome.plan)) found.push_back(std::move(problem));
}

/// How it is cut and what it takes, once the sheets are laid and the box is made.
void reckon_run(const Workshop& shop, const Wishes& wishes, Outcome& outcome, Diagnostics& found) {
  const CopiesOf copies = [&](int decks) { return all_copies(outcome.game, shop, wishes, decks); };
  reckon(shop, wishes, copies, outcome, found);
}

/// Folds the box and draws its art, when the game asks for them. A reprint of some cards needs
/// none.
void fold_box(const Wishes& wishes, Workshop& shop, Outcome& outcome, Diagnostics& found) {
  if (!outcome.game.box || !wishes.only.empty()) return;
  Checked<std::optional<pieces::Box>> made = pack::box_for_paper(outcome.game);
  outcome.box = std::move(made.value);
  for (Diagnostic& problem : made.found) found.push_back(std::move(problem));
  if (!outcome.box) return;
  Checked<pack::BoxArt> art = pieces::box_art(shop.studio(), shop.typesetter(), *outcome.box);
  outcome.box_art = std::move(art.value);
  for (Diagnostic& problem : art.found) found.push_back(std::move(problem));
  Checked<pack::BoxSheets> laid =
      pack::lay_box(outcome.game, *outcome.box, outcome.box_art, wishes.decks);
  outcome.box_sheets = std::move(laid.value);
  if (!wishes.parts.contains(Part::home)) return;
  print_box_for_printer(outcome, found);
  for (Diagnostic& problem : laid.found) found.push_back(std::move(problem));
}

void settle(Outcome& outcome, Diagnostics found) {
  Diagnostics all = std::move(outcome.found);
  for (Diagnostic& problem : settled(outcome.game, std::move(found))) {
    all.push_back(std::move(problem));
  }
  outcome.found = in_order(std::move(all));
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
  std::unique_ptr<ImageCache> cache;  ///< null: nothing is kept between runs
  std::string game_hash;              ///< of the game's files but for the card list and pictures
  std::optional<TopCard> top_card;    ///< of the deck in the pictures of the box
  std::map<std::size_t, Scene> faces_for_guide;
};

/// A reprint of some cards needs no guide.
bool wants_guide(const Wishes& wishes) {
  return wishes.parts.contains(Part::guide) && wishes.only.empty();
}

/// The game with the prices of this machine, which lie beside its printers.
Checked<game::Game> read_with_prices(const World& world, const std::string& printers_folder) {
  if (printers_folder.empty()) return game::read_game(world);
  const std::string folder = printers_folder.substr(0, printers_folder.rfind('/'));
  const std::unique_ptr<World> machine = real_world(folder);
  return game::read_game(world, {machine.get(), folder + "/prices.toml"});
}

Run begin(const World& world, const Wishes& wishes, Watcher& watcher) {
  Run run{world, wishes, watcher, {}, {}, nullptr, {}, {}, {}};
  const WitnessedWorld witnessed(world);
  Checked<game::Game> read = read_with_prices(witnessed, wishes.printers_folder);
  run.outcome.game = std::move(read.value);
  run.found = std::move(read.found);
  run.outcome.printer =
      known_printer(witnessed, wishes.printers_folder, run.outcome.game, run.found);
  if (wishes.cache_folder.empty()) return run;
  run.cache = pack::image_cache(wishes.cache_folder);
  for (const std::string& font : run.outcome.game.font_files) {
    (void)witnessed.read(font, largest_file);
  }
  run.game_hash = witnessed.hash();
  if (run.outcome.printer) {
    run.game_hash = sha256(run.game_hash + press::profile_text(*run.outcome.printer));
  }
  return run;
}

/// What is only true today, told after all files were written.
void add_dated(Run& run) {
  if (!run.outcome.printer) return;
  auto old = press::measured_long_ago(*run.outcome.printer, run.wishes.today,
                                      run.outcome.game.printer.origin);
  if (old) settle(run.outcome, {std::move(*old)});
}

Outcome end(Run& run) {
  settle(run.outcome, std::move(run.found));
  add_dated(run);
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
  Ahead ahead(shop);
  std::set<std::size_t> for_guide;
  if (wants_guide(run.wishes)) for_guide = faces_for_guide(shop);
  std::vector<Symbol> symbols;
  for (std::size_t i = 0; i < shop.drawings().size(); ++i) {
    symbols.push_back(
        {shop.drawings()[i].is_back ? back : front, [&, i] {
           Scene scene = ahead.next();
           shop.finish(i, scene);
           if (previews) {
             const Drawing& what = shop.drawings()[i];
             previews->add({what.file, what.piece, shop.name(i, scene)}, scene, run.found);
           }
           if (for_guide.contains(i)) run.faces_for_guide[i] = scene;
           if (i == top_card_of(shop)) run.top_card = TopCard{scene, shop.name(i, scene)};
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

std::vector<pack::CardFile> wanted_files(const Run& run, Workshop& shop,
                                         const pack::CardWork& work) {
  std::vector<std::string> ids;
  for (int i = 0; i < shop.fronts(); ++i) {
    ids.push_back(shop.drawings()[static_cast<std::size_t>(i)].piece);
  }
  std::vector<pack::CardFile> files = pack::card_files(work, ids, shop.back_of());
  std::erase_if(files, [&](const pack::CardFile& file) {
    return !run.wishes.parts.contains(file.for_shop ? Part::shop : Part::home);
  });
  return files;
}

/// Files of so many sheets at most are put together side by side: for larger ones the memory would
/// be too much.
constexpr std::size_t most_sheets_side_by_side = 250;

/// A file of sheets that is being written.
struct BegunFile {
  std::string path;
  std::unique_ptr<pack::Staging::Writer> writer;
  std::future<Result<Done>> done;  // last: ends before the writer goes
};

/// Begins one file of sheets: its document's own texts are set and recorded here, and it is put
/// together on a thread of its own.
std::optional<BegunFile> begin_file(Run& run, Workshop& shop, const pack::Staging& staging,
                                    const DrawnSymbols& drawn, const pack::CardFile& file) {
  Document document = file.make();
  for (Page& page : document.pages) typeset(page.own, shop.typesetter());
  auto recorded = std::make_shared<const RecordedDocument>(std::move(document), shop.shelf());
  auto writer = staging.open(file.path).or_report(run.found);
  if (!writer) return std::nullopt;
  pack::Staging::Writer& to = **writer;
  return BegunFile{file.path, std::move(*writer),
                   std::async(std::launch::async, [recorded, &drawn, &shop, &to] {
                     return recorded->write(drawn, shop.shelf(),
                                            [&to](std::string_view more) { to.write(more); });
                   })};
}

/// Writes the files, small ones three at a time: the last of them is as much work as the first.
bool write_documents(Run& run, Workshop& shop, pack::Staging& staging, const DrawnSymbols& drawn) {
  const pack::CardWork work = card_work(run, shop);
  const std::vector<pack::CardFile> files = wanted_files(run, shop, work);
  const bool side_by_side = work.plan.sheets.size() <= most_sheets_side_by_side;
  std::deque<BegunFile> begun;
  for (std::size_t next = 0; next < files.size() || !begun.empty();) {
    if (next < files.size() && (begun.empty() || (side_by_side && begun.size() < 3))) {
      if (!run.watcher.at("writing files", static_cast<int>(next),
                          static_cast<int>(files.size()))) {
        run.found.push_back(stopped());
        return false;
      }
      auto file = begin_file(run, shop, staging, drawn, files[next++]);
      if (!file) return false;
      begun.push_back(std::move(*file));
      continue;
    }
    BegunFile& first = begun.front();
    if (!first.done.get().or_report(run.found)) return false;
    if (!staging.close(first.path, *first.writer).or_report(run.found)) return false;
    begun.pop_front();
  }
  return true;
}

/// Writes a document that places these drawings.
bool write_pages(Run& run, Workshop& shop, pack::Staging& staging, const std::string& path,
                 const DrawnSymbols& drawn, Document document) {
  for (Page& page : document.pages) typeset(page.own, shop.typesetter());
  const auto bytes = write_pdf(std::move(document), drawn, shop.shelf()).or_report(run.found);
  return bytes && staging.write(path, *bytes).or_report(run.found);
}

/// The nets for a cutting machine.
bool write_cutter_files(Run& run, Workshop& shop, pack::Staging& staging) {
  const LayerSet layers{Layer::cut, Layer::crease, Layer::glue};
  for (const pack::BoxNet& net : pack::box_nets(*run.outcome.box, run.outcome.game.title)) {
    const auto svg = write_svg(net.drawing, layers, shop.shelf()).or_report(run.found);
    const std::string path = "cutter/" + net.name;
    if (!svg || !staging.write(path + ".svg", *svg).or_report(run.found)) return false;
    const Bytes dxf = write_dxf(net.drawing, {Layer::cut, Layer::crease});
    if (!staging.write(path + ".dxf", dxf).or_report(run.found)) return false;
  }
  return true;
}

/// Everything of the box that was asked for.
bool write_box(Run& run, Workshop& shop, pack::Staging& staging) {
  if (!run.outcome.box) return true;
  const game::Game& game = run.outcome.game;
  const pieces::Box& box = *run.outcome.box;
  const pack::BoxArt& art = run.outcome.box_art;
  const auto drawn =
      DrawnSymbols::draw(pack::box_symbols(box, art), shop.shelf(), {}).or_report(run.found);
  if (!drawn) return false;
  if (run.wishes.parts.contains(Part::home)) {
    Document home = pack::home_box(game, box, art, run.outcome.box_sheets);
    if (!home.pages.empty() &&
        !write_pages(run, shop, staging, "home/box.pdf", *drawn, std::move(home))) {
      return false;
    }
  }
  if (run.wishes.parts.contains(Part::shop) &&
      !write_pages(run, shop, staging, "shop/box.pdf", *drawn, pack::shop_box(game, box, art))) {
    return false;
  }
  return !run.wishes.parts.contains(Part::cutter) || write_cutter_files(run, shop, staging);
}

/// Everything of the mat that was asked for.
bool write_mat(Run& run, Workshop& shop, pack::Staging& staging) {
  if (!run.outcome.mat) return true;
  const game::Game& game = run.outcome.game;
  const pieces::Mat& mat = *run.outcome.mat;
  const auto drawn =
      DrawnSymbols::draw(pack::mat_symbols(mat), shop.shelf(), {}).or_report(run.found);
  if (!drawn) return false;
  if (run.wishes.parts.contains(Part::home) && run.outcome.mat_tiling &&
      !write_pages(run, shop, staging, "home/mat.pdf", *drawn,
                   pack::home_mat(game, mat, *run.outcome.mat_tiling))) {
    return false;
  }
  if (run.wishes.parts.contains(Part::shop) &&
      !write_pages(run, shop, staging, "shop/mat.pdf", *drawn, pack::shop_mat(game, mat))) {
    return false;
  }
  if (!run.wishes.parts.contains(Part::pictures)) return true;
  const auto png = mat_png(run.outcome, run.cache ? run.game_hash : std::string{}, run.cache.get(),
                           shop.shelf(), run.found);
  return !png || staging.write("pictures/mat.png", *png).or_report(run.found);
}

/// The pictures of the box and its model.
bool write_box_pictures(Run& run, Workshop& shop, pack::Staging& staging,
                        const std::optional<pack::BoxPictureWork>& box) {
  if (!box) return true;
  for (const pack::BoxPictureFile& file :
       pack::box_pictures(*box, shop.shelf(), run.cache.get(), run.found)) {
    if (!staging.write(file.path, file.bytes).or_report(run.found)) return false;
  }
  return true;
}

/// The rules, for the maker's printer and for a shop.
bool write_rules(Run& run, Workshop& shop, pack::Staging& staging) {
  if (!run.outcome.rules) return true;
  const game::Game& game = run.outcome.game;
  const rules::Leaflet& leaflet = *run.outcome.rules;
  const auto drawn =
      DrawnSymbols::draw(pack::rules_symbols(leaflet), shop.shelf(), {}).or_report(run.found);
  if (!drawn) return false;
  if (run.wishes.parts.contains(Part::home) && !run.outcome.rules_sheets.sheets.empty() &&
      !write_pages(run, shop, staging, "home/rules.pdf", *drawn,
                   pack::home_rules(game, leaflet, run.outcome.rules_sheets))) {
    return false;
  }
  return !run.wishes.parts.contains(Part::shop) ||
         write_pages(run, shop, staging, "shop/rules.pdf", *drawn, pack::shop_rules(game, leaflet));
}

/// Pictures of the pages and of the folding.
bool write_rules_pictures(Run& run, Workshop& shop, pack::Staging& staging) {
  if (!run.outcome.rules || !run.wishes.parts.contains(Part::pictures)) return true;
  const auto write = [&](const char* path, const pack::PlainPicture& picture) {
    if (picture.size == Size{}) return true;
    const Bytes png = pack::png_of(picture, pack::rules_picture_pixels, shop.shelf(), run.found);
    return staging.write(path, png).or_report(run.found).has_value();
  };
  const rules::Leaflet& leaflet = *run.outcome.rules;
  return write("pictures/rules.png", pack::rules_pages_picture(leaflet, shop.typesetter())) &&
         write("pictures/rules-folding.png",
               pack::rules_folding_picture(leaflet, shop.typesetter()));
}

bool write_guide(Run& run, Workshop& shop, pack::Staging& staging, const DrawnSymbols& drawn) {
  if (!wants_guide(run.wishes)) return true;
  return write_pages(
      run, shop, staging, "guide.pdf", drawn,
      guide_document(run.outcome, run.wishes, shop, run.faces_for_guide, run.top_card));
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
    previews.emplace(run.outcome.game.card, shop.shelf(), shop.typesetter(), *staging,
                     run.cache.get());
  }
  auto drawn = draw_faces(run, shop, previews ? &*previews : nullptr).or_report(run.found);
  if (drawn) {
    fold_rules(run.wishes, shop, run.outcome, run.found);
    fold_box(run.wishes, shop, run.outcome, run.found);
    draw_mat(run.wishes, shop, run.outcome, run.found);
    check_rules_in_box(run.outcome, run.found);
  }
  take_found(run, shop);
  if (!drawn) return;
  lay_sheets(shop, run.wishes, run.outcome, run.found);
  reckon_run(shop, run.wishes, run.outcome, run.found);
  const std::optional<pack::BoxPictureWork> box = box_picture_work(
      run.outcome, run.wishes, run.top_card, run.cache ? run.game_hash : std::string{});
  if (previews) previews->finish(box_row(box, shop.shelf()), run.found);
  if (any_errors(run.found) || !run.outcome.plan) return;
  if (write_documents(run, shop, *staging, *drawn) && write_box(run, shop, *staging) &&
      write_mat(run, shop, *staging) && write_box_pictures(run, shop, *staging, box) &&
      write_rules(run, shop, *staging) && write_rules_pictures(run, shop, *staging) &&
      write_guide(run, shop, *staging, *drawn)) {
    publish(run, *staging);
  }
}

/// False, with that said, when the work is to stop.
bool goes_on(Run& run, std::string_view work, std::size_t done, std::size_t of) {
  if (run.watcher.at(work, static_cast<int>(done), static_cast<int>(of))) return true;
  run.found.push_back(stopped());
  return false;
}

bool look_at_cards(Run& run, Workshop& shop) {
  const std::size_t all = shop.drawings().size();
  for (std::size_t i = 0; i < all; ++i) {
    if (!goes_on(run, "looking at cards", i, all)) return false;
    Scene scene = shop.compose(i);
    shop.check(i, scene);
  }
  return true;
}

/// Rules, box and mat, which take a moment each.
void look_at_other_pieces(Run& run, Workshop& shop) {
  constexpr std::size_t pieces = 3;
  if (!goes_on(run, "looking at the rules", 0, pieces)) return;
  fold_rules(run.wishes, shop, run.outcome, run.found);
  if (!goes_on(run, "folding the box", 1, pieces)) return;
  fold_box(run.wishes, shop, run.outcome, run.found);
  check_rules_in_box(run.outcome, run.found);
  if (!goes_on(run, "looking at the mat", 2, pieces)) return;
  draw_mat(run.wishes, shop, run.outcome, run.found);
}

}  // namespace

Outcome check(const World& world, const Wishes& wishes, Watcher& watcher) {
  Run run = begin(world, wishes, watcher);
  Workshop shop(world, run.outcome.game, chosen_cards(run.outcome.game, wishes, run.found),
                run.cache.get(), run.game_hash);
  if (look_at_cards(run, shop)) look_at_other_pieces(run, shop);
  take_found(run, shop);
  lay_sheets(shop, wishes, run.outcome, run.found);
  reckon_run(shop, wishes, run.outcome, run.found);
  return end(run);
}

Outcome make(const World& world, const Wishes& wishes, Watcher& watcher) {
  Run run = begin(world, wishes, watcher);
  const std::vector<int> cards = chosen_cards(run.outcome.game, wishes, run.found);
  // Nothing will be written: find the rest of what is wrong, as `check` does.
  if (any_errors(run.found)) return check(world, wishes, watcher);
  Workshop shop(world, run.outcome.game, cards, run.cache.get(), run.game_hash);
  make_pack(run, shop);
  if (run.outcome.published) {
    add_dated(run);
    return std::move(run.outcome);
  }
  return end(run);
}

Bytes report(const Outcome& outcome) {
  return pack::report_json(
      {outcome.game, outcome.found, outcome.plan ? &*outcome.plan : nullptr, outcome.totals,
       outcome.files, outcome.box ? &*outcome.box : nullptr, &outcome.box_sheets,
       outcome.making ? &outcome.making->cutting : nullptr,
       outcome.making ? &outcome.making->tolerances : nullptr,
       outcome.making ? &outcome.making->costs : nullptr,
       outcome.making ? &outcome.making->faces : nullptr, outcome.mat ? &*outcome.mat : nullptr,
       outcome.mat_tiling ? &*outcome.mat_tiling : nullptr,
       outcome.rules ? &*outcome.rules : nullptr, &outcome.rules_sheets});
}

}  // namespace quoin::job
