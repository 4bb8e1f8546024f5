#pragma once
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <vector>

#include "job/edit/step.h"

namespace quoin::job {

/// Steps and claims as the journal has them. Reading gives nothing for whatever these functions did
/// not write: wrong kinds, paths that leave the game folder, files that are no TOML and no list.
[[nodiscard]] nlohmann::json to_json(const Step& step);
[[nodiscard]] std::optional<Step> step_from(const nlohmann::json& json);

[[nodiscard]] nlohmann::json to_json(const std::vector<game::Claim>& claims);
[[nodiscard]] std::optional<std::vector<game::Claim>> claims_from(const nlohmann::json& json);

[[nodiscard]] nlohmann::json to_json(const std::vector<FileSplice>& splices);
[[nodiscard]] std::optional<std::vector<FileSplice>> splices_from(const nlohmann::json& json);

/// Whether this is the path of a text that may be changed: TOML, a list or Markdown, inside the
/// game folder and not in `.quoin`.
[[nodiscard]] bool may_be_changed(std::string_view path);

}  // namespace quoin::job
