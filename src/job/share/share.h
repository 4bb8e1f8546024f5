#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "job/share/used_files.h"
#include "pack/share/manifest.h"

namespace quoin::job {

/// What the maker asks for when a game is given to others.
struct ShareWishes {
  std::string folder;  ///< of the game, on disk: where the share goes when `out` is empty
  std::string out;     ///< folder of the share; "": FOLDER/share/NAME-VERSION
  std::string since;   ///< folder of an earlier share, "" for none
  std::vector<std::string> without;  ///< pieces and files that do not go along
  std::vector<std::string> asked;    ///< files whose makers were asked
  std::string cache_folder;          ///< as for a pack
};

using pack::SharedEdition;

/// What came of sharing.
struct ShareOutcome {
  game::Game game;
  Diagnostics found;  ///< in order, folded
  UsedFiles used;
  std::vector<std::string> credits, left_out;
  std::vector<SharedEdition> editions;
  std::optional<pack::Changes> changes;  ///< when an earlier share was named
  std::vector<pack::Staging::File> files;
  std::string out, archive;  ///< where they stand, or would
  std::size_t archive_bytes = 0;
  bool published = false;
};

/// Gives a game to others: reads it, asks of each file whether it may be given on, draws every face
/// once in full colour and once in low ink, lays both on A4 and on Letter, and writes a folder and
/// an archive beside it. With an error among the findings nothing is written, and an earlier share
/// at that place stays whole. The same game gives the same bytes.
///
/// Nothing of the maker's machine, printer and prices goes along: sheets are laid for a printer of
/// which nothing is known.
[[nodiscard]] ShareOutcome share(const World& world, const ShareWishes& wishes, Watcher& watcher);

/// The same without the writing: what stands against giving the game on.
[[nodiscard]] ShareOutcome survey(const World& world, const ShareWishes& wishes);

/// "tidewrack-1.0": what the files of a share begin with.
[[nodiscard]] std::string share_name(const game::Game& game);

}  // namespace quoin::job
