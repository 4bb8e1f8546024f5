#pragma once
#include <string>
#include <vector>

#include "desk/easel.h"
#include "desk/session.h"

namespace quoin::desk {

/// RulesInfo of a moment, as JSON: sets the text with the thread's own typesetter.
[[nodiscard]] Bytes rules_info(const Tools& tools, const Snapshot& shown);

/// Some pictures in one piece; `picture_in` takes one of them out.
/// All pages in reading order as PNGs `width` pixels wide.
[[nodiscard]] Bytes draw_rules_pages(const Tools& tools, const Snapshot& shown, int width);
/// The steps of the folding.
[[nodiscard]] Bytes draw_rules_steps(const Tools& tools, const Snapshot& shown, int width);
/// Front and back of the first sheet.
[[nodiscard]] Bytes draw_rules_sheets(const Tools& tools, const Snapshot& shown, int width);
/// Nothing when there are not so many.
[[nodiscard]] std::optional<Bytes> picture_in(const Bytes& pictures, std::size_t index);

}  // namespace quoin::desk
