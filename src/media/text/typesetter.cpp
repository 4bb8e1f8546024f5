#include <hb-glib.h>
#include <hb-ot.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include <algorithm>

#include "media/text/composition.h"
#include "media/text/font_map.h"
#include "media/text/hyphenation.h"
#include "media/text/letter_case.h"
#include "media/text/placing.h"
#include "media/text/thread_fonts.h"

namespace quoin {
namespace {

constexpr Mm shrink_step{0.05 * mm_per_inch / points_per_inch};
constexpr Mm least_type{0.05}, most_type{2000};  // keeps pango's whole numbers in range
constexpr std::string_view symbol_mark = "\uFFFC";

void note_once(std::vector<std::string>& list, std::string entry) {
  if (std::find(list.begin(), list.end(), entry) == list.end()) list.push_back(std::move(entry));
}

bool fits_in(Size needed, Size box) {
  return fits(needed.width, box.width) && fits(needed.height, box.height);
}

/// A line a little too high for its box is no fault as long as its letters stay inside: room for
/// accents and descenders that a text has none of is only air.
bool ink_fits(const TextFacts& facts, Size box) {
  return fits(facts.needed.width, box.width) && facts.ink.top() >= -epsilon &&
         fits(facts.ink.bottom(), box.height);
}

Mm sane_size(Mm size) {
  return std::isfinite(size.value) ? std::clamp(size, least_type, most_type) : least_type;
}

bool runs_right_to_left(const char* language) {
  int count = 0;
  const PangoScript* const scripts =
      pango_language_get_scripts(pango_language_from_string(language), &count);
  if (count == 0) return false;
  const hb_script_t script = hb_glib_script_to_script(static_cast<GUnicodeScript>(scripts[0]));
  return hb_script_get_horizontal_direction(script) == HB_DIRECTION_RTL;
}

PangoDirection base_direction(const TextStyle& style) {
  switch (style.direction) {
    case TextDirection::left_to_right:
      return PANGO_DIRECTION_LTR;
    case TextDirection::right_to_left:
      return PANGO_DIRECTION_RTL;
    default:
      break;
  }
  return runs_right_to_left(style.language.c_str()) ? PANGO_DIRECTION_RTL : PANGO_DIRECTION_LTR;
}

bool has_feature(PangoFont* font, hb_tag_t feature) {
  hb_face_t* const face = hb_font_get_face(pango_font_get_hb_font(font));
  unsigned count = 64;
  hb_tag_t tags[64];
  for (unsigned from = 0; count == 64; from += count) {
    hb_ot_layout_table_get_feature_tags(face, HB_OT_TAG_GSUB, from, &count, tags);
    if (std::find(tags, tags + count, feature) != tags + count) return true;
  }
  return false;
}

/// Fonts with what pango needs to set text in them.
struct Shop {
  explicit Shop(std::shared_ptr<const FontStock> of)
      : stock(std::move(of)), fonts(make_font_map(*stock)) {}

  PangoContext* context(const TextStyle& style);

  std::shared_ptr<const FontStock> stock;
  ObjectPtr<PangoFontMap> fonts;
  std::map<std::pair<std::string, PangoDirection>, ObjectPtr<PangoContext>> contexts;
};

/// One context for each language and direction: changing one would break lines anew in every
/// layout made with it.
PangoContext* Shop::context(const TextStyle& style) {
  ObjectPtr<PangoContext>& context = contexts[{style.language, base_direction(style)}];
  if (context) return context.get();
  context.reset(pango_font_map_create_context(fonts.get()));
  const std::unique_ptr<cairo_font_options_t, Closer<cairo_font_options_destroy>> options{
      cairo_font_options_create()};
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context.get(), options.get());
  pango_context_set_round_glyph_positions(context.get(), FALSE);
  pango_context_set_language(context.get(), pango_language_from_string(style.language.c_str()));
  pango_context_set_base_dir(context.get(), base_direction(style));
  return context.get();
}

}  // namespace

struct Typesetter::State {
  explicit State(std::vector<FontFile> files)
      : hyphenation(files), own(std::make_shared<FontStock>(files)) {
    offer_thread_fonts(own.fonts.get());
  }

  Shop& shop_for(const std::string& family, TextFacts& facts);
  Shop* borrow(const std::string& family);

