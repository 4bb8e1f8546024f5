#include <fmt/format.h>

#include <algorithm>

#include "base/diagnostic.h"
#include "cli/command.h"
#include "game/formats.h"
#include "game/game.h"

namespace quoin::cli {
namespace {

void show_overview(const Terminal& out) {
  out.line(out.toned(Tone::strong, "Quoin") +
           " turns a card game that exists as pictures and a list into a thing on a table.");
  out.raw("\n");
  for (const Command& command : commands()) {
    out.line(fmt::format("  {}{}", out.toned(Tone::strong, fmt::format("{:<9}", command.name)),
                         command.summary),
             11);
  }
  out.raw("\n");
  out.line("A first game:  quoin new reef, then quoin make reef");
  out.line("More on one:   quoin help make");
}

void show_command(const Command& command, const Terminal& out) {
  out.line(out.toned(Tone::strong, fmt::format("quoin {}", command.name)) +
               (command.usage.empty() ? "" : " ") + std::string(command.usage),
           6);
  out.line(fmt::format("{}.", command.summary));
  if (!command.text.empty()) {
    out.raw("\n");
    out.line(command.text);
  }
  if (!command.options.empty()) out.raw("\n");
  for (const Option& option : command.options) {
    const std::string name = fmt::format("{} {}", option.name, option.value);
    out.line(fmt::format("  {:<22} {}", name, option.help), 25);
  }
  out.raw("\n");
  std::string_view rest = command.example;
  while (!rest.empty()) {
    const std::size_t end = rest.find('\n');
    out.raw(fmt::format("  {}\n", rest.substr(0, end)));
    rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
  }
}

void show_finding(const IdFacts& finding, const Terminal& out) {
  out.line(out.toned(Tone::strong, finding.name) +
           fmt::format(" ({})", to_string(finding.severity)));
  out.line(fmt::format("{}.", finding.title));
  out.raw("\n");
  out.line(out.toned(Tone::strong, "On the table: ") + std::string(finding.on_the_table));
  out.raw("\n");
  out.line(out.toned(Tone::strong, "What to do: ") + std::string(finding.remedy));
}

void show_sizes(std::string_view title, const std::vector<game::NamedSize>& sizes,
                const Terminal& out) {
  out.line(out.toned(Tone::strong, title));
  for (const game::NamedSize& size : sizes) {
    out.line(fmt::format("  {:<12} {:>7} x {:<7} mm  {}", size.name, size.size.width.value,
                         size.size.height.value, out.toned(Tone::faint, size.source)),
             37);
  }
}

}  // namespace

int run_help(const Asked& asked, const Voices& voices) {
  if (asked.words.empty()) {
    show_overview(voices.out);
    return exit_clean;
  }
  const std::string& word = asked.words.front();
  std::vector<std::string> known;
  for (const Command& command : commands()) {
    if (command.name == word) {
      show_command(command, voices.out);
      return exit_clean;
    }
    known.emplace_back(command.name);
  }
  for (const IdFacts& finding : all_diagnostics()) {
    if (finding.name == word) {
      show_finding(finding, voices.out);
      return exit_clean;
    }
    known.emplace_back(finding.name);
  }
  const auto meant = game::nearest(word, known);
  voices.err.line(fmt::format("quoin: there is no command or finding \"{}\"", word));
  voices.err.line(meant ? fmt::format("hint: did you mean {}?", *meant) : "hint: quoin help");
  return exit_wrong_use;
}

int run_sizes(const Asked& asked, const Voices& voices) {
  const std::string which = asked.words.empty() ? "" : asked.words.front();
  if (which != "" && which != "cards" && which != "paper") {
    voices.err.line(
        fmt::format("quoin: there are sizes of cards and of paper, not of \"{}\"", which));
    return exit_wrong_use;
  }
  if (which != "paper") show_sizes("Cards", game::card_sizes(), voices.out);
  if (which == "") voices.out.raw("\n");
  if (which != "cards") show_sizes("Paper", game::paper_sizes(), voices.out);
  voices.out.raw("\n");
  voices.out.line("Any other size: 63.5x88.9 in millimetres, 2.5x3.5in in inches.");
  return exit_clean;
}

int run_version(const Asked&, const Voices& voices) {
  voices.out.raw(fmt::format("Quoin {}\n", QUOIN_VERSION));
  return exit_clean;
}

}  // namespace quoin::cli
