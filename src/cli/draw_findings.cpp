#include "cli/draw_findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace quoin::cli {
namespace {

constexpr std::size_t longest_excerpt = 76;

Tone tone_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return Tone::error;
    case Severity::warning:
      return Tone::warning;
    case Severity::note:
      return Tone::note;
  }
  return Tone::plain;
}

/// The lines of the maker's files, each file read and split once.
class Lines {
 public:
  explicit Lines(const World& world) : world_(world) {}

  [[nodiscard]] std::optional<std::string_view> at(const Origin& origin) {
    if (origin.file.empty() || origin.line == 0) return std::nullopt;
    const auto [file, fresh] = files_.try_emplace(origin.file.str());
    if (fresh) read(origin.file.str(), file->second);
    const std::vector<std::string_view>& lines = file->second.lines;
    if (origin.line > lines.size()) return std::nullopt;
    return lines[origin.line - 1];
  }

 private:
  struct File {
    std::shared_ptr<const Bytes> bytes;
    std::vector<std::string_view> lines;
  };

  void read(const std::string& path, File& file) {
    const ReadAnswer answer = world_.read(path, largest_file);
    if (!answer.ok()) return;
    file.bytes = answer.bytes;
    std::string_view rest = *file.bytes;
    if (rest.starts_with("\xEF\xBB\xBF")) rest.remove_prefix(3);
    while (!rest.empty()) {
      const std::size_t end = rest.find_first_of("\r\n");
      file.lines.push_back(rest.substr(0, end));
      if (end == std::string_view::npos) break;
      const bool pair = rest.substr(end).starts_with("\r\n");
      rest.remove_prefix(end + (pair ? 2 : 1));
    }
  }

  const World& world_;
  std::map<std::string, File> files_;
};

std::size_t bytes_of(std::string_view text, std::size_t at) {
  std::size_t end = at + 1;
  while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) ++end;
  return end - at;
}

/// The first `characters` of `text`.
std::string_view first(std::string_view text, std::size_t characters) {
  std::size_t end = 0;
  for (std::size_t i = 0; i < characters && end < text.size(); ++i) end += bytes_of(text, end);
  return text.substr(0, end);
}

/// Control characters would move the cursor; a blank stands for each.
std::string printable(std::string_view text) {
  std::string shown(text);
  for (char& c : shown) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
  }
  return shown;
}

void draw_excerpt(std::string_view line, const Origin& origin, Tone tone,
                  const Terminal& terminal) {
  const std::size_t start = origin.column > 0 ? origin.column - 1 : 0;
  const std::size_t skip = start > longest_excerpt / 2 ? start - longest_excerpt / 2 : 0;
  const std::string_view rest = line.substr(first(line, skip).size());
  const std::string shown = printable(first(rest, longest_excerpt));
  const std::string before = skip > 0 ? "…" : "";
  terminal.raw(terminal.toned(Tone::faint, fmt::format("{:>5} | ", origin.line)) + before + shown +
               (shown.size() < rest.size() ? "…" : "") + "\n");
  if (origin.column == 0) return;
  const int left = columns(before) + columns(printable(first(rest, start - skip)));
  const std::string_view marked = rest.substr(first(rest, start - skip).size());
  const std::size_t length = std::max<std::size_t>(origin.length, 1);
  const int wide =
      std::clamp(columns(printable(first(marked, length))), 1, static_cast<int>(longest_excerpt));
  terminal.raw(terminal.toned(Tone::faint, "      | ") +
               std::string(static_cast<std::size_t>(left), ' ') +
               terminal.toned(tone, std::string(static_cast<std::size_t>(wide), '^')) + "\n");
}

void draw_finding(const Diagnostic& found, Lines& lines, const Terminal& terminal) {
  const Tone tone = tone_of(found.severity);
  std::string head = to_string(found.origin);
  if (head.empty() && !found.place.piece.empty()) head = found.place.piece;
  std::string text = head.empty() ? "" : terminal.toned(Tone::strong, head + ":") + " ";
  text += terminal.toned(tone, std::string(to_string(found.severity)) + ":") + " " + found.message;
  if (!found.place.piece.empty() && !found.origin.file.empty()) {
    text += found.place.element.empty()
                ? fmt::format(" ({})", found.place.piece)
                : fmt::format(" ({}, {})", found.place.piece, found.place.element);
  }
  text += " " + terminal.toned(Tone::faint, fmt::format("[{}]", facts(found.id).name));
  terminal.line(text, 4);
  if (const auto line = lines.at(found.origin)) draw_excerpt(*line, found.origin, tone, terminal);
  for (const std::string& detail : found.details) terminal.line("      " + detail, 6);
  for (const std::string& hint : found.hints) {
    terminal.line("      " + terminal.toned(Tone::good, "hint:") + " " + hint, 12);
  }
}

std::string counted(int n, std::string_view word) {
  return fmt::format("{} {}{}", n, word, n == 1 ? "" : "s");
}

}  // namespace

void draw_findings(const Diagnostics& found, const World& world, const Terminal& terminal) {
  Lines lines(world);
  for (const Diagnostic& one : found) draw_finding(one, lines, terminal);
}

std::string count_words(const Counts& counts) {
  std::vector<std::string> parts;
  if (counts.errors > 0) parts.push_back(counted(counts.errors, "error"));
  if (counts.warnings > 0) parts.push_back(counted(counts.warnings, "warning"));
  if (counts.notes > 0) parts.push_back(counted(counts.notes, "note"));
  if (parts.empty()) return "nothing to worry about";
  std::string words = parts.front();
  for (std::size_t i = 1; i < parts.size(); ++i) {
    words += (i + 1 == parts.size() ? " and " : ", ") + parts[i];
  }
  return words;
}

}  // namespace quoin::cli
