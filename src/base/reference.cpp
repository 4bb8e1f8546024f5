#include "base/reference.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

namespace quoin {
namespace {

/// What the first part of a name stands for, in the order in which a game is made.
struct Stage {
  std::string_view name;
  std::string_view title;
  std::string_view intro;
};

constexpr std::array stages{
    Stage{"game", "The game folder", "What the files say: game.toml, the card list, the layouts."},
    Stage{"picture", "Pictures", "Opening the picture files."},
    Stage{"trace", "Redrawing pictures",
          "Making vectors of a picture that is too coarse to print."},
    Stage{"straighten", "Straightening photographs",
          "Finding cards in a photograph taken at an angle, and making them square."},
    Stage{"cut-out", "Cutting out", "Making the plain ground of a picture transparent."},
    Stage{"font", "Fonts", "Opening the font files."},
    Stage{"face", "Drawing a face", "Filling a layout with the words and numbers of a card."},
    Stage{"text", "Text", "Setting words in type."},
    Stage{"art", "Art on the card", "How pictures and panels will print."},
    Stage{"card", "The card in the hand", "What can be read, and what the blade may reach."},
    Stage{"back", "Backs", "Whether a back gives its card away."},
    Stage{"suits", "Suits", "Whether every player can tell the suits apart."},
    Stage{"sheet", "Sheets", "Laying cards on paper for one printer."},
    Stage{"press", "The printer", "Getting to know a printer, and printing by what was measured."},
    Stage{"tolerance", "Tolerances", "What a cut or a back that strays does to the cards."},
    Stage{"cutting", "Cutting", "Getting the cards out of the sheets."},
    Stage{"pdf", "PDF files", "Writing the printable files."},
    Stage{"pack", "The pack", "Writing the folder of finished files."},
    Stage{"edit", "Changes at the desk", "Changing a value in the maker's files."},
};

std::string_view stage_name(std::string_view id) { return id.substr(0, id.find('.')); }

/// The known stages, then any other that the table of diagnostics has, in its order.
std::vector<Stage> all_stages() {
  std::vector<Stage> all(stages.begin(), stages.end());
  for (const IdFacts& row : all_diagnostics()) {
    const std::string_view name = stage_name(row.name);
    const bool known =
        std::any_of(all.begin(), all.end(), [&](const Stage& stage) { return stage.name == name; });
    if (!known) all.push_back({name, name, ""});
  }
  return all;
}

std::string_view severity_words(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "**Error:** the files concerned are not written.";
    case Severity::warning:
      return "**Warning:** the files are written, but are likely to disappoint.";
    case Severity::note:
      return "**Note:** good to know; nothing has to be done.";
  }
  return "";
}

std::string silence_words(const IdFacts& facts) {
  if (facts.severity == Severity::error) {
    return "An error cannot be silenced: what it keeps from being printed would be wasted.\n";
  }
  return fmt::format(
      "When you have looked and it is meant to be so, silence it for this game in game.toml:\n\n"
      "```toml\n[checks]\noff = [\"{}\"]\n```\n",
      facts.name);
}

/// Markdown cells end at a bar.
std::string cell(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    if (c == '|') safe += '\\';
    safe += c;
  }
  return safe;
}

std::vector<const IdFacts*> rows_of(const Stage& stage) {
  std::vector<const IdFacts*> rows;
  for (const IdFacts& row : all_diagnostics()) {
    if (stage_name(row.name) == stage.name) rows.push_back(&row);
  }
  std::stable_sort(rows.begin(), rows.end(), [](const IdFacts* a, const IdFacts* b) {
    if (a->severity != b->severity) return a->severity > b->severity;
    return a->name < b->name;
  });
  return rows;
}

std::string stage_table(const Stage& stage) {
  const std::vector<const IdFacts*> rows = rows_of(stage);
  if (rows.empty()) return {};
  std::string text = fmt::format("\n## {}\n\n", stage.title);
  if (!stage.intro.empty()) text += fmt::format("{}\n\n", stage.intro);
  text += "| check | how bad | what is wrong |\n| --- | --- | --- |\n";
  for (const IdFacts* row : rows) {
    text += fmt::format("| [{}](checks/{}) | {} | {} |\n", row->name, check_file(*row),
                        to_string(row->severity), cell(row->title));
  }
  return text;
}

}  // namespace

std::string check_file(const IdFacts& facts) { return fmt::format("{}.md", facts.name); }

std::string check_page(const IdFacts& facts) {
  return fmt::format(
      "<!-- Generated from src/base/diagnostics; change it there. -->\n"
      "# {}\n\n`{}`\n\n{}\n\n"
      "## On the table\n\n{}\n\n"
      "## What to do\n\n{}\n\n"
      "## If it is meant to be so\n\n{}\n"
      "[All checks](../checks.md)\n",
      facts.title, facts.name, severity_words(facts.severity), facts.on_the_table, facts.remedy,
      silence_words(facts));
}

std::string checks_index() {
  std::string text =
      "<!-- Generated from src/base/diagnostics; change it there. -->\n"
      "# What Quoin says before paper is spent\n\n"
      "Every finding has a short name, in square brackets at the end of its line; here is what "
      "each means.\n"
      "An **error** keeps the files that it concerns from being written. With a **warning** they "
      "are written,\n"
      "but are likely to disappoint. A **note** is good to know. Warnings and notes that are meant "
      "to be so can be\n"
      "silenced by name: `off = [\"art.low-resolution\"]` under `[checks]` in game.toml.\n";
  for (const Stage& stage : all_stages()) text += stage_table(stage);
  return text;
}

}  // namespace quoin
