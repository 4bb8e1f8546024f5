#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "formats/document.h"
#include "scene/scene.h"

namespace quoin::guide {

/// A guide as it is written: chapters of blocks, before anybody knows the pages.
///
/// Words are markup: *italic*, **bold**, a backslash before a mark that is meant as it is. What the
/// maker wrote goes through `as_words`.

/// A picture on its own ground. Its frame has the top left corner at (0, 0) and is `size` large;
/// nothing is drawn outside of it. Placed drawings (cards, by their numbers among the symbols of
/// the document) lie beneath the scene.
struct Figure {
  Size size;
  Scene scene;
  std::vector<Placement> placed;
  /// May it be drawn smaller or larger than it is? A bar to measure may not.
  enum class Scale { to_fit, true_size } scale = Scale::to_fit;
  double largest = 1;  ///< so many times its size at the most
};

/// Over the blocks that follow it; one with nothing under it is left out.
struct Heading {
  std::string words;
};
struct Paragraph {
  std::string words;
};
/// Lines with a box to tick.
struct TickList {
  std::vector<std::string> items;
};
/// Something dangerous: what it is, and what to do.
struct Caution {
  std::string title;
  std::vector<std::string> lines;
};
struct Step {
  std::string words;
  Figure picture;
};
/// Steps in their order, each with its picture: `across` of them side by side with the words
/// beneath, or with 1 each picture beside its words, in half of the width or in two thirds. With
/// `plain` they have no numbers.
struct Steps {
  std::vector<Step> steps;
  int across = 2;  ///< 1 to 4
  enum class Numbers { counted, plain } numbers = Numbers::counted;
  enum class Pictures { half, two_thirds } pictures = Pictures::half;  ///< with `across` 1
};
/// Rows under a head. Columns are as wide as `widths` say, in shares of the whole.
struct Table {
  std::vector<std::string> head;
  std::vector<double> widths;  ///< as many as the head; above 0
  std::vector<std::vector<std::string>> rows;
  /// A box to tick before each row.
  enum class Ticks { none, each_row } ticks = Ticks::none;
};
struct Picture {
  Figure figure;
  std::string caption;  ///< may be empty
};
using Block = std::variant<Heading, Paragraph, TickList, Caution, Steps, Table, Picture>;

struct Chapter {
  std::string title;
  std::vector<Block> blocks;
  /// A long chapter begins on a page of its own; a short one wherever the last one ended.
  enum class Opening { new_page, here } opening = Opening::new_page;
};

/// The first page.
struct Cover {
  std::string title, subtitle;     ///< as the maker wrote them
  std::string what;                ///< "54 cards and a tuck carton, to make yourself"
  Figure picture;                  ///< of what will have been made
  std::vector<std::string> facts;  ///< short lines at the foot
};

struct Guide {
  std::string title, author;  ///< as the maker wrote them
  Size page;
  Cover cover;
  std::vector<Chapter> chapters;
};

/// What the maker wrote, for use among words: no mark counts, line breaks become spaces, and what
/// is longer than `most` characters ends in "…".
[[nodiscard]] std::string as_words(std::string_view text, std::size_t most = 120);

}  // namespace quoin::guide
