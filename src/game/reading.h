#pragma once
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/world.h"
#include "game/findings.h"
#include "game/game.h"
#include "game/schema.h"

namespace quoin::game {

/// One entry of [[layouts]]: which cards a layout is for.
struct LayoutRule {
  std::string file;
  Origin origin;
  Conditions when, unless;
};

/// A game while it is read: what is known so far, and what is only needed until it is whole.
struct Reading {
  const World& world;
  const MachinePrices& machine;
  Game game;
  Findings found;

  std::vector<LayoutRule> rules;
  KnownNames names;
  std::set<std::string> layout_files;  ///< all that were opened, also only through `use`
  bool layouts_whole = true;           ///< false when a layout could not be read
  bool cards_whole = true;             ///< false when cards.csv could not be read
};

/// Reads a file that was asked for at `wanted_by`. Nothing, with `game.missing-file` (and the
/// nearest name in that folder) or `game.unreadable-file`, when there is none.
[[nodiscard]] std::shared_ptr<const Bytes> read_file(const World& world, std::string_view path,
                                                     const Origin& wanted_by, Findings& found);

/// The path without its last part; "" for a file at the top.
[[nodiscard]] std::string folder_of(std::string_view path);
/// The last part of a path without ".toml": what makers call a layout for short.
[[nodiscard]] std::string stem_of(std::string_view path);

/// The stages of read_game, in their order. Each goes on with what the earlier ones could read.
void read_settings(Reading& reading, const Table& settings);
void read_cards(Reading& reading);
void read_layouts(Reading& reading);
void choose_layouts(Reading& reading);
void check_names(Reading& reading);
void check_unused(Reading& reading);

/// The rest of a game.toml whose first half is read by read_settings.
void read_sheets(Reading& reading, const Table& settings);
void read_box(Reading& reading, const Table& settings);
void read_mat(Reading& reading, const Table& settings);
void read_rules(Reading& reading, const Table& settings);
void read_making(Reading& reading, const Table& settings);
void read_prices(Reading& reading, const Table& settings);
void read_names(Reading& reading, const Table& settings);

}  // namespace quoin::game
