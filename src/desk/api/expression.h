#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace quoin::desk {

/// A type as the table writes it, taken apart.
struct TypeExpression {
  enum class Kind { name, literal, list, record, choice };
  Kind kind = Kind::name;
  std::string word;                   ///< name, or the literal's text without quotes
  std::vector<TypeExpression> parts;  ///< list, record: one; choice: two or more
};

/// Throws `std::logic_error` for what the notation does not have: the table is our own.
[[nodiscard]] TypeExpression read_type(std::string_view text);

}  // namespace quoin::desk