  HyphenationShelf hyphenation;
  Shop own;
  MachineFonts machine;
  std::map<std::string, std::unique_ptr<Shop>> borrowed;  ///< by folded name; null: no such family
};

/// The shop that has the family; our own, with the facts filled in, when nobody has it.
Shop& Typesetter::State::shop_for(const std::string& family, TextFacts& facts) {
  if (own.stock->faces(family)) return own;
  if (Shop* const shop = borrow(family)) return *shop;
  facts.family_missing = true;
  facts.nearest_family = nearest_spelling(family, own.stock->names());
  if (facts.nearest_family.empty())
    facts.nearest_family = nearest_spelling(family, machine.names());
  return own;
}

Shop* Typesetter::State::borrow(const std::string& family) {
  const auto [known, is_new] = borrowed.try_emplace(folded(family));
  if (is_new) {
    auto stock = std::make_shared<FontStock>(*own.stock, machine.files_of(family));
    if (stock->faces(family)) known->second = std::make_unique<Shop>(std::move(stock));
  }
  return known->second.get();
}

namespace {

/// One block on its way to being set.
class Setting {
 public:
  Setting(Shop& shop, HyphenationShelf& hyphenation, const TextBlock& block, TextFacts& facts)
      : shop_(shop), hyphenation_(hyphenation), block_(block), facts_(facts) {}

  Composition compose();
  Broken to_fit(const Composition& composition);

 private:
  void add_run(Composition& composition, const TextRun& run);
  void find_small_capitals(Composition& composition);
  std::vector<std::size_t> divisions(const Composition& composition);
  Broken at_size(const Composition& composition, Mm size,
                 const std::vector<std::size_t>& divisions);

  Shop& shop_;
  HyphenationShelf& hyphenation_;
  const TextBlock& block_;
  TextFacts& facts_;
};

void Setting::add_run(Composition& composition, const TextRun& run) {
  const TextStyle& style = block_.style;
  Composition::Stretch stretch;
  stretch.begin = composition.text.size();
  stretch.symbol = run.symbol;
  if (run.symbol) {
    composition.text += symbol_mark;
  } else {
    composition.text += style.letter_case == TextCase::upper ? upper_case(run.text, style.language)
                                                             : valid_utf8(run.text);
  }
  stretch.end = composition.text.size();
  if (stretch.end == stretch.begin) return;
  stretch.face = choose_face(*shop_.stock->faces(composition.family), style, run);
  if (!run.symbol && !stretch.face.missing.empty())
    note_once(facts_.missing_faces, composition.family + ", " + stretch.face.missing);
  composition.stretches.push_back(std::move(stretch));
}

void Setting::find_small_capitals(Composition& composition) {
  const TextStyle& style = block_.style;
  const FontDescriptionPtr description{pango_font_description_new()};
  pango_font_description_set_family(description.get(), composition.family.c_str());
  pango_font_description_set_weight(description.get(), static_cast<PangoWeight>(style.weight));
  pango_font_description_set_absolute_size(description.get(), pango_units(Mm{3}));
  const ObjectPtr<PangoFont> font{pango_context_load_font(shop_.context(style), description.get())};
  composition.small_capitals = font && has_feature(font.get(), HB_TAG('s', 'm', 'c', 'p'));
  if (!composition.small_capitals)
    note_once(facts_.missing_faces, composition.family + ", small capitals");
}

Composition Setting::compose() {
  Composition composition;
  const TextStyle& style = block_.style;
  composition.family = facts_.family_missing || style.family.empty() ? house_family : style.family;
  for (const TextRun& run : block_.runs) add_run(composition, run);
  while (composition.text.ends_with('\n')) {  // a line's end after the last line is no paragraph
    composition.text.pop_back();
    const std::size_t end = composition.text.size();
    for (auto& stretch : composition.stretches) stretch.end = std::min(stretch.end, end);
    std::erase_if(composition.stretches, [](const auto& s) { return s.end <= s.begin; });
  }
  if (style.letter_case == TextCase::small_caps) find_small_capitals(composition);
  return composition;
}

std::vector<std::size_t> Setting::divisions(const Composition& composition) {
  if (!block_.style.hyphenate) return {};
  const Hyphenator* const hyphenator = hyphenation_.find(block_.style.language);
  facts_.hyphenation_missing = !hyphenator;
  if (!hyphenator) return {};
  return soft_hyphen_places(composition.text, *hyphenator);
}

Broken Setting::at_size(const Composition& composition, Mm size,
                        const std::vector<std::size_t>& divisions) {
  PangoContext* const context = shop_.context(block_.style);
  if (divisions.empty()) return break_lines(context, composition, block_, size);
  Broken all = break_lines(context, with_soft_hyphens(composition, divisions), block_, size);
  // Soft hyphens that no line ends with would stay in the text that readers copy: once more,
  // with only those that serve.
  const std::vector<std::size_t> used = divisions_used(all, divisions);
  if (used.size() == divisions.size()) return all;
  return break_lines(context, with_soft_hyphens(composition, used), block_, size);
}

/// The text at the largest size of the steps between `type_size` and `smallest_size` at which it
/// fits without breaking a word, or at the smallest when there is none.
Broken Setting::to_fit(const Composition& composition) {
  const TextStyle& style = block_.style;
  const std::vector<std::size_t> places = divisions(composition);
  const Mm largest = sane_size(style.type_size);
  const Mm smallest = std::min(largest, sane_size(style.smallest_size));
  const int steps = static_cast<int>(std::ceil((largest - smallest) / shrink_step - 1e-9));
  const auto size_at = [&](int step) { return std::max(smallest, largest - shrink_step * step); };
  const auto is_clean = [&](const Broken& b) {
    return fits_in(b.needed, block_.box) && !b.broke_inside_words;
  };
  facts_.type_size = largest;
  Broken best = at_size(composition, largest, places);
  if (steps == 0 || is_clean(best)) return best;
  best = at_size(composition, smallest, places);
  int too_large = 0, good = steps;
  while (is_clean(best) && good - too_large > 1) {
    const int middle = (good + too_large) / 2;
    Broken tried = at_size(composition, size_at(middle), places);
    if (is_clean(tried)) {
      good = middle;
      best = std::move(tried);
    } else {
      too_large = middle;
    }
  }
  facts_.type_size = size_at(good);
  return best;
}

}  // namespace

