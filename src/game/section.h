#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "game/schema.h"

namespace quoin::game {

/// A table of game.toml as its section of the schema describes it: each getter gives the maker's
/// value when it is as it should be, else the default of the schema. What is not as it should be
/// was reported when the table was checked.
///
/// Asking for a key that the schema does not have, or for the default of one that has none, is a
/// broken promise of ours: `std::logic_error`.
class Section {
 public:
  /// `table` may be null: all keys have their defaults.
  Section(std::string_view name, const Table* table);

  [[nodiscard]] bool has(std::string_view key) const { return given(key) != nullptr; }
  /// Of the value, or "nowhere".
  [[nodiscard]] Origin origin(std::string_view key) const;
  /// "" when not given and without a default.
  [[nodiscard]] std::string text(std::string_view key) const;
  [[nodiscard]] double number(std::string_view key) const;
  [[nodiscard]] std::optional<double> number_if_given(std::string_view key) const;
  [[nodiscard]] std::optional<Mm> length_if_given(std::string_view key) const;
  [[nodiscard]] Mm length(std::string_view key) const { return Mm{number(key)}; }
  /// A type size or line width in points.
  [[nodiscard]] Mm points(std::string_view key) const {
    return Mm{number(key) * mm_per_inch / points_per_inch};
  }
  /// A string counts as a list of one; items that are no strings are passed over.
  [[nodiscard]] std::vector<Node> texts(std::string_view key) const;
  /// The maker's value when it passed the check, else the default.
  [[nodiscard]] Node value(std::string_view key) const;
  /// The maker's value when it passed the check, else null.
  [[nodiscard]] const Node* given(std::string_view key) const;

 private:
  [[nodiscard]] const PropertyFacts& facts(std::string_view key) const;

  std::string_view name_;
  const Table* table_;
};

/// The table [name] of a file, or null when there is none.
[[nodiscard]] const Table* table_under(const Table& file, std::string_view name);

}  // namespace quoin::game
