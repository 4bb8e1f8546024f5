#pragma once
#include <string>
#include <vector>

#include "scene/scene.h"

namespace quoin {

/// Words that were set: an item at the origin, and how large it is.
struct SetWords {
  Item item;
  Mm width, height;
  int lines = 0;
  Mm first_line;  ///< how deep its first line is
};

/// Sets words for a page that is read. Refers to the typesetter, which must outlive it.
class Setting {
 public:
  explicit Setting(Typesetter& typesetter) : typesetter_(typesetter) {}

  /// Words in lines of that width; they may shrink where their style says so.
  [[nodiscard]] SetWords set(const std::vector<TextRun>& runs, const TextStyle& style, Mm width);
  [[nodiscard]] SetWords set(const std::string& words, const TextStyle& style, Mm width);

  /// The words in parts that are set one under the other just as the whole is, so that a page may
  /// end between them: none has more lines than `most` (4 or more), none is a line alone unless all
  /// of it is. One part, the whole, when it has no more than `most`.
  [[nodiscard]] std::vector<SetWords> parts(const std::string& words, const TextStyle& style,
                                            Mm width, int most);

 private:
  Typesetter& typesetter_;
};

/// The item moved.
[[nodiscard]] Item moved(Item item, Vec by);

}  // namespace quoin
