#pragma once
#include "rules/slab.h"

namespace quoin::rules {

/// Where something stands within its column.
struct Place {
  Mm left, width;
};

/// Sets words and makes slabs of their lines. Refers to the work.
class LineSetter {
 public:
  LineSetter(const SettingWork& work, const Column& column, Diagnostics& found)
      : work_(work), column_(column), found_(found) {}

  /// The lines of a text, one slab each: the first two and the last two stay together, a text of
  /// three lines as a whole.
  [[nodiscard]] std::vector<Slab> lines(const Words& words, const TextStyle& style, Place place);
  /// The text in one piece, lines `first` to `first + count`, moved up to begin at the top.
  struct Piece {
    std::vector<Item> items;
    Mm width;
    int lines = 0;
  };
  [[nodiscard]] SetText set(const Words& words, const TextStyle& style, Mm width);
  [[nodiscard]] Piece piece(const Words& words, const SetText& text, const TextStyle& style,
                            int first, int count);
  /// The width of the text in one line.
  [[nodiscard]] Mm natural_width(const Words& words, const TextStyle& style);

  /// Half a line of the text: what gaps are made of.
  [[nodiscard]] Mm half_line() const;
  [[nodiscard]] const Column& column() const { return column_; }
  [[nodiscard]] const SettingWork& work() const { return work_; }
  /// How far below the top of a line of that style its base line lies: what is left of the line
  /// when ascent and descent of the font are taken off goes above and below in equal parts.
  [[nodiscard]] Mm base_in_line(const TextStyle& style);
  void report(Diagnostic problem) { found_.push_back(std::move(problem)); }

 private:
  void check(const Words& words, const TextStyle& style, const TextFacts& facts);

  struct Known {
    std::string family;
    int weight;
    bool italic;
    Mm type, base;
  };
  const SettingWork& work_;
  const Column& column_;
  Diagnostics& found_;
  std::vector<Known> bases_;
};

/// The item drawn so many times its size with its top left corner at a place.
[[nodiscard]] Item scaled_item(Item item, double scale, Point at);

/// The slabs of a table.
[[nodiscard]] std::vector<Slab> rules_table(const Part& part, Place place, LineSetter& setter);

/// "8.5 pt"
[[nodiscard]] std::string type_words(Mm size);

}  // namespace quoin::rules
