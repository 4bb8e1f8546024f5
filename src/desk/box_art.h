#pragma once
#include "job/job.h"
#include "pieces/box/net_art.h"

namespace quoin::desk {

/// What is printed on one net of the box, or null when nothing is.
template <typename Outcome>
[[nodiscard]] const pieces::NetArt* art_of_net(const Outcome& outcome, std::size_t net) {
  if constexpr (requires { outcome.box_art; }) {
    const bool is_there =
        net < outcome.box_art.size() && !outcome.box_art[net].printed.items.empty();
    return is_there ? &outcome.box_art[net] : nullptr;
  }
  return nullptr;
}

/// The rectangle round all panels of a net: what its texture shows.
[[nodiscard]] Rect bounds_of_net(const fold::Net& net);

}  // namespace quoin::desk
