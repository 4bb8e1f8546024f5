#include "game/paper_classes.h"

namespace quoin::game {

const std::vector<PaperClass>& paper_classes() {
  static const std::vector<PaperClass> classes = {
      {"copy-paper", "copy paper", 1.25, 1.30, 1.355,
       "measured: 75 g/m² at 101.6 µm (paper-science teaching slides), 80 g/m² at 100 µm"},
      {"uncoated", "uncoated paper", 1.20, 1.26, 1.32,
       "measured: 75 to 150 g/m² at 99.1 to 180.3 µm (a print shop's comparison table)"},
      {"uncoated-cover", "uncoated cover", 1.13, 1.20, 1.27,
       "measured: 180 to 300 g/m² at 203 to 356 µm (a print shop's comparison table)"},
      {"uncoated-card", "smooth uncoated card", 1.05, 1.12, 1.20,
       "common practice, no source; from memory"},
      {"playing-card", "playing-card board", 0.90, 0.952, 1.00,
       "300 to 320 g/m² at 290 to 300 µm (trade notes)"},
      {"gloss", "coated gloss paper", 0.75, 0.80, 0.85, "common practice, no source; from memory"},
      {"silk", "coated silk or matt paper", 0.85, 0.90, 1.00,
       "common practice, no source; from memory"},
      {"solid-bleached-board", "solid bleached board", 1.15, 1.25, 1.35,
       "common practice, no source; from memory"},
      {"folding-boxboard", "folding boxboard", 1.40, 1.60, 1.90,
       "common practice, no source; from memory"},
      {"white-lined-chipboard", "white-lined chipboard", 1.30, 1.38, 1.45,
       "limits of class GD2 in DIN 19303; the usual value is their middle"},
  };
  return classes;
}

const PaperClass* find_paper_class(std::string_view word) {
  for (const PaperClass& one : paper_classes()) {
    if (one.word == word) return &one;
  }
  return nullptr;
}

std::vector<std::string_view> paper_class_words() {
  std::vector<std::string_view> words;
  for (const PaperClass& one : paper_classes()) words.push_back(one.word);
  return words;
}

}  // namespace quoin::game
