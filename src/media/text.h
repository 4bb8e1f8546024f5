#pragma once
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/world.h"
#include "geometry/path.h"
#include "media/paint.h"
#include "media/picture.h"

namespace quoin {

enum class TextAlign { left, centre, right, justify, start, end };
enum class VerticalAlign { top, middle, bottom };
enum class TextCase { as_is, upper, small_caps };
enum class TextDirection { automatic, left_to_right, right_to_left };

/// How a text is set. Type sizes are points in the maker's files and millimetres here.
struct TextStyle {
  std::string family;
  int weight = 400;  ///< 100..1000 as in OpenType
  bool italic = false;
  Mm type_size{8.5 * mm_per_inch / points_per_inch};
  Mm smallest_size{8.5 * mm_per_inch / points_per_inch};  ///< may shrink down to here
  Paint fill = black;                                     ///< gradients run over the text's box
  std::vector<Stroke> strokes;  ///< drawn beneath the fill, the first outermost
  TextAlign align = TextAlign::left;
  VerticalAlign vertical = VerticalAlign::top;
  double leading = 1.2;       ///< distance of base lines over the type size
  double letter_spacing = 0;  ///< thousandths of an em
  double paragraph_gap = 0;   ///< em
  bool hyphenate = false;
  TextCase letter_case = TextCase::as_is;
  TextDirection direction = TextDirection::automatic;
  std::string language = "en";  ///< BCP 47
};

/// A small picture in a line of text.
struct InlineSymbol {
  PicturePtr picture;     ///< null: room in the line for what the caller draws, see `places_in`
  double scale = 1;       ///< height over the type size
  double drop = 0.12;     ///< how far its foot lies below the base line, over the type size
  double proportion = 1;  ///< width over height of such room
};

/// A stretch of text in one face, or one symbol. Paragraphs are separated by '\n' in `text`.
struct TextRun {
  std::string text;
  bool bold = false;
  bool italic = false;
  std::shared_ptr<const InlineSymbol> symbol;  ///< when set, `text` is its name for readers
};

/// A text to be set in a box: what the maker asked for.
struct TextBlock {
  std::vector<TextRun> runs;
  TextStyle style;
  Size box;
};

/// Reads *italic*, **bold**, [symbol] and backslash escapes. Marks that open and never close are
/// plain characters. An unknown [word] stays as it is, and its name is added to `unknown`.
[[nodiscard]] std::vector<TextRun> read_markup(
    std::string_view text,
    const std::map<std::string, std::shared_ptr<const InlineSymbol>>& symbols,
    std::vector<std::string>& unknown);

/// What became of a text when it was set: measured, not asked for.
struct TextFacts {
  Mm type_size;  ///< used, after shrinking
  int lines = 0;
  bool fits = true;                         ///< its lines, or at least all ink, lie inside the box
  Size needed;                              ///< of the text as set
  Mm base_line;                             ///< of the first line, from the top of the text
  Rect ink;                                 ///< round all ink, from the box's top left
  std::vector<Rect> line_ink;               ///< the same, a line each
  std::vector<std::string> missing_glyphs;  ///< characters no font of the game can draw
  std::vector<std::string> other_families;  ///< families used although they were not asked for
  std::vector<std::string> missing_faces;   ///< "Vollkorn, bold italic": asked for, no such file
  bool family_missing = false;
  std::string nearest_family;        ///< a hint when the family is missing
  bool broke_inside_words = false;   ///< a word longer than the line was broken
  bool hyphenation_missing = false;  ///< asked for, but no patterns for the language
};

/// A text that was set; drawn by Canvas. Copies share.
class SetText {
 public:
  struct State;
  SetText() = default;
  explicit SetText(std::shared_ptr<const State> state, TextFacts facts);
  [[nodiscard]] const TextFacts& facts() const { return facts_; }
  [[nodiscard]] const State* state() const { return state_.get(); }

 private:
  std::shared_ptr<const State> state_;
  TextFacts facts_;
};

/// A set text for writers that have no letters of their own; places are from the box's top left.
struct TextParts {
  Path letters;  ///< outlines, to be filled where they wind round a place at all (non-zero rule)
  struct Symbol {
    PicturePtr picture;
    Rect to;  ///< the whole picture, stretched
  };
  std::vector<Symbol> symbols;
};
/// The parts of a text that was set; in the thread that set it.
[[nodiscard]] TextParts parts_of(const SetText& text);

/// A symbol or a room in a text that was set.
struct PlaceInText {
  std::shared_ptr<const InlineSymbol> symbol;
  Rect to;       ///< from the box's top left
  int line = 0;  ///< counted from 0
};
[[nodiscard]] std::vector<PlaceInText> places_in(const SetText& text);

/// Some lines of a text that was set, at their places in its box: for texts that run over pages.
/// `lines` and the ink of the facts are those of the part. Lines that are not there are left out.
[[nodiscard]] SetText some_lines(const SetText& text, int first, int count);

/// One font file as the game brings it.
struct FontFile {
  std::string name;  ///< path, for messages
  std::shared_ptr<const Bytes> bytes;
};

/// Sets text with the fonts of one game and no others, so that the result does not depend on the
/// machine: the game's files first, then the house fonts of Quoin (Noto Sans regular, bold, italic,
/// bold italic). A family that neither has is looked for among the machine's installed fonts by its
/// exact name; such families are listed in `borrowed()`, since the game will look different
/// elsewhere. Texts that do not ask for a borrowed family never fall back to it.
///
/// The text's top is the asked face's ascent above the first base line (or the top of a taller
/// symbol in that line), its bottom the face's descent below the last. Nothing is ever slanted or
/// thickened that the font does not draw. Emphasis inside italics goes back to upright letters.
///
/// Not for two threads at once, and what it set is drawn in the same thread: make one for each.
/// Letters in SVG pictures drawn in a thread use the fonts of the typesetter made there last.
/// Shaping is Pango's and HarfBuzz's.
class Typesetter {
 public:
  explicit Typesetter(std::vector<FontFile> files);
  ~Typesetter();
  Typesetter(Typesetter&&) noexcept;

  /// Never fails: whatever is wrong stands in the facts, and the text is set as well as it can be.
  [[nodiscard]] SetText set(const TextBlock& block);

  [[nodiscard]] std::vector<std::string> families() const;
  [[nodiscard]] std::vector<std::string> borrowed() const;
  /// Languages whose hyphenation patterns came from this machine: "de_DE". American English is
  /// the house's own; a game may bring `hyph_LANGUAGE.dic` files among its fonts.
  [[nodiscard]] const std::vector<std::string>& borrowed_hyphenation() const;
  /// Files that are no fonts, with the reason: "fonts/a.ttf is not a font file".
  [[nodiscard]] const std::vector<std::string>& refused() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// The family that Quoin always has.
inline constexpr const char* house_family = "Noto Sans";

}  // namespace quoin
