#pragma once
#include <optional>
#include <string>

#include "desk/api/json.h"
#include "desk/session.h"

namespace quoin::desk {

// What the page is sent of a moment of the game. The types stand in api/types.cpp.

/// State. `folder` is the game folder's path; only its last part is told.
[[nodiscard]] Json state_view(const Snapshot& shown, const std::string& folder);

/// Finding, one for each of `found`; lines of files are read from `world`.
[[nodiscard]] Json findings_view(const Diagnostics& found, const World& world);
[[nodiscard]] Json conflicts_view(const std::vector<OpenConflict>& conflicts);
[[nodiscard]] Json place_view(const Origin& origin);

/// BoxInfo of a box that was folded.
[[nodiscard]] Json box_view(const job::Outcome& outcome);
/// BoxModel: panels as meshes and their poses through the folding.
[[nodiscard]] Json box_model_view(const job::Outcome& outcome);

/// LayoutView of a file for one card, or for the first that has it when `card` is "". Nothing when
/// no card uses the file.
[[nodiscard]] std::optional<Json> layout_view(const Snapshot& shown, const std::string& file,
                                              const std::string& card);
/// ElementCut[]: where the element of a layout lies on each card that shows it.
[[nodiscard]] Json element_cuts_view(const Snapshot& shown, const std::string& file,
                                     const std::string& element);

/// Schema: the keys of the maker's files.
[[nodiscard]] Json schema_view();

}  // namespace quoin::desk
