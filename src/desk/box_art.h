#pragma once
#include "job/job.h"
#include "pieces/box/net_art.h"

namespace quoin::desk {

/// What is printed on one net of the box, or null when nothing is.
[[nodiscard]] inline const pieces::NetArt* art_of_net(const job::Outcome& outcome,
                                                      std::size_t net) {
  const bool is_there = net < outcome.box_art.size() && !outcome.box_art[net].printed.items.empty();
  return is_there ? &outcome.box_art[net] : nullptr;
}

/// The rectangle round all panels of a net: what its texture shows.
[[nodiscard]] Rect bounds_of_net(const fold::Net& net);

}  // namespace quoin::desk
