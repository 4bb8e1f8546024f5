#include "desk/answers.h"

#include <algorithm>

#include "desk/api/types.h"
#include "desk/views.h"

namespace quoin::desk {

Answer json_answer(const Json& json, int status) {
  return text_answer("application/json", written(json), status);
}

std::variant<Json, Refusal> body_of(const Asked& asked, std::string_view type) {
  std::optional<Json> json = read_json(asked.body);
  if (!json) return Refusal{400, "what was sent is no JSON", "reload the page"};
  if (const auto fault = fault_in(*json, type)) return Refusal{422, *fault, "reload the page"};
  return std::move(*json);
}

Answer findings_answer(const std::string& message, const Diagnostics& found, const World& world) {
  const auto worst = std::ranges::find(found, Severity::error, &Diagnostic::severity);
  const auto first = worst == found.end() ? found.begin() : worst;
  const std::string why = first == found.end() ? message : first->message;
  const std::string hint = first == found.end() || first->hints.empty() ? "" : first->hints[0];
  return json_answer({{"message", why}, {"hint", hint}, {"findings", findings_view(found, world)}},
                     422);
}

}  // namespace quoin::desk
