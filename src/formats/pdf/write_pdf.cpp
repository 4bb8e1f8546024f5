#include <fmt/format.h>

#include <stdexcept>
#include <string_view>

#include "formats/pdf/drawn_forms.h"
#include "formats/pdf/drawn_symbols.h"
#include "formats/pdf/layers.h"
#include "formats/pdf/metadata.h"
#include "formats/pdf/numbers.h"
#include "formats/pdf/own_drawings.h"
#include "formats/pdf/page_tree.h"
#include "formats/pdf/pdf.h"
#include "formats/pdf/recorded_pages.h"
#include "formats/pdf/spot_colours.h"

namespace quoin {
namespace pdf {
namespace {

// ISO 32000-1, annex C.2: a page is 3 to 14 400 units wide and high.
constexpr double smallest_page_points = 3, largest_page_points = 14400;

std::string millimetres(Mm length) { return fmt::format("{:.1f}", length.value); }

void check_size(const Page& page, int number, Diagnostics& found) {
  const Mm longer = std::max(page.media.width, page.media.height);
  const Mm shorter = std::min(page.media.width, page.media.height);
  const auto say = [&](Id id, std::string_view fault, double limit_points) {
    const Mm limit{limit_points / points_per_mm};
    found.push_back(
        Diagnostic(id, {},
                   fmt::format("page {} is {} x {} mm, and a PDF page {} {} mm", number,
                               millimetres(page.media.width), millimetres(page.media.height), fault,
                               millimetres(limit)))
            .on(fmt::format("page {}", number)));
  };
  if (!(in_points(longer) <= largest_page_points)) {
    say(Id::pdf_page_too_large, "is at most", largest_page_points);
  } else if (!(in_points(shorter) >= smallest_page_points)) {
    say(Id::pdf_page_too_small, "is at least", smallest_page_points);
  }
}

Diagnostics check_sizes(const std::vector<Page>& pages) {
  Diagnostics found;
  int number = 0;
  for (const Page& page : pages) check_size(page, ++number, found);
  return found;
}

/// Hands on what the writer writes, small pieces gathered to larger ones, images as they are.
class SinkPipeline : public Pipeline {
 public:
  explicit SinkPipeline(const ByteSink& sink) : Pipeline("file", nullptr), sink_(sink) {
    gathered_.reserve(enough);
  }
  void write(const unsigned char* data, std::size_t size) override {
    const std::string_view piece(reinterpret_cast<const char*>(data), size);
    if (gathered_.size() + size > enough) finish();
    if (size >= enough) {
      sink_(piece);
    } else {
      gathered_ += piece;
    }
  }
  void finish() override {
    if (!gathered_.empty()) sink_(gathered_);
    gathered_.clear();
  }

 private:
  static constexpr std::size_t enough = 1 << 16;
  const ByteSink& sink_;
  Bytes gathered_;
};

/// One file while it is put together from the drawn symbols and the pages' own drawings.
class Assembly {
 public:
  Assembly(const DrawnSymbols::State& symbols, const OwnDrawings& own, LineWork line_work,
           PictureShelf& shelf)
      : symbols_(symbols),
        own_(own),
        symbol_pages_(recorded_pages(file_, symbols.recording)),
        own_pages_(recorded_pages(own_file_, own.recording)),
        spaces_(file_),
        layers_(file_, line_work),
        spots_(file_, spaces_),
        images_(file_, spaces_, shelf),
        forms_(file_, spaces_, images_),
        page_objects_(file_, layers_, spaces_),
        symbol_forms_(symbol_pages_.size()) {}

  [[nodiscard]] Outcome write(const Document& document, const ByteSink& sink) {
    std::vector<Object> pages;
    for (const Page& page : document.pages) pages.push_back(composed(page, pages.size()));
    if (any_errors(images_.found())) return images_.found();
    set_pages(file_, pages);
    set_catalogue(document);
    send(sink);
    return Done{};
  }

 private:
  [[nodiscard]] const Form& symbol(int index) {
    std::optional<Form>& form = symbol_forms_.at(static_cast<std::size_t>(index));
    if (!form) {
      form = forms_.from(symbol_pages_[static_cast<std::size_t>(index)], symbols_.recording);
    }
    return *form;
  }

