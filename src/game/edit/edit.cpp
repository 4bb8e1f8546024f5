#include "game/edit/edit.h"

#include "game/edit/claims.h"
#include "game/edit/text_edit.h"

namespace quoin::game {
namespace {

bool is_of_list(const Change& change) {
  return std::holds_alternative<SetCell>(change) || std::holds_alternative<EditRow>(change) ||
         std::holds_alternative<EditColumn>(change);
}

/// With `text` read as what the change needs.
template <typename Answer, typename OfToml, typename OfList>
Answer read_as(const Change& change, const Bytes& text, const OfToml& of_toml,
               const OfList& of_list) {
  const FileName file(file_of(change));
  if (is_of_list(change)) {
    Result<CsvText> list = csv_text_of(text, file);
    if (!list) return std::move(list).why();
    return of_list(*list);
  }
  Result<TomlText> toml = toml_text_of(text, file);
  if (!toml) return std::move(toml).why();
  return of_toml(*toml);
}

}  // namespace

Result<Claim> claim(const Change& change, const Bytes& text) {
  if (const auto* of_text = std::get_if<EditText>(&change)) return claim_in_text(*of_text, text);
  return read_as<Result<Claim>>(
      change, text, [&](const TomlText& toml) { return claim_in(change, toml); },
      [&](const CsvText& list) { return claim_in(change, list); });
}

EditAnswer edit(const Claim& claim, const Bytes& text, WhenChanged when_changed) {
  if (std::holds_alternative<EditText>(claim.change)) {
    return edit_in_text(claim, text, when_changed);
  }
  return read_as<EditAnswer>(
      claim.change, text, [&](const TomlText& toml) { return edit_in(claim, toml, when_changed); },
      [&](const CsvText& list) { return edit_in(claim, list, when_changed); });
}

}  // namespace quoin::game
