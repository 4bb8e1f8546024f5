#pragma once
#include <string_view>
#include <vector>

namespace quoin::game {

/// A sort of paper or board and its bulk: thickness in micrometres = grammage in g/m² times bulk in
/// cm³/g (ISO 534).
struct PaperClass {
  std::string_view word;                  ///< as it stands in game.toml
  std::string_view title;                 ///< in a sentence
  double least = 0, usual = 0, most = 0;  ///< bulk, cm³/g
  std::string_view source;
};

[[nodiscard]] const std::vector<PaperClass>& paper_classes();
/// The class of that word, or null.
[[nodiscard]] const PaperClass* find_paper_class(std::string_view word);
[[nodiscard]] std::vector<std::string_view> paper_class_words();

}  // namespace quoin::game
