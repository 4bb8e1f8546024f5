#include "pieces/card/properties.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace quoin::pieces {
namespace {

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

std::optional<double> read_number(std::string_view text) {
  text = trimmed(text);
  if (text.starts_with('+')) text.remove_prefix(1);
  double number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  const bool whole = error == std::errc{} && end == text.data() + text.size();
  return whole && std::isfinite(number) ? std::optional(number) : std::nullopt;
}

std::string one_of(std::initializer_list<std::size_t> sizes) {
  std::string words;
  for (const std::size_t size : sizes) {
    words += (words.empty() ? "" : " or ") + std::to_string(size);
  }
  return words;
}

}  // namespace

Properties::Properties(const Sitting& sitting, const game::Table& own, std::string element,
                       const game::Table* fallback)
    : sitting_(sitting), own_(own), fallback_(fallback), element_(std::move(element)) {}

const game::Node* Properties::node(std::string_view key) const {
  if (const game::Node* own = game::find(own_, key)) return own;
  return fallback_ ? game::find(*fallback_, key) : nullptr;
}

Origin Properties::origin(std::string_view key) const {
  const std::optional<Given> value = given(key);
  if (value) return value->origin;
  const game::Node* there = node(key);
  return there ? there->origin : Origin{};
}

std::optional<Given> Properties::filled(const game::Node& node) const {
  if (const double* number = node.number()) return Given{*number, node.origin};
  if (const bool* flag = node.flag()) return Given{*flag, node.origin};
  const std::string* text = node.text();
  if (!text) return std::nullopt;
  // Placeholders that name no column are the game's to report, once, where they stand.
  std::vector<std::string> unknown;
  game::Filled value = game::fill(sitting_.studio.game(), sitting_.card, *text, unknown);
  if (value.text.empty()) return std::nullopt;
  return Given{std::move(value.text), value.source.value_or(node.origin)};
}

std::optional<Given> Properties::given(std::string_view key) const {
  if (const game::Node* own = game::find(own_, key)) {
    if (std::optional<Given> value = filled(*own)) return value;
    if (!own->text()) return std::nullopt;  // a list or a table: the caller reads the node
  }
  const game::Node* styled = fallback_ ? game::find(*fallback_, key) : nullptr;
  return styled ? filled(*styled) : std::nullopt;
}

void Properties::report(Id id, Origin where, std::string message, std::string hint) const {
  Diagnostic found(id, where, std::move(message));
  found.on(sitting_.piece, element_);
  if (!hint.empty()) found.hint(std::move(hint));
  sitting_.found.push_back(std::move(found));
}

void Properties::report_word(std::string_view key, const std::string& asked,
                             const std::vector<std::string>& known) const {
  const std::optional<std::string> meant = game::nearest(asked, known);
  report(Id::face_unknown_word, origin(key), fmt::format("{} cannot be \"{}\"", key, asked),
         meant ? fmt::format("did you mean \"{}\"?", *meant)
               : fmt::format("it can be {}", fmt::join(known, ", ")));
}

std::optional<std::string> Properties::text(std::string_view key) const {
  const std::optional<Given> value = given(key);
  if (!value) return std::nullopt;
  if (const auto* text = std::get_if<std::string>(&value->value)) return *text;
  if (const auto* number = std::get_if<double>(&value->value)) return fmt::format("{}", *number);
  return std::get<bool>(value->value) ? "true" : "false";
}

std::optional<double> Properties::as_number(std::string_view key, const Given& value) const {
  const auto* number = std::get_if<double>(&value.value);
  if (number && std::isfinite(*number)) return *number;
  if (const auto* text = std::get_if<std::string>(&value.value)) {
    if (const std::optional<double> read = read_number(*text)) return read;
    report(Id::face_not_a_number, value.origin,
           fmt::format("{} needs a number, not \"{}\"", key, *text),
           text->find(',') != std::string::npos ? "write decimals with a point: 3.5" : "");
    return std::nullopt;
  }
  report(Id::face_not_a_number, value.origin, fmt::format("{} needs a number", key), "");
  return std::nullopt;
}

std::optional<double> Properties::number(std::string_view key) const {
  const std::optional<Given> value = given(key);
  return value ? as_number(key, *value) : std::nullopt;
}

std::optional<Mm> Properties::length(std::string_view key) const {
  const std::optional<double> value = number(key);
  return value ? std::optional(Mm{*value}) : std::nullopt;
}

std::optional<Mm> Properties::points(std::string_view key) const {
  const std::optional<double> value = number(key);
  return value ? std::optional(Mm{*value * mm_per_inch / points_per_inch}) : std::nullopt;
}

std::optional<bool> Properties::flag(std::string_view key) const {
  const std::optional<Given> value = given(key);
  if (!value) return std::nullopt;
  if (const auto* flag = std::get_if<bool>(&value->value)) return *flag;
  if (const auto* text = std::get_if<std::string>(&value->value)) {
    if (*text == "true" || *text == "yes") return true;
    if (*text == "false" || *text == "no") return false;
  }
  report(Id::face_unknown_word, value->origin, fmt::format("{} is either true or false", key), "");
  return std::nullopt;
}

std::optional<std::vector<double>> Properties::numbers(
    std::string_view key, std::initializer_list<std::size_t> sizes) const {
  const game::Node* there = node(key);
  if (!there) return std::nullopt;
  std::vector<double> values;
  if (const game::List* list = there->list()) {
    for (const game::Node& item : *list) {
      const std::optional<Given> value = filled(item);
      const std::optional<double> number = value ? as_number(key, *value) : std::optional(0.0);
      if (!number) return std::nullopt;
      values.push_back(*number);
    }
  } else if (const std::optional<double> single = number(key)) {
    values.push_back(*single);
  } else {
    return std::nullopt;
  }
  if (std::find(sizes.begin(), sizes.end(), values.size()) != sizes.end()) return values;
  report(Id::face_not_a_number, there->origin,
         fmt::format("{} needs {} numbers, not {}", key, one_of(sizes), values.size()), "");
  return std::nullopt;
}

std::optional<Vec> Properties::pair(std::string_view key) const {
  const auto values = numbers(key, {2});
  return values ? std::optional(Vec{Mm{(*values)[0]}, Mm{(*values)[1]}}) : std::nullopt;
}

std::optional<Properties> Properties::table(std::string_view key) const {
  const game::Node* there = node(key);
  if (!there || !there->table()) return std::nullopt;
  return Properties(sitting_, *there->table(), element_);
}

}  // namespace quoin::pieces
