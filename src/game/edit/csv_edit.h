#pragma once
#include <memory>

#include "base/result.h"
#include "game/edit/change.h"
#include "game/edit/csv_source.h"

namespace quoin::game {

/// A list after a change: its text, and the same read again.
struct ChangedList {
  std::unique_ptr<Bytes> text;
  CsvText list;  ///< of `*text`
};

/// The text in which the change of exactly this row was made; see game::edit. Cells are put in
/// quotes only when they need them, or when the cell whose place they take had them.
[[nodiscard]] Result<ChangedList> change_csv(const CsvText& old, const SetCell& change);
[[nodiscard]] Result<ChangedList> change_csv(const CsvText& old, const EditRow& change);
[[nodiscard]] Result<ChangedList> change_csv(const CsvText& old, const EditColumn& change);

/// A cell as it is written in place of `before`.
[[nodiscard]] std::string csv_cell(std::string_view text, char separator, std::string_view before);

/// The text of a cell as it was written.
[[nodiscard]] std::string text_of_cell(std::string_view raw);

/// "id-2", or the first number above that no row of the list has.
[[nodiscard]] std::string free_id(const CsvText& list, const std::string& id);

/// `edit.unknown-column`.
[[nodiscard]] Diagnostic no_such_column(const CsvText& list, const std::string& name);

}  // namespace quoin::game
