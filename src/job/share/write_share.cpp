#include "job/share/write_share.h"

#include <fmt/format.h>

#include <algorithm>
#include <future>

#include "base/hash.h"
#include "formats/png/png.h"
#include "formats/zip/zip.h"
#include "guide/figures/figures.h"
#include "guide/guide_document.h"
#include "guide/read_me.h"
#include "job/guide_shown.h"
#include "job/share/offer.h"
#include "pack/card_files.h"
#include "pack/mat_files.h"
#include "pieces/card/face.h"
#include "sheets/wording.h"

namespace quoin::job {
namespace {

/// Puts PDF files together on threads of their own, two at a time.
class PdfFiles {
 public:
  PdfFiles(Workshop& shop, pack::Staging& staging, Diagnostics& found)
      : shop_(shop), staging_(staging), found_(found) {}
  ~PdfFiles() = default;
  PdfFiles(const PdfFiles&) = delete;
  PdfFiles& operator=(const PdfFiles&) = delete;

  bool write(const std::string& path, Document document, const DrawnSymbols& drawn) {
    while (begun_.size() > 1) {
      if (!end_first()) return false;
    }
    for (Page& page : document.pages) typeset(page.own, shop_.typesetter());
    auto recorded = std::make_shared<const RecordedDocument>(std::move(document), shop_.shelf());
    auto writer = staging_.open(path).or_report(found_);
    if (!writer) return false;
    pack::Staging::Writer& to = **writer;
    begun_.push_back(
        {path, std::move(*writer), std::async(std::launch::async, [recorded, &drawn, this, &to] {
           return recorded->write(drawn, shop_.shelf(),
                                  [&to](std::string_view more) { to.write(more); });
         })});
    return true;
  }

  bool finish() {
    while (!begun_.empty()) {
      if (!end_first()) return false;
    }
    return true;
  }

 private:
  struct Begun {
    std::string path;
    std::unique_ptr<pack::Staging::Writer> writer;
    std::future<quoin::Outcome> done;  // last: ends before the writer goes
  };

  bool end_first() {
    Begun first = std::move(begun_.front());
    begun_.pop_front();
    return first.done.get().or_report(found_) &&
           staging_.close(first.path, *first.writer).or_report(found_);
  }

  Workshop& shop_;
  pack::Staging& staging_;
  Diagnostics& found_;
  std::deque<Begun> begun_;
};

/// Width and height of a PNG (W3C PNG, 11.2.2: the first eight bytes of IHDR).
std::pair<int, int> png_size(const Bytes& png) {
  const auto number = [&](std::size_t at) {
    int value = 0;
    for (std::size_t i = 0; i < 4; ++i)
      value = value * 256 + static_cast<unsigned char>(png[at + i]);
    return value;
  };
  if (png.size() < 24) return {};
  return {number(16), number(20)};
}

/// Writes one share.
class Writing {
 public:
  Writing(const ShareWork& work, pack::Staging& staging, Diagnostics& found)
      : work_(work),
        staging_(staging),
        found_(found),
        game_(work.outcome.game),
        name_(share_name(work.outcome.game)),
        pdf_(work.shop, staging, found) {}

  bool all() {
    for (std::size_t i = 0; i < work_.editions.size(); ++i) {
      const int all_of_them = static_cast<int>(work_.editions.size());
      if (!work_.watcher.at("writing editions", static_cast<int>(i), all_of_them)) return stopped();
      if (!edition(work_.editions[i], box_of(i))) return false;
    }
    return for_a_shop() && credits() && pdf_.finish() && pictures() && page_and_manifest();
  }

 private:
  bool stopped() {
    found_.push_back(Diagnostic(Id::pack_cancelled, {}, "the work was stopped before it was done"));
    return false;
  }

  [[nodiscard]] const SharedBox* box_of(std::size_t i) const {
    const int box = work_.box_of[i];
    return box < 0 ? nullptr : &work_.boxes[static_cast<std::size_t>(box)];
  }

  [[nodiscard]] std::string path(const std::string& what) const { return name_ + "-" + what; }

  bool cards(const Edition& edition, const sheets::Plan& plan, const std::string& what) {
    const game::CardFormat& format = game_.card;
    const pack::CardWork cards{edition.outcome.game, plan, work_.shop.fronts(),
                               grown(Rect{{}, format.size}, format.bleed),
                               grown(Rect{{}, format.size}, pieces::back_bleed(game_))};
    // The first file is the one with both sides.
    const std::vector<pack::CardFile> files =
        pack::card_files(cards, std::vector<std::string>(static_cast<std::size_t>(cards.fronts)),
                         work_.shop.back_of());
    const std::string paper = edition.paper->name;
    return pdf_.write(path(file_names::cards(what, paper, Ink::full)), files.front().make(),
                      *work_.faces.full) &&
           pdf_.write(path(file_names::cards(what, paper, Ink::low)), files.front().make(),
                      *work_.faces.low);
  }

