#pragma once
#include <string>
#include <vector>

#include "base/world.h"
#include "pack/share/manifest.h"

namespace quoin::pack {

/// A file that the page offers.
struct OfferedFile {
  std::string path;
  std::string what;  ///< "Cards, full colour"
  std::size_t bytes = 0;
  int sheets = 0;         ///< of paper; 0: not said
  std::string note = {};  ///< a few words below
};

/// All that is to be printed on one paper.
struct OfferedPaper {
  std::string name;   ///< "A4"
  std::string where;  ///< "210 x 297 mm, usual in Europe and most of the world"
  std::vector<OfferedFile> files;
};

/// A picture beside its words.
struct ShownPicture {
  std::string path, alt;
  int width = 0, height = 0;  ///< pixels
};

/// What a share says of itself.
struct SharePage {
  std::string title, subtitle, author, version, licence, website;
  std::vector<std::string> accents;   ///< colours of the game, "#dd7057": ornament alone
  ShownPicture cover;                 ///< no path: none
  ShownPicture mat;                   ///< no path: none
  std::vector<std::string> contents;  ///< "54 cards of 63.5 x 88.9 mm"
  std::vector<OfferedPaper> papers;
  std::string ink_words;                           ///< what low ink saves
  std::vector<ShownPicture> full_colour, low_ink;  ///< the same cards in both
  std::vector<ShownPicture> all_cards;             ///< contact sheets
  std::vector<OfferedFile> others;                 ///< on no paper of their own
  std::vector<std::string> credits;
  std::vector<std::string> left_out;
  std::string since;                 ///< the earlier version
  std::vector<std::string> changes;  ///< lines; empty: nothing was compared
};

/// index.html: one file with its own style, no script, no address but those of its own files and
/// of the game's website. To be read from a disk without a network, on a phone, by keyboard and
/// with a screen reader, light or dark.
[[nodiscard]] Bytes share_page(const SharePage& page);

/// "1.2 MB", "340 kB".
[[nodiscard]] std::string size_words(std::size_t bytes);

}  // namespace quoin::pack
