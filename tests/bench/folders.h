#pragma once
#include <filesystem>
#include <vector>

#include "deck.h"

namespace quoin::bench {

/// Writes the measured game into `folder` as a game folder: game.toml, cards.csv, layouts/ and
/// art/. The fonts are whoever calls' to put into fonts/: Lato, Vollkorn and EB Garamond.
void write_game(const std::filesystem::path& folder, const std::vector<Face>& all);

/// Writes the same faces the general-purpose way: one SVG file a face, `folder`/face-00001.svg and
/// on, beside the same art, with the text set in lines by hand, ready for `rsvg-convert -f pdf`.
/// The page is the trim with its bleed, 69.5 x 94.9 mm.
void write_face_svgs(const std::filesystem::path& folder, const std::vector<Face>& all);

}  // namespace quoin::bench