  bool box(const Edition& edition, const SharedBox& made) {
    const Outcome& outcome = edition.outcome;
    const auto document = [&](const pack::BoxArt& art) {
      return pack::home_box(outcome.game, *outcome.box, art, outcome.box_sheets);
    };
    if (outcome.box_sheets.sheets.empty()) return true;
    const std::string paper = edition.paper->name;
    return pdf_.write(path(file_names::box(paper, Ink::full)), document(made.full_art),
                      *made.full) &&
           pdf_.write(path(file_names::box(paper, Ink::low)), document(made.low_art), *made.low);
  }

  [[nodiscard]] guide::Making making(const Edition& edition) const {
    guide::Making making =
        guide_making(edition.outcome, 1, work_.shop, work_.faces.for_guide, work_.faces.top_card);
    const std::string paper = edition.paper->name;
    making.files.reader = guide::GuideFiles::Reader::friend_of_the_game;
    making.files.cards = path(fmt::format("cards-{}-….pdf", paper));
    making.files.box = path(fmt::format("box-{}-….pdf", paper));
    making.files.mat = path(fmt::format("mat-{}-….pdf", paper));
    making.files.shop_mat = path(file_names::shop_mat);
    making.files.rules = path(file_names::rules(paper));
    return making;
  }

  bool guide_and_read_me(const Edition& edition) {
    const std::string paper = edition.paper->name;
    const guide::Making about = making(edition);
    Document guide = guide::document_of(guide::guide_for(about), work_.shop.typesetter());
    guide::ReadMe facts;
    facts.guide = path(file_names::guide(paper));
    if (about.box.box != nullptr) facts.box_full = path(file_names::box(paper, Ink::full));
    if (edition.outcome.mat_tiling) facts.mat = path(file_names::mat(paper, Ink::full));
    if (edition.rules) facts.rules = path(file_names::rules(paper));
    facts.ink_words = ink_words(edition.facts);
    if (work_.faces.first_low) facts.low_ink_face = *work_.faces.first_low;
    if (work_.outcome.changes) {
      facts.since = work_.outcome.changes->since;
      facts.changes = pack::change_lines(*work_.outcome.changes);
    }
    if (edition.changed) {
      facts.changed_cards = path(fmt::format("changed-cards-{}-….pdf", paper));
    }
    return pdf_.write(path(file_names::guide(paper)), std::move(guide), *work_.faces.full) &&
           pdf_.write(path(file_names::read_me(paper)),
                      guide::read_me(about, facts, work_.shop.typesetter()), *work_.faces.full);
  }

  bool edition(const Edition& edition, const SharedBox* made) {
    return guide_and_read_me(edition) && cards(edition, *edition.outcome.plan, "cards") &&
           (!edition.changed || cards(edition, *edition.changed, "changed-cards")) &&
           (made == nullptr || box(edition, *made)) && mat(edition) && rules(edition);
  }

  bool mat(const Edition& edition) {
    const Outcome& outcome = edition.outcome;
    if (!outcome.mat_tiling) return true;
    const std::string paper = edition.paper->name;
    return pdf_.write(path(file_names::mat(paper, Ink::full)),
                      pack::home_mat(outcome.game, *work_.mat.mat, *outcome.mat_tiling),
                      *work_.mat.full) &&
           pdf_.write(path(file_names::mat(paper, Ink::low)),
                      pack::home_mat(outcome.game, work_.mat.low_mat, *outcome.mat_tiling),
                      *work_.mat.low);
  }

  /// Words take little ink: there is one file for both.
  bool rules(const Edition& edition) {
    if (!edition.rules) return true;
    const Outcome& outcome = edition.outcome;
    return pdf_.write(path(file_names::rules(edition.paper->name)),
                      pack::home_rules(outcome.game, *outcome.rules, outcome.rules_sheets),
                      *edition.rules);
  }

  /// On a page that both papers hold: as wide as A4, as high as Letter.
  bool credits() {
    if (work_.outcome.credits.empty()) return true;
    return pdf_.write(path("credits.pdf"),
                      guide::credits_document(game_, work_.outcome.credits, {Mm{210}, Mm{279.4}},
                                              work_.shop.typesetter()),
                      *work_.faces.full);
  }

  /// What a print shop is handed is the same everywhere.
  bool for_a_shop() {
    const Edition& edition = work_.editions.front();
    const Outcome& outcome = edition.outcome;
    if (outcome.mat && !pdf_.write(path(file_names::shop_mat),
                                   pack::shop_mat(outcome.game, *outcome.mat), *work_.mat.full)) {
      return false;
    }
    return !edition.rules ||
           pdf_.write(path(file_names::shop_rules), pack::shop_rules(outcome.game, *outcome.rules),
                      *edition.rules);
  }

