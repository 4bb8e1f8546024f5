#pragma once
#include <vector>

#include "fold/fold.h"

namespace quoin::pieces {

/// Which side of the board is printed.
enum class PrintSide { outside, inside };

/// A net as a printer sees it: its panels, creases and glue in the frame of one side of the board,
/// x right, y down, that side towards the reader. For the inside the net is turned over about a
/// vertical line: a place (x, y) of the net is at (-x, y), and what reads upright is turned the
/// other way.
struct PrintedNet {
  PrintSide side = PrintSide::outside;
  std::vector<fold::Panel> panels;
  std::vector<fold::Hinge> hinges;
  /// Panels whose edges meet on the closed box although the net is cut between them.
  std::vector<std::pair<int, int>> seams;
  /// Where glue goes on this side: on the outside the glue areas, on the inside the places that
  /// they come to lie on.
  std::vector<Polygon> glue;
};

[[nodiscard]] PrintedNet printed_net(const fold::Model& model, int part, PrintSide side);

/// The panel of that name, or -1.
[[nodiscard]] int panel_named(const PrintedNet& net, std::string_view name);

}  // namespace quoin::pieces
