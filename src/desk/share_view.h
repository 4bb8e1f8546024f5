#pragma once
#include <memory>
#include <string>

#include "desk/api/json.h"
#include "desk/session.h"

namespace quoin::desk {

/// ShareInfo of a moment of the game: asks of every file whether it may be given on, and looks at
/// what was shared already.
[[nodiscard]] Json share_view(const Snapshot& shown, const Session& session);

/// The page of this version's share with its pictures in it, for a frame that may load nothing and
/// lead nowhere. "" when there is none.
[[nodiscard]] Bytes share_page_to_look_at(const std::string& game_folder, const std::string& name);

/// Where shares lie in a game folder.
inline constexpr const char* shares_folder = "share";

}  // namespace quoin::desk