  bool picture(const std::string& name, const std::string& alt, const Bytes& png,
               std::vector<pack::ShownPicture>& shown) {
    const auto [width, height] = png_size(png);
    const std::string file = fmt::format("pictures/{}.png", name);
    shown.push_back({file, alt, width, height});
    return staging_.write(file, png).or_report(found_).has_value();
  }

  /// The finished pieces, on a clear ground.
  [[nodiscard]] Bytes cover() const {
    constexpr double pixels_wide = 1200;
    guide::Figure figure = guide::finished_pieces(making(work_.editions.front()));
    typeset(figure.scene, work_.shop.typesetter());
    const double ppi = pixels_wide * mm_per_inch / figure.size.width.value;
    ImageCanvas image(work_.shop.shelf(), figure.size, ppi, ImageCanvas::Background::transparent);
    draw(figure.scene, image.canvas());
    return write_png(image.raster(), ppi);
  }

  bool mat_picture() {
    if (!work_.mat.mat) return true;
    constexpr int pixels_wide = 1600;
    const Raster drawn = pack::mat_picture(*work_.mat.mat, pixels_wide, work_.shop.shelf(), found_);
    const Bytes png = write_png(drawn, pack::mat_picture_ppi(*work_.mat.mat, pixels_wide));
    std::vector<pack::ShownPicture> shown;
    if (!picture("mat", fmt::format("The mat of {}", game_.title), png, shown)) return false;
    page_.mat = shown.front();
    return true;
  }

  bool pictures() {
    std::vector<pack::ShownPicture> covers;
    const bool has_box = work_.editions.front().outcome.box.has_value();
    if (!picture("cover",
                 fmt::format("A fan of the cards of {}{}", game_.title,
                             has_box ? " before its box" : ""),
                 cover(), covers)) {
      return false;
    }
    page_.cover = covers.front();
    for (std::size_t i = 0; i < work_.faces.samples_full.size(); ++i) {
      const PageImage& full = work_.faces.samples_full[i];
      const PageImage& low = work_.faces.samples_low[i];
      if (!picture("full-colour-" + full.name, full.name + " in full colour", full.png,
                   page_.full_colour) ||
          !picture("low-ink-" + low.name, low.name + " in low ink", low.png, page_.low_ink)) {
        return false;
      }
    }
    if (!mat_picture()) return false;
    int number = 0;
    for (const Bytes& sheet : work_.faces.contact_sheets) {
      const std::string name = ++number == 1 ? "all-cards" : fmt::format("all-cards-{}", number);
      if (!picture(name,
                   fmt::format("All cards side by side, picture {} of {}", number,
                               work_.faces.contact_sheets.size()),
                   sheet, page_.all_cards)) {
        return false;
      }
    }
    return true;
  }

  bool page_and_manifest() {
    fill_page(work_, staging_.files(), page_);
    if (!staging_.write("index.html", pack::share_page(page_)).or_report(found_)) return false;
    pack::Manifest manifest = work_.manifest;
    std::vector<pack::Staging::File> files = staging_.files();
    std::sort(files.begin(), files.end(),
              [](const auto& a, const auto& b) { return a.path < b.path; });
    for (const pack::Staging::File& file : files) {
      const auto bytes = staging_.read(file.path).or_report(found_);
      if (!bytes) return false;
      manifest.files.push_back({file.path, file.bytes, sha256(*bytes)});
    }
    return staging_.write(pack::manifest_name, pack::manifest_json(manifest))
        .or_report(found_)
        .has_value();
  }

  const ShareWork& work_;
  pack::Staging& staging_;
  Diagnostics& found_;
  const game::Game& game_;
  const std::string name_;
  PdfFiles pdf_;
  pack::SharePage page_;
};

}  // namespace

bool write_share(const ShareWork& work, pack::Staging& staging, Diagnostics& found) {
  return Writing(work, staging, found).all();
}

Result<Bytes> archive_of(const pack::Staging& staging, const std::string& name) {
  std::vector<ZipEntry> entries;
  for (const pack::Staging::File& file : staging.files()) {
    Result<Bytes> bytes = staging.read(file.path);
    if (!bytes) return std::move(bytes).why();
    entries.push_back({name + "/" + file.path, std::move(*bytes)});
  }
  std::sort(entries.begin(), entries.end(),
            [](const ZipEntry& a, const ZipEntry& b) { return a.path < b.path; });
  return write_zip(entries);
}

}  // namespace quoin::job
