#include "cli/printer_words.h"

#include <fmt/format.h>

#include <fstream>
#include <sstream>

#include "game/formats.h"
#include "game/words.h"
#include "press/reading.h"

namespace quoin::cli {
namespace {

using Fault = std::optional<WrongWords>;

Fault read_paper(const Asked& typed, PrinterAsked& asked) {
  const auto name = typed.get("--paper");
  if (!name) return std::nullopt;
  const auto size = game::find_size(*name, game::paper_sizes());
  if (!size) {
    return WrongWords{fmt::format("there is no paper \"{}\"", *name),
                      "quoin sizes paper lists them; others are written as 210x297"};
  }
  if (!press::takes_sheet(size->size)) {
    return WrongWords{fmt::format("the measuring sheet has no room on {}", *name),
                      "it takes paper of 200 to 330 mm by 250 to 480 mm, such as A4 or Letter"};
  }
  asked.paper = size->size;
  asked.paper_name = size->name.empty() ? *name : std::string(size->name);
  asked.paper_given = true;
  return std::nullopt;
}

/// One of two words that an option takes.
template <typename T>
Fault read_word(const Asked& typed, std::string_view option, std::pair<const char*, T> one,
                std::pair<const char*, T> other, T& value) {
  const auto word = typed.get(option);
  if (!word) return std::nullopt;
  if (*word == one.first) {
    value = one.second;
  } else if (*word == other.first) {
    value = other.second;
  } else {
    return WrongWords{
        fmt::format("{} takes {} or {}, not \"{}\"", option, one.first, other.first, *word),
        fmt::format("write {} {}", option, one.first)};
  }
  return std::nullopt;
}

/// A number within a range.
Fault read_number(const Asked& typed, std::string_view option, double low, double high,
                  std::optional<double>& value) {
  const auto word = typed.get(option);
  if (!word) return std::nullopt;
  value = game::read_number(*word);
  if (value && *value >= low && *value <= high) return std::nullopt;
  return WrongWords{fmt::format("{} takes a number from {} to {}, not \"{}\"", option,
                                game::number_text(low), game::number_text(high), *word),
                    "quoin help printer"};
}

Fault read_options(const Asked& typed, PrinterAsked& asked) {
  using game::BackPrinting, game::FlipEdge, game::Pile;
  if (auto fault = read_paper(typed, asked)) return fault;
  if (auto fault = read_word<FlipEdge>(typed, "--flip", {"long-edge", FlipEdge::long_edge},
                                       {"short-edge", FlipEdge::short_edge}, asked.flip)) {
    return fault;
  }
  if (auto fault = read_word<BackPrinting>(typed, "--backs", {"printer", BackPrinting::printer},
                                           {"by-hand", BackPrinting::by_hand}, asked.backs)) {
    return fault;
  }
  Pile pile = Pile::face_down;
  if (auto fault = read_word<Pile>(typed, "--pile", {"face-down", Pile::face_down},
                                   {"face-up", Pile::face_up}, pile)) {
    return fault;
  }
  if (typed.has("--pile")) asked.profile.pile = pile;
  std::optional<double> sheets, margin;
  if (auto fault = read_number(typed, "--sheets", 1, 20, sheets)) return fault;
  if (auto fault = read_number(typed, "--margin", 0, 100, margin)) return fault;
  if (auto fault = read_number(typed, "--heaviest", 40, 1000, asked.profile.heaviest)) return fault;
  if (sheets) asked.sheets = static_cast<int>(*sheets);
  if (margin) asked.profile.margin = Insets::all(Mm{*margin});
  asked.profile.name = typed.get("--as").value_or("My printer");
  asked.profile.tray = typed.get("--tray").value_or("");
  asked.profile.stock = typed.get("--stock").value_or("");
  return std::nullopt;
}

/// Words of a file, parted by blanks and line ends, without remarks; quotes hold blanks together.
std::vector<std::string> words_of(std::istream& file) {
  std::vector<std::string> words;
  for (std::string line; std::getline(file, line);) {
    std::string word;
    bool quoted = false;
    for (const char c : line + " ") {
      if (c == '#' && !quoted) break;
      if (c == '"') {
        quoted = !quoted;
      } else if ((c == ' ' || c == '\t' || c == '\r') && !quoted) {
        if (!word.empty()) words.push_back(std::move(word));
        word.clear();
      } else {
        word += c;
      }
    }
    if (!word.empty()) words.push_back(std::move(word));
  }
  return words;
}

std::optional<Fault> put_reading(const std::string& word, PrinterAsked& asked) {
  const std::size_t equals = word.find('=');
  if (equals == std::string::npos) return std::nullopt;
  const std::string name = word.substr(0, equals), value = word.substr(equals + 1);
  if (asked.eye_sheets.empty()) asked.eye_sheets.emplace_back();
  if (name == "150" || name == "200") {
    std::vector<std::string>& bar = name == "150" ? asked.bars.bar_150 : asked.bars.bar_200;
    bar.push_back(value);
    return Fault{};
  }
  if (name == "A" || name == "a") {
    if (asked.eye_sheets.back().behind_a != 0) asked.eye_sheets.emplace_back();
    const char letter = value.size() == 1 ? value[0] : '?';
    asked.eye_sheets.back().behind_a =
        static_cast<char>(letter >= 'a' && letter <= 'z' ? letter - 32 : letter);
    return Fault{};
  }
  if (name.size() == 1 && name[0] >= '1' && name[0] <= '8') {
    const auto index = static_cast<std::size_t>(name[0] - '1');
    if (!asked.eye_sheets.back().scales[index].empty()) asked.eye_sheets.emplace_back();
    asked.eye_sheets.back().scales[index] = value.empty() ? "?" : value;
    return Fault{};
  }
  return Fault{WrongWords{fmt::format("there is no reading {}", game::in_quotes(name)),
                          "readings are A (which letter lies behind it), 150 and 200 (the bars) "
                          "and 1 to 8 (the scales)"}};
}

Fault read_words(const std::vector<std::string>& words, PrinterAsked& asked) {
  const bool scans = words.front() == "scans", sheet = words.front() == "sheet";
  std::vector<std::string> files;
  for (std::size_t i = 1; i < words.size(); ++i) {
    const bool is_reading = !sheet && words[i].find('=') != std::string::npos &&
                            (words[i].find('/') == std::string::npos || !scans);
    if (is_reading) {
      if (auto put = put_reading(words[i], asked); put && *put) return *put;
    } else if (scans) {
      files.push_back(words[i]);
    } else {
      return WrongWords{
          fmt::format("printer {} does not know what to do with {}", words.front(),
                      game::in_quotes(words[i])),
          sheet ? "quoin help printer" : "readings are written as 3=-2, with no blanks"};
    }
  }
  if (!scans) return std::nullopt;
  if (files.empty() || files.size() % 2 != 0) {
    return WrongWords{fmt::format("scans needs two pictures of each sheet, and got {}",
                                  game::counted(files.size(), "picture")),
                      "quoin printer scans front.png back.png"};
  }
  for (std::size_t i = 0; i < files.size(); i += 2) {
    asked.scans.push_back({files[i], files[i + 1]});
  }
  return std::nullopt;
}

}  // namespace

std::optional<WrongWords> read_printer_words(const Asked& typed, PrinterAsked& asked) {
  if (auto fault = read_options(typed, asked)) return fault;
  std::vector<std::string> words = typed.words;
  if (const auto from = typed.get("--from")) {
    std::ifstream file(*from, std::ios::binary);
    if (!file) return WrongWords{fmt::format("{} cannot be read", *from), "name another file"};
    for (std::string& word : words_of(file)) words.push_back(std::move(word));
  }
  return read_words(words, asked);
}

}  // namespace quoin::cli
