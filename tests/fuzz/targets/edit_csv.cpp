// Changes cells, rows and columns of bytes that are read as a card list; the first bytes choose.
#include <cstdint>

#include "game/csv.h"
#include "game/edit/edit.h"

namespace {

using namespace quoin::game;

Change some_change(const CsvTable& list, const std::uint8_t* choices) {
  const std::size_t row = choices[1];
  const std::string column =
      list.header.empty() ? "id" : list.header[choices[2] % list.header.size()].text;
  const std::size_t to = choices[3];
  switch (choices[0] % 8) {
    case 0:
      return SetCell{"cards.csv", row, "", column, "two, \"words\"\n"};
    case 1:
      return SetCell{"cards.csv", row, "", column, "plain"};
    case 2:
      return EditRow{"cards.csv", ListOp::add, 0, "", to, {{column, "new"}}};
    case 3:
      return EditRow{"cards.csv", static_cast<ListOp>(choices[2] % 4), row, "", to};
    case 4:
      return EditColumn{"cards.csv", ColumnOp::add, "new", "", to % 8};
    case 5:
      return EditColumn{"cards.csv", ColumnOp::remove, column};
    case 6:
      return EditColumn{"cards.csv", ColumnOp::rename, column, "new; name"};
    default:
      return EditRow{"cards.csv", ListOp::move, row, "", to};
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 4) return 0;
  const quoin::Bytes text(reinterpret_cast<const char*>(data) + 4, size - 4);
  const auto list = read_csv(text, quoin::FileName("cards.csv"));
  const auto claim = quoin::game::claim(some_change(list.value, data), text);
  if (!claim) return claim.why().empty() ? __builtin_trap(), 0 : 0;
  const EditAnswer answer = edit(*claim, text);
  const auto* done = std::get_if<Edited>(&answer);
  if (!done) return 0;
  (void)edit(done->inverse, done->text);
  return 0;
}
