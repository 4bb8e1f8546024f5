#pragma once
#include <vector>

#include "base/diagnostic.h"
#include "base/world.h"
#include "game/game.h"
#include "making/costs.h"
#include "pack/box_files.h"
#include "pack/rules_files.h"
#include "pack/staging.h"
#include "pieces/box/box.h"
#include "pieces/mat/mat.h"
#include "sheets/sheets.h"
#include "sheets/tiles.h"

namespace quoin::pack {

/// How much there is of everything.
struct Totals {
  int rows = 0;    ///< cards in the list that are printed
  int cards = 0;   ///< pieces of one deck
  int pieces = 0;  ///< pieces on the sheets: all decks, or the reprint
  int backs = 0;   ///< distinct backs
  int sheets = 0;
};

/// What a report tells. `plan` may be null, `files` empty: a check has no pack.
struct Report {
  const game::Game& game;
  const Diagnostics& found;
  const sheets::Plan* plan = nullptr;
  const Totals& totals;
  const std::vector<Staging::File>& files;
  const pieces::Box* box = nullptr;                       ///< null: the game has none
  const BoxSheets* box_sheets = nullptr;                  ///< null: they were not laid
  const making::Cutting* cutting = nullptr;               ///< null: there are no sheets
  const making::Tolerances* tolerances = nullptr;         ///< null: there are no sheets
  const making::Costs* costs = nullptr;                   ///< null, or without runs: a reprint
  const std::vector<making::FaceFacts>* faces = nullptr;  ///< those of `tolerances`
  const pieces::Mat* mat = nullptr;                       ///< null: the game has none
  const sheets::Tiling* mat_tiling = nullptr;             ///< null: it was not laid
  const rules::Leaflet* rules = nullptr;                  ///< null: the game has none
  const RulesSheets* rules_sheets = nullptr;              ///< null: they were not laid
};

/// report.json: the findings, counts, sizes, choices and why, as JSON (RFC 8259) with keys in a
/// fixed order and no clock in it.
[[nodiscard]] Bytes report_json(const Report& report);

/// The findings alone, as a JSON array of the same form.
[[nodiscard]] Bytes findings_json(const Diagnostics& found);

}  // namespace quoin::pack
