#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/origin.h"

namespace quoin {

/// How bad it is. Errors: the file concerned is not written. Warnings: written, likely to
/// disappoint. Notes: good to know.
enum class Severity { note, warning, error };

[[nodiscard]] std::string_view to_string(Severity severity);

/// Every diagnostic Quoin can give, from the table in base/diagnostics.inc.
enum class Id {
#define QUOIN_DIAGNOSTIC(symbol, name, severity, title, on_the_table, remedy) symbol,
#include "base/diagnostics.inc"
#undef QUOIN_DIAGNOSTIC
};

/// What the table says of one diagnostic. `title`, `on_the_table` and `remedy` are Markdown for
/// the reference page; the message of a single finding is made where it is found.
struct IdFacts {
  Id id;
  std::string_view name;  ///< "art.low-resolution": stable, never reused
  Severity severity;
  std::string_view title;
  std::string_view on_the_table;
  std::string_view remedy;
};

[[nodiscard]] const IdFacts& facts(Id id);
[[nodiscard]] const std::vector<IdFacts>& all_diagnostics();

/// Where on a piece something was found, for those that no line of a file explains alone.
struct PiecePlace {
  std::string piece;    ///< a card's id, "sheet 3", "back of main"
  std::string element;  ///< the element's id in its layout, or ""
  bool operator==(const PiecePlace&) const = default;
};

/// One finding: a value, drawn by somebody else (terminal, JSON, page).
///
/// `message` is one sentence without full stop, lower case at the start, with both numbers in it.
/// `details` are further lines: what will be seen on the table, the measured facts.
/// `hints` are remedies with a value to type.
struct Diagnostic {
  Id id;
  Severity severity;
  Origin origin;
  PiecePlace place;
  std::string message;
  std::vector<std::string> details;
  std::vector<std::string> hints;

  Diagnostic(Id which, Origin where, std::string text);
  Diagnostic& on(std::string piece, std::string element = {});
  Diagnostic& detail(std::string line);
  Diagnostic& hint(std::string line);
  bool operator==(const Diagnostic&) const = default;
};

using Diagnostics = std::vector<Diagnostic>;

/// Sorts by place and folds repeats: findings with the same id and message at the same place, or of
/// the same element on other cards, become one, whose details name the other pieces.
[[nodiscard]] Diagnostics in_order(Diagnostics found);

[[nodiscard]] bool any_errors(const Diagnostics& found);

struct Counts {
  int errors = 0, warnings = 0, notes = 0;
};
[[nodiscard]] Counts count(const Diagnostics& found);

}  // namespace quoin
