#include <fmt/format.h>

#include <algorithm>

#include "base/hash.h"
#include "game/edit/claims.h"
#include "game/edit/csv_edit.h"
#include "game/edit/sight.h"
#include "game/words.h"

namespace quoin::game {
namespace {

Diagnostic row_gone(const CsvText& list, std::size_t row, const std::string& id) {
  Diagnostic problem(Id::edit_place_gone, {list.file},
                     id.empty() ? fmt::format("row {} is not in the list any more", row + 1)
                                : fmt::format("the card {} is not in the list any more", id));
  return problem.hint("look at the list as it stands now, and make the change again");
}

/// The row that the page speaks of: the one of this id, first of all at its place.
std::optional<std::size_t> row_of(const CsvText& list, std::size_t row, const std::string& id) {
  if (id.empty()) return row < list.rows.size() ? std::optional(row) : std::nullopt;
  Sight sight{id, "", list.rows.size() + row + 1};
  return find_again(view_of(list), row, sight);
}

std::string row_text(const CsvText& list, std::size_t row) {
  return std::string(part(list.text, list.rows[row].at));
}

std::string hash_of_column(const CsvText& list, std::size_t column) {
  std::string all;
  for (const std::vector<std::string>& row : list.cells) all += row[column] + '\0';
  return sha256(all);
}

Origin cell_place(const CsvText& list, std::size_t row, std::size_t column) {
  const std::vector<Stretch>& cells = list.rows[row].cells;
  return origin_at(list.text, cells[std::min(column, cells.size() - 1)], list.file);
}

EditAnswer answer_of_list(const CsvText& old, Result<ChangedList> changed, const Change& inverse) {
  if (!changed) return std::move(changed).why();
  const CsvText* now = &changed->list;
  Edited made{{}, {inverse}, {old.file}};
  Result<Claim> back = claim_in(inverse, *now);
  if (!back) return std::move(back).why();
  made.inverse = std::move(*back);
  if (const auto* cell = std::get_if<SetCell>(&inverse)) {
    made.place = cell_place(*now, cell->row, now->column(cell->column).value_or(0));
  } else if (const auto* row = std::get_if<EditRow>(&inverse); row && row->op != ListOp::add) {
    made.place = cell_place(*now, row->row, 0);
  }
  made.text = std::move(*changed->text);
  return made;
}

Result<Claim> claim_of_cell(SetCell change, const CsvText& list) {
  const std::optional<std::size_t> column = list.column(change.column);
  if (!column) return no_such_column(list, change.column);
  const std::optional<std::size_t> row = row_of(list, change.row, change.id);
  if (!row) return row_gone(list, change.row, change.id);
  change.row = *row;
  Claim made{change};
  made.sights = {sight_of(view_of(list), *row)};
  made.saw = list.cells[*row][*column];
  return made;
}

EditAnswer cell_in(const Claim& claim, const CsvText& list, WhenChanged when_changed) {
  SetCell change = std::get<SetCell>(claim.change);
  const std::optional<std::size_t> column = list.column(change.column);
  if (!column) return Diagnostics{no_such_column(list, change.column)};
  const std::optional<std::size_t> row = find_again(view_of(list), change.row, claim.sights.at(0));
  if (!row || *row >= list.rows.size()) {
    return Diagnostics{row_gone(list, change.row, claim.sights[0].name)};
  }
  change.row = *row;
  const std::string& now = list.cells[*row][*column];
  if (now != claim.saw && now != change.text && when_changed == WhenChanged::ask) {
    return Collision{change.text, now, cell_place(list, *row, *column)};
  }
  SetCell inverse{change.file, *row, "", change.column, now};
  if (*column < list.rows[*row].cells.size()) inverse.written = list.written(*row, *column);
  return answer_of_list(list, change_csv(list, change), inverse);
}

/// The rows as they are after the one that moves is taken out.
ListInView without_row(const CsvText& list, std::size_t row) {
  ListInView view = view_of(list);
  const auto real = [row](std::size_t i) { return i < row ? i : i + 1; };
  return {view.size - 1, [=, name = view.name](std::size_t i) { return name(real(i)); },
          [=, content = view.content](std::size_t i) { return content(real(i)); }};
}

Result<Claim> claim_of_row(EditRow change, const CsvText& list) {
  Claim made{change};
  if (change.op != ListOp::add) {
    const std::optional<std::size_t> row = row_of(list, change.row, change.id);
    if (!row) return row_gone(list, change.row, change.id);
    change.row = *row;
    made.sights = {sight_of(view_of(list), *row)};
    if (change.op == ListOp::copy && !change.to) change.to = *row + 1;
    if (change.op == ListOp::move && !change.to) change.to = *row;
  }
  if (change.to && *change.to > 0) {
    const bool moves = change.op == ListOp::move;
    const ListInView view = moves ? without_row(list, change.row) : view_of(list);
    change.to = std::min(*change.to, view.size);
    if (*change.to > 0) made.above = sight_of(view, *change.to - 1);
  }
  made.change = change;
  return made;
}

EditAnswer remove_row_in(const EditRow& change, const Claim& claim, const CsvText& list,
                         WhenChanged when_changed) {
  const std::string now = sight_of(view_of(list), change.row).content;
  if (now != claim.sights[0].content && when_changed == WhenChanged::ask) {
    return Collision{"", row_text(list, change.row), cell_place(list, change.row, 0)};
  }
  EditRow inverse{change.file, ListOp::add, 0, "", change.row, {}, row_text(list, change.row)};
  for (std::size_t i = 0; i < list.columns.size(); ++i) {
    if (!list.columns[i].empty()) inverse.values[list.columns[i]] = list.cells[change.row][i];
  }
  return answer_of_list(list, change_csv(list, change), inverse);
}

EditAnswer row_in(const Claim& claim, const CsvText& list, WhenChanged when_changed) {
  EditRow change = std::get<EditRow>(claim.change);
  if (change.op != ListOp::add) {
    const std::optional<std::size_t> row =
        find_again(view_of(list), change.row, claim.sights.at(0));
    if (!row || *row >= list.rows.size()) {
      return Diagnostics{row_gone(list, change.row, claim.sights[0].name)};
    }
    change.row = *row;
  }
  if (change.op == ListOp::remove) return remove_row_in(change, claim, list, when_changed);
  const bool moves = change.op == ListOp::move;
  if (change.to) {
    const ListInView view = moves ? without_row(list, change.row) : view_of(list);
    change.to = place_below(view, *change.to, claim.above);
  }
  const std::size_t at = change.to.value_or(moves ? change.row : list.rows.size());
  EditRow inverse{change.file, moves ? ListOp::move : ListOp::remove, at};
  if (moves) inverse.to = change.row;
  return answer_of_list(list, change_csv(list, change), inverse);
}

Result<Claim> claim_of_column(const EditColumn& change, const CsvText& list) {
  Claim made{change};
  if (change.op == ColumnOp::add) {
    // Cells that come back go to the rows they were taken from.
    const ListInView view = view_of(list);
    for (std::size_t i = 0; i < change.written.size() && i < view.size; ++i) {
      made.sights.push_back({view.name(i), "", view.size});
    }
    return made;
  }
  const std::optional<std::size_t> column = list.column(change.column);
  if (!column) return no_such_column(list, change.column);
  if (change.op == ColumnOp::remove) made.saw = hash_of_column(list, *column);
  return made;
}

EditAnswer add_column_in(const Claim& claim, const CsvText& list) {
  EditColumn change = std::get<EditColumn>(claim.change);
  std::vector<std::string> cells(list.rows.size());
  const ListInView view = view_of(list);
  for (std::size_t i = 0; i < claim.sights.size(); ++i) {
    const std::optional<std::size_t> row = find_again(view, i, claim.sights[i]);
    if (row && *row < cells.size()) cells[*row] = change.written[i];
  }
  change.written = std::move(cells);
  EditColumn inverse{change.file, ColumnOp::remove, std::string(trimmed(change.column))};
  return answer_of_list(list, change_csv(list, change), inverse);
}

EditAnswer column_in(const Claim& claim, const CsvText& list, WhenChanged when_changed) {
  const EditColumn& change = std::get<EditColumn>(claim.change);
  if (change.op == ColumnOp::add) return add_column_in(claim, list);
  const std::optional<std::size_t> column = list.column(change.column);
  if (!column) return Diagnostics{no_such_column(list, change.column)};
  if (change.op == ColumnOp::rename) {
    EditColumn inverse{change.file, ColumnOp::rename, std::string(trimmed(change.to)),
                       change.column};
    return answer_of_list(list, change_csv(list, change), inverse);
  }
  if (hash_of_column(list, *column) != claim.saw && when_changed == WhenChanged::ask) {
    return Collision{"", fmt::format("{} ({})", change.column, counted(list.rows.size(), "row")),
                     origin_at(list.text, list.header.cells[*column], list.file)};
  }
  EditColumn inverse{change.file, ColumnOp::add, change.column, "", *column};
  for (std::size_t i = 0; i < list.rows.size(); ++i) {
    inverse.written.emplace_back(list.written(i, *column));
  }
  return answer_of_list(list, change_csv(list, change), inverse);
}

}  // namespace

Result<Claim> claim_in(const Change& change, const CsvText& list) {
  if (const auto* cell = std::get_if<SetCell>(&change)) return claim_of_cell(*cell, list);
  if (const auto* row = std::get_if<EditRow>(&change)) return claim_of_row(*row, list);
  return claim_of_column(std::get<EditColumn>(change), list);
}

EditAnswer edit_in(const Claim& claim, const CsvText& list, WhenChanged when_changed) {
  if (std::holds_alternative<SetCell>(claim.change)) return cell_in(claim, list, when_changed);
  if (std::holds_alternative<EditRow>(claim.change)) return row_in(claim, list, when_changed);
  return column_in(claim, list, when_changed);
}

}  // namespace quoin::game
