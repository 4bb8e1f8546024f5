#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/world.h"

namespace quoin::pack {

/// A card as it was given to others. `looks` is a digest of the pixels of both its sides at
/// `preview_ppi`: equal digests, equal looks.
struct SharedCard {
  std::string id, name, looks;
  int copies = 1;
  bool operator==(const SharedCard&) const = default;
};

/// A file of a share, with the SHA-256 of what is in it.
struct SharedFile {
  std::string path;
  std::size_t bytes = 0;
  std::string sha256;
};

/// The game on one paper, as it was given to others.
struct SharedEdition {
  std::string paper;  ///< "A4"
  int sheets = 0, board_sheets = 0, mat_sheets = 0, rules_sheets = 0;
  /// Part of a printed side of the cards that ink covers, all four plates together, 0..4.
  double full_cover = 0, low_cover = 0;
  int changed_sheets = 0;  ///< for who has an earlier one; 0: no file
};

/// What share.json tells: which game, which version, how each card looks, and the files.
struct Manifest {
  std::string title, version;
  std::vector<SharedCard> cards;
  std::vector<SharedEdition> editions = {};  ///< not read again
  std::vector<SharedFile> files = {};        ///< not read again
};

[[nodiscard]] Bytes manifest_json(const Manifest& manifest);

/// Reads share.json of an earlier share, with all that it must have. `shown` names it in messages.
/// Fails with `share.earlier-unreadable`.
[[nodiscard]] Result<Manifest> read_manifest(const Bytes& json, const std::string& shown);

/// What became of a card since an earlier share.
struct CardChange {
  enum class What { looks, more_copies, fewer_copies, fresh, gone } what = What::looks;
  std::string id, name;
  int copies = 0;  ///< to be printed by who has the earlier ones; 0 for gone and fewer
};
struct Changes {
  std::string since;  ///< the earlier version, "" when it had none
  std::vector<CardChange> cards;
  [[nodiscard]] int to_print() const;
};
[[nodiscard]] Changes changes_between(const Manifest& earlier, const Manifest& now);

/// Lines for people: "2 cards look different: Gull (bird-5) and Tern (bird-6)".
[[nodiscard]] std::vector<std::string> change_lines(const Changes& changes);

}  // namespace quoin::pack
