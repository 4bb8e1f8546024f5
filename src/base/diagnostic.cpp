#include "base/diagnostic.h"

#include <algorithm>
#include <map>
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

/// The same thing said again: at the same place, or of the same element on another card.
bool same_finding(const Diagnostic& a, const Diagnostic& b) {
  if (a.id != b.id || a.message != b.message) return false;
  if (a.origin == b.origin) return true;
  return !a.place.piece.empty() && !b.place.piece.empty() && !a.place.element.empty() &&
         a.place.element == b.place.element && a.origin.file == b.origin.file;
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
    case Severity::note:
      return "note";
    case Severity::warning:
      return "warning";
    case Severity::error:
      return "error";
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
  std::vector<std::vector<std::string>> others;
  std::map<std::pair<Id, std::string>, std::vector<std::size_t>> said;
  for (Diagnostic& one : found) {
    std::vector<std::size_t>& alike = said[{one.id, one.message}];
    const auto same = std::find_if(alike.begin(), alike.end(),
                                   [&](std::size_t at) { return same_finding(kept[at], one); });
    if (same == alike.end()) {
      alike.push_back(kept.size());
      kept.push_back(std::move(one));
      others.emplace_back();
      continue;
    }
    std::vector<std::string>& names = others[*same];
    const std::string& piece = one.place.piece;
    if (!piece.empty() && piece != kept[*same].place.piece &&
        (names.empty() || names.back() != piece)) {
      names.push_back(piece);
    }
  }
  for (std::size_t i = 0; i < kept.size(); ++i) name_the_others(kept[i], others[i]);
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
