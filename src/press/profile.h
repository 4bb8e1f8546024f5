#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/world.h"
#include "game/game.h"
#include "press/fit.h"

namespace quoin::press {

/// How a printer was measured.
enum class Measured { eye, scans, typed };

/// What differs from sheet to sheet: standard deviations of where a single back lies against the
/// mean of all.
struct Spread {
  Mm shift_x, shift_y;
  Angle turn;
  bool operator==(const Spread&) const = default;
};

/// What was measured of one printer with one tray and one stock. The mean map is corrected when
/// sheets are made; the spread is not, since nothing can.
///
/// `back` takes a place of the sheet, in the page frame of the front (mm from the top left, y down,
/// seen from the front), to where the ink that belongs behind it was found, both in the front's own
/// print: Parts about the middle of the sheet, so that it is the same on paper of another size.
struct Profile {
  std::string id;  ///< the file's name without ".toml"
  std::string name, tray, stock;
  std::string measured;  ///< a day, "2026-11-25", or ""
  Measured how = Measured::typed;
  std::string paper_name = "A4";
  Size paper{Mm{210}, Mm{297}};  ///< as held to be read
  game::BackPrinting backs = game::BackPrinting::printer;
  game::FlipEdge flip = game::FlipEdge::long_edge;
  std::optional<game::Pile> pile;
  std::optional<Insets> margin;    ///< dead margins
  std::optional<double> heaviest;  ///< stock, g/m²
  int sheets = 1;
  std::optional<Mm> within;         ///< the mean map's bound at the worst corner, 95 in 100
  double scale_x = 1, scale_y = 1;  ///< of fronts: mm on paper for one in the file
  Parts back;
  Spread spread;
  Origin origin;  ///< of its file
};

/// Reads a profile. All its faults are found in one run: what the schema of printers/NAME.toml
/// finds (`game.wrong-type`, `game.out-of-range`, `game.unknown-key` …), `game.toml-syntax`, and
/// `press.unlikely-profile` for a day that is none. Fails when there is an error among them.
[[nodiscard]] Result<Profile> read_profile(const Bytes& bytes, FileName file);

/// The profile as a file, with remarks that say what the values mean. `read_profile` gives it back:
/// lengths and scales to 1e-6, angles to 1e-6 degrees.
[[nodiscard]] Bytes profile_text(const Profile& profile);

/// Where printers are kept: `printers/` of a game, and a folder of this machine for all games,
/// which may be absent.
struct PrinterShelves {
  const World& game;
  const World* machine = nullptr;
};

/// The profile of that name, the game's own before the machine's.
///
/// Fails with `press.no-such-printer` at `asked`, which names the nearest that there is, and with
/// what `read_profile` finds.
[[nodiscard]] Result<Profile> find_profile(const PrinterShelves& shelves, const std::string& name,
                                           const Origin& asked);

/// The names of all printers of a folder, sorted.
[[nodiscard]] std::vector<std::string> printer_names(const World& world, std::string_view folder);

/// A name for a file from what a maker calls a printer: "Laser in the study" ->
/// "laser-in-the-study".
[[nodiscard]] std::string file_name_for(std::string_view name);

}  // namespace quoin::press
