#pragma once
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "base/world.h"
#include "game/game.h"
#include "making/costs.h"
#include "pack/box_files.h"
#include "pack/report.h"
#include "pack/rules_files.h"
#include "pack/staging.h"
#include "pieces/box/box.h"
#include "pieces/box/net_art.h"
#include "pieces/mat/mat.h"
#include "press/profile.h"
#include "sheets/sheets.h"
#include "sheets/tiles.h"

namespace quoin::job {

/// The parts of a pack that can be asked for alone.
enum class Part { home, shop, pictures, cutter, guide };

/// What the maker asks for.
struct Wishes {
  std::string out;  ///< folder of the pack, on disk
  std::set<Part> parts{Part::home, Part::shop, Part::pictures, Part::cutter, Part::guide};
  std::vector<std::string> only;  ///< ids of spoilt cards to print again; empty: all
  int decks = 1;                  ///< copies of the whole deck, 1..1000
  std::string cache_folder;       ///< for prepared pictures; "" for none
  /// Printers of this machine, for any game; prices.toml for all games may lie beside it. "" for
  /// none.
  std::string printers_folder;
  /// The day by the maker's clock, "2026-11-28", "" when nobody knows. What follows from it is
  /// among the findings of the outcome and in no file, since those are the same on any day.
  std::string today = {};
  /// What the rules print where they say {credits}, a line each; empty: what art/sources.csv says.
  std::vector<std::string> credits = {};
};

/// Told how far the work is; answers false to stop it.
class Watcher {
 public:
  virtual ~Watcher() = default;
  virtual bool at(std::string_view work, int done, int of) = 0;
};

/// How the sheets are cut, what becomes of the cards, and what it takes.
struct Making {
  making::Cutting cutting;
  std::vector<making::FaceFacts> faces;  ///< fronts and then backs, as drawn
  making::Tolerances tolerances;
  making::Costs costs;  ///< empty for a reprint
};

/// Everything that came of a run. `game` is what could be read; `plan` is there when the cards
/// could be laid on sheets; `files` and `published` tell of a pack.
struct Outcome {
  game::Game game;
  std::optional<press::Profile> printer;  ///< that the game names, when it could be read
  Diagnostics found;                      ///< in order, folded, without what the maker silenced
  pack::Totals totals;
  std::optional<pieces::Box> box;  ///< when the game asks for one and it can be drawn
  pack::BoxArt box_art;            ///< what is printed on each of its nets; none without a box
  pack::BoxSheets box_sheets;      ///< its nets on the paper of the game
  std::optional<pieces::Mat> mat;  ///< when the game asks for one and it can be drawn
  std::optional<sheets::Tiling> mat_tiling;  ///< the mat on the paper of the game
  std::optional<rules::Leaflet> rules;       ///< when the game has rules that can be read
  pack::RulesSheets rules_sheets;            ///< them on the paper of the game
  std::optional<sheets::Plan> plan;
  std::optional<Making> making;  ///< when there is a plan
  std::vector<pack::Staging::File> files;
  bool published = false;
};

/// Reads the game and finds what would go wrong, without writing anything.
[[nodiscard]] Outcome check(const World& world, const Wishes& wishes, Watcher& watcher);

/// The way through, in one function: reads the game, draws and checks the pieces, lays the sheets,
/// writes the pack. With an error among the findings nothing is written and the earlier pack stays.
[[nodiscard]] Outcome make(const World& world, const Wishes& wishes, Watcher& watcher);

/// The outcome as report.json has it.
[[nodiscard]] Bytes report(const Outcome& outcome);

}  // namespace quoin::job
