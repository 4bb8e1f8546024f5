#include "job/share/offer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "media/colour.h"
#include "pack/card_files.h"
#include "sheets/wording.h"

namespace quoin::job {
namespace {

constexpr std::size_t most_accents = 8;

const char* ink_name(Ink ink) { return ink == Ink::full ? "full-colour" : "low-ink"; }

std::vector<std::string> accents_of(const game::Game& game) {
  std::vector<std::string> accents;
  for (const game::Suit& suit : game.suits) {
    const auto colour = suit.values.find("colour");
    if (colour == suit.values.end() || accents.size() == most_accents) continue;
    if (const auto read = parse_colour(colour->second.text)) accents.push_back(to_string(*read));
  }
  return accents;
}

/// The files as the page offers them.
class Offer {
 public:
  Offer(const ShareWork& work, const std::vector<pack::Staging::File>& files)
      : files_(files), name_(share_name(work.outcome.game)) {}

  void add(const std::string& file, const std::string& what, int sheets, const std::string& note,
           std::vector<pack::OfferedFile>& to) const {
    const std::string path = name_ + "-" + file;
    const auto written = std::find_if(files_.begin(), files_.end(),
                                      [&](const auto& one) { return one.path == path; });
    if (written != files_.end()) to.push_back({path, what, written->bytes, sheets, note});
  }

  void add_inks(const std::string& piece, const std::string& what, int sheets,
                const std::string& note, pack::OfferedPaper& paper) const {
    for (const Ink ink : {Ink::full, Ink::low}) {
      const char* words = ink == Ink::full ? "full colour" : "low ink";
      add(file_names::cards(piece, paper.name, ink), fmt::format("{}, {}", what, words), sheets,
          note, paper.files);
    }
  }

  [[nodiscard]] pack::OfferedPaper paper(const Edition& edition) const {
    pack::OfferedPaper paper{edition.paper->name, edition.paper->where, {}};
    const SharedEdition& facts = edition.facts;
    const std::string& name = paper.name;
    add(file_names::read_me(name), "Read me first", 1, "", paper.files);
    add_inks("cards", "Cards", facts.sheets, "", paper);
    add_inks("box", "Box", facts.board_sheets, "", paper);
    add(file_names::rules(name), "Rules", facts.rules_sheets, "", paper.files);
    add_inks("mat", "Mat, in sheets to join", facts.mat_sheets, "", paper);
    add(file_names::guide(name), "Guide: how to make it", 0, "", paper.files);
    add_inks("changed-cards", "Only the changed cards", facts.changed_sheets,
             "For who has printed the earlier version.", paper);
    return paper;
  }

 private:
  const std::vector<pack::Staging::File>& files_;
  std::string name_;
};

std::vector<std::string> contents(const ShareWork& work) {
  const Edition& edition = work.editions.front();
  const Outcome& outcome = edition.outcome;
  std::vector<std::string> lines;
  lines.push_back(fmt::format("{} of {}", sheets::counted(outcome.totals.pieces, "card"),
                              sheets::millimetres(outcome.game.card.size)));
  if (outcome.box && !outcome.box_sheets.sheets.empty()) {
    const fold::Block& size = outcome.box->fit.outside;
    lines.push_back(fmt::format("A {} to fold, {:.0f} x {:.0f} x {:.0f} mm",
                                outcome.box->kind->title, size.width.value, size.height.value,
                                size.depth.value));
  }
  if (outcome.mat) {
    lines.push_back(fmt::format("A mat of {}", sheets::millimetres(outcome.mat->plan.size)));
  }
  if (outcome.rules) {
    lines.push_back(fmt::format("Rules of {}", sheets::counted(outcome.rules->filled, "page")));
  }
  if (const std::string stock = pack::stock_words(outcome.game.stock); !stock.empty()) {
    lines.push_back("Made for " + stock);
  }
  return lines;
}

}  // namespace

namespace file_names {

std::string cards(const std::string& what, const std::string& paper, Ink ink) {
  return fmt::format("{}-{}-{}.pdf", what, paper, ink_name(ink));
}
std::string box(const std::string& paper, Ink ink) { return cards("box", paper, ink); }
std::string mat(const std::string& paper, Ink ink) { return cards("mat", paper, ink); }
std::string rules(const std::string& paper) { return fmt::format("rules-{}.pdf", paper); }
std::string guide(const std::string& paper) { return fmt::format("guide-{}.pdf", paper); }
std::string read_me(const std::string& paper) { return fmt::format("read-me-first-{}.pdf", paper); }

}  // namespace file_names

std::string ink_words(const SharedEdition& edition) {
  if (!(edition.full_cover > 0)) return "the cards have hardly any ink on them";
  return fmt::format("the cards take about {:.0f} % of the ink",
                     std::max(1.0, std::round(100 * edition.low_cover / edition.full_cover)));
}

void fill_page(const ShareWork& work, const std::vector<pack::Staging::File>& files,
               pack::SharePage& page) {
  const game::Game& game = work.outcome.game;
  page.title = game.title;
  page.subtitle = game.subtitle;
  page.author = game.author;
  page.version = game.version;
  page.licence = game.licence;
  page.website = game.website;
  page.accents = accents_of(game);
  page.contents = contents(work);
  const Offer offer(work, files);
  for (const Edition& edition : work.editions) page.papers.push_back(offer.paper(edition));
  offer.add(file_names::shop_mat, "Mat, on one page for a print shop", 0, "", page.others);
  offer.add(file_names::shop_rules, "Rules, for a print shop", 0, "", page.others);
  offer.add("credits.pdf", "Credits: who made what", 0, "", page.others);
  const SharedEdition& facts = work.editions.front().facts;
  page.ink_words = fmt::format(
      "Low ink has light grounds, and plays just the same: {}. Of each printed side ink covers "
      "{:.0f} % instead of {:.0f} %, all colours added up.",
      ink_words(facts), 100 * facts.low_cover, 100 * facts.full_cover);
  page.credits = work.outcome.credits;
  page.left_out = work.outcome.left_out;
  if (!work.outcome.changes) return;
  page.since = work.outcome.changes->since;
  page.changes = pack::change_lines(*work.outcome.changes);
  if (page.changes.empty()) page.changes.push_back("No card looks different.");
}

}  // namespace quoin::job
