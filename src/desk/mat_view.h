#pragma once
#include "desk/api/json.h"
#include "desk/session.h"

namespace quoin::desk {

/// MatAnswer: the mat of a moment, from its layout alone: nothing waits for the checks.
[[nodiscard]] Json mat_view(const Snapshot& shown);

/// Names the mat by its looks; "" when there is none.
[[nodiscard]] std::string mat_stamp(const Snapshot& shown);

/// The mat with its bleed as a PNG `width` pixels wide. The moment must have one.
[[nodiscard]] Bytes draw_mat_picture(const Tools& tools, const Snapshot& shown, int width);

/// Writes `[mat]` and a layout to begin with, as one step that can be taken back; the layout's file
/// stays. One that is there already is taken as it is.
[[nodiscard]] Session::Answered begin_mat(Session& session, Diagnostics& found);

}  // namespace quoin::desk