Typesetter::Typesetter(std::vector<FontFile> files)
    : state_(std::make_unique<State>(std::move(files))) {}
Typesetter::~Typesetter() = default;
Typesetter::Typesetter(Typesetter&&) noexcept = default;

SetText Typesetter::set(const TextBlock& block) {
  TextFacts facts;
  const std::string& asked = block.style.family;
  Shop& shop = asked.empty() ? state_->own : state_->shop_for(asked, facts);
  Setting setting(shop, state_->hyphenation, block, facts);
  const Composition composition = setting.compose();
  facts.type_size = sane_size(block.style.type_size);
  auto state = std::make_shared<SetText::State>();
  state->fill = block.style.fill;
  state->strokes = block.style.strokes;
  if (!composition.text.empty()) {
    Broken broken = setting.to_fit(composition);
    facts.needed = broken.needed;
    facts.base_line = broken.first_base_line;
    facts.broke_inside_words = broken.broke_inside_words;
    place(std::move(broken), block, *state, facts);
    facts.fits = fits_in(facts.needed, block.box) || ink_fits(facts, block.box);
    report_letters(*state, composition.family, facts);
  }
  return SetText(std::move(state), std::move(facts));
}

std::vector<std::string> Typesetter::families() const {
  std::vector<std::string> all = borrowed();
  for (const auto& [name, written] : state_->own.stock->names()) all.push_back(written);
  std::sort(all.begin(), all.end());
  return all;
}

std::vector<std::string> Typesetter::borrowed() const {
  std::vector<std::string> names;
  for (const auto& [name, shop] : state_->borrowed)
    if (shop) names.push_back(shop->stock->names().at(name));
  return names;
}

const std::vector<std::string>& Typesetter::borrowed_hyphenation() const {
  return state_->hyphenation.borrowed();
}

const std::vector<std::string>& Typesetter::refused() const { return state_->own.stock->refused(); }

SetText::SetText(std::shared_ptr<const State> state, TextFacts facts)
    : state_(std::move(state)), facts_(std::move(facts)) {}

}  // namespace quoin
