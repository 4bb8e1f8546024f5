#pragma once
#include <string>
#include <string_view>
#include <variant>

#include "base/diagnostic.h"
#include "base/world.h"
#include "desk/api/json.h"
#include "desk/http/exchange.h"

namespace quoin::desk {

[[nodiscard]] Answer json_answer(const Json& json, int status = 200);

/// The body as the type asks for it, or the refusal that says what of it is not.
[[nodiscard]] std::variant<Json, Refusal> body_of(const Asked& asked, std::string_view type);

/// 422, FindingAnswer: led by the first error among `found`, by `message` when there is none. Lines
/// of files are read from `world`.
[[nodiscard]] Answer findings_answer(const std::string& message, const Diagnostics& found,
                                     const World& world);

}  // namespace quoin::desk
