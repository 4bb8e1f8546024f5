#include <fmt/format.h>

#include <algorithm>

#include "guide/chapters/wording.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

/// More sheets than these are looked up in the file itself.
constexpr std::size_t most_listed = 120;

/// The cards of one sheet, each named once.
std::string cards_on(const Making& making, const sheets::Sheet& sheet) {
  std::vector<std::string> names;
  for (const sheets::Placed& placed : sheet.front.placed) {
    if (placed.is_back) continue;
    const std::string& name = making.fronts[static_cast<std::size_t>(placed.drawing)];
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  std::string words;
  for (const std::string& name : names) words += (words.empty() ? "" : ", ") + as_words(name, 40);
  return words;
}

Table sheet_table(const Making& making) {
  Table table;
  table.head = {"Sheet", "Cards on it"};
  table.widths = {2, 14};
  int number = 0;
  for (const sheets::Sheet& sheet : making.plan.sheets) {
    table.rows.push_back({fmt::format("**{}**", ++number), cards_on(making, sheet)});
  }
  return table;
}

/// Two cards of the game for the example, or one.
std::string example_ids(const Making& making) {
  std::string ids;
  const std::size_t count = making.fronts.size();
  for (const std::size_t at : {count / 3, count * 2 / 3}) {
    const std::string& id = making.fronts[at];
    if (ids == as_words(id, 40)) continue;
    ids += (ids.empty() ? "" : ",") + as_words(id, 40);
  }
  return ids;
}

}  // namespace

Chapter spoilt_cards(const Making& making) {
  Chapter chapter;
  chapter.title = "A card is spoilt";
  chapter.opening = Chapter::Opening::here;
  chapter.blocks.push_back(
      Paragraph{"It happens to everybody. Print the sheet on which the card stands once more; its "
                "number is in "
                "the line at the edge of each sheet."});
  if (making.plan.sheets.size() <= most_listed) chapter.blocks.push_back(sheet_table(making));
  chapter.blocks.push_back(Heading{"Several, from different sheets"});
  chapter.blocks.push_back(Paragraph{
      fmt::format("Whoever has the folder of the game, and Quoin, gets a sheet with just "
                  "those cards. Type the name "
                  "of the folder for FOLDER, and the cards after *--only*, with commas:")});
  chapter.blocks.push_back(
      Paragraph{fmt::format("**{} FOLDER --only {}**", make_command, example_ids(making))});
  chapter.blocks.push_back(Paragraph{
      "The sheets are then in the folder *reprint*, beside *pack*; the pack stays as it is. "
      "Print them with the settings that were right before."});
  return chapter;
}

}  // namespace quoin::guide
