#include "desk/http/exchange.h"

#include <nlohmann/json.hpp>

namespace quoin::desk {

std::string Asked::value(std::string_view name) const {
  const auto found = query.find(name);
  return found == query.end() ? std::string{} : found->second;
}

Answer text_answer(std::string type, Bytes bytes, int status) {
  Answer answer;
  answer.status = status;
  answer.type = std::move(type);
  answer.bytes = std::make_shared<const Bytes>(std::move(bytes));
  return answer;
}

Answer refusal_answer(const Refusal& refusal) {
  const nlohmann::ordered_json json{{"message", refusal.message}, {"hint", refusal.hint}};
  return text_answer("application/json",
                     json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace),
                     refusal.status);
}

}  // namespace quoin::desk