  [[nodiscard]] PlacedForm placed(const Placement& placement, Mm page_height) {
    const Rect bounds = symbols_.bounds.at(static_cast<std::size_t>(placement.symbol));
    const std::string key = fmt::format("S{}", placement.symbol);
    return {symbol(placement.symbol), Layer::art, key,
            fmt::format("q {} re W n {} cm /{} Do Q", rectangle_text(placement.window, page_height),
                        matrix_on_page(placement.map, bounds, page_height).text(), key)};
  }

  [[nodiscard]] Object composed(const Page& page, std::size_t index) {
    std::vector<PlacedForm> all;
    for (const Placement& placement : page.placements) {
      all.push_back(placed(placement, page.media.height));
    }
    for (const OwnRun& run : own_.of_page[index]) {
      if (!run.lines.empty()) {
        const std::string key = fmt::format("L{}", all.size());
        all.push_back({spots_.form(run.lines, page.media), run.layer, key, "/" + key + " Do"});
        continue;
      }
      const std::string key = fmt::format("P{}", run.recorded);
      const Object recorded = own_pages_[static_cast<std::size_t>(run.recorded)];
      all.push_back({forms_.from(recorded, own_.recording), run.layer, key, "/" + key + " Do"});
    }
    return page_objects_.made(page, all);
  }

  void set_catalogue(const Document& document) {
    Object root = file_.getRoot();
    root.replaceKey("/OCProperties", layers_.properties());
    root.replaceKey("/ViewerPreferences", viewer_preferences(document.duplex));
    root.replaceKey("/PageLabels", page_labels(document.pages));
    if (!document.language.empty()) root.replaceKey("/Lang", words(document.language));
    Object packet = file_.newStream(xmp_packet(document));
    packet.getDict().replaceKey("/Type", name("Metadata"));
    packet.getDict().replaceKey("/Subtype", name("XML"));
    root.replaceKey("/Metadata", packet);
    file_.getTrailer().replaceKey("/Info", file_.makeIndirectObject(information(document)));
  }

  void send(const ByteSink& sink) {
    SinkPipeline pipeline(sink);
    QPDFWriter writer(file_);
    writer.setOutputPipeline(&pipeline);
    writer.forcePDFVersion("1.7");
    writer.setObjectStreamMode(qpdf_o_generate);
    writer.setDeterministicID(true);
    writer.write();
    expect_no_surprises(file_);
    expect_no_surprises(own_file_);
  }

  const DrawnSymbols::State& symbols_;
  const OwnDrawings& own_;
  QPDF file_, own_file_;
  std::vector<Object> symbol_pages_, own_pages_;
  ColourSpaces spaces_;
  Layers layers_;
  SpotColours spots_;
  Images images_;
  DrawnForms forms_;
  PageObjects page_objects_;
  std::vector<std::optional<Form>> symbol_forms_;
};

}  // namespace

void expect_no_surprises(QPDF& file) {
  for (const QPDFExc& warning : file.getWarnings()) {
    const std::string_view text = warning.what();
    if (text.find("dictionary has duplicated key") == std::string_view::npos) {
      throw std::logic_error(fmt::format("a drawing was recorded in a damaged form: {}", text));
    }
  }
}

}  // namespace pdf

struct RecordedDocument::State {
  Document document;
  Diagnostics found;  ///< why there will be no file
  pdf::OwnDrawings own;
};

RecordedDocument::RecordedDocument(Document document, PictureShelf& shelf) {
  if (document.pages.empty()) throw std::logic_error("a document without pages");
  auto state = std::make_unique<State>();
  state->found = pdf::check_sizes(document.pages);
  if (state->found.empty()) {
    state->own = pdf::record_own(document, shelf);
    if (any_errors(state->own.recording.found)) state->found = state->own.recording.found;
  }
  state->document = std::move(document);
  state_ = std::move(state);
}

RecordedDocument::~RecordedDocument() = default;

Outcome RecordedDocument::write(const DrawnSymbols& symbols, PictureShelf& shelf,
                                const ByteSink& sink) const {
  if (!state_->found.empty()) return state_->found;
  return pdf::Assembly(symbols.state(), state_->own, state_->document.line_work, shelf)
      .write(state_->document, sink);
}

Result<Bytes> write_pdf(Document document, const DrawnSymbols& symbols, PictureShelf& shelf) {
  Bytes bytes;
  const Outcome done = RecordedDocument(std::move(document), shelf)
                           .write(symbols, shelf, [&](std::string_view more) { bytes += more; });
  if (!done) return done.why();
  return bytes;
}

}  // namespace quoin
