#include "base/diagnostic.h"

#include <algorithm>
#include <stdexcept>

namespace quoin {
namespace {

const std::vector<IdFacts>& table() {
  static const std::vector<IdFacts> rows = {
#define QUOIN_DIAGNOSTIC(symbol, name, severity, title, on_the_table, remedy) \
  {Id::symbol, name, Severity::severity, title, on_the_table, remedy},
#include "base/diagnostics.inc"
#undef QUOIN_DIAGNOSTIC
  };
  return rows;
}

bool same_finding(const Diagnostic& a, const Diagnostic& b) {
  return a.id == b.id && a.origin == b.origin && a.message == b.message;
}

/// Adds to `kept` the pieces of the findings folded into it, at most a handful by name.
void name_the_others(Diagnostic& kept, const std::vector<std::string>& others) {
  if (others.empty()) return;
  constexpr std::size_t shown = 6;
  std::string line = "also on ";
  for (std::size_t i = 0; i < std::min(shown, others.size()); ++i) {
    line += (i > 0 ? ", " : "") + others[i];
  }
  if (others.size() > shown) line += " and " + std::to_string(others.size() - shown) + " more";
  kept.details.push_back(std::move(line));
}

}  // namespace

std::string_view to_string(Severity severity) {
  switch (severity) {
    case Severity::note: return "note";
    case Severity::warning: return "warning";
    case Severity::error: return "error";
  }
  throw std::logic_error("a severity outside its enumeration");
}

const std::vector<IdFacts>& all_diagnostics() { return table(); }

const IdFacts& facts(Id id) { return table().at(static_cast<std::size_t>(id)); }

Diagnostic::Diagnostic(Id which, Origin where, std::string text)
    : id(which), severity(facts(which).severity), origin(where), message(std::move(text)) {}

Diagnostic& Diagnostic::on(std::string piece, std::string element) {
  place = {std::move(piece), std::move(element)};
  return *this;
}

Diagnostic& Diagnostic::detail(std::string line) {
  details.push_back(std::move(line));
  return *this;
}

Diagnostic& Diagnostic::hint(std::string line) {
  hints.push_back(std::move(line));
  return *this;
}

Diagnostics in_order(Diagnostics found) {
  std::stable_sort(found.begin(), found.end(), [](const Diagnostic& a, const Diagnostic& b) {
    if (a.origin != b.origin) return comes_before(a.origin, b.origin);
    if (a.id != b.id) return a.id < b.id;
    return a.message < b.message;
  });
  Diagnostics kept;
  for (std::size_t i = 0; i < found.size();) {
    std::size_t end = i + 1;
    std::vector<std::string> others;
    while (end < found.size() && same_finding(found[i], found[end])) {
      const std::string& piece = found[end].place.piece;
      if (!piece.empty() && piece != found[i].place.piece &&
          std::find(others.begin(), others.end(), piece) == others.end()) {
        others.push_back(piece);
      }
      ++end;
    }
    kept.push_back(std::move(found[i]));
    name_the_others(kept.back(), others);
    i = end;
  }
  return kept;
}

bool any_errors(const Diagnostics& found) { return count(found).errors > 0; }

Counts count(const Diagnostics& found) {
  Counts counts;
  for (const Diagnostic& d : found) {
    if (d.severity == Severity::error) ++counts.errors;
    if (d.severity == Severity::warning) ++counts.warnings;
    if (d.severity == Severity::note) ++counts.notes;
  }
  return counts;
}

}  // namespace quoin
