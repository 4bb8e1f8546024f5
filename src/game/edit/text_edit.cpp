#include "game/edit/text_edit.h"

#include <algorithm>

#include "game/encoding.h"

namespace quoin::game {
namespace {

/// Lines that are remembered before and after a passage.
constexpr int lines_round = 2;
/// A passage of so many letters is known again by itself.
constexpr std::size_t tells_itself = 24;

std::size_t line_start(std::string_view text, std::size_t at) {
  if (at == 0) return 0;
  const std::size_t end = text.rfind('\n', at - 1);
  return end == std::string_view::npos ? 0 : end + 1;
}

std::size_t next_line(std::string_view text, std::size_t at) {
  const std::size_t end = text.find('\n', at);
  return end == std::string_view::npos ? text.size() : end + 1;
}

/// The whole lines in which two texts differ; `now` is what takes their place.
EditText::Passage passage_between(const Bytes& before, const Bytes& after, std::string& now) {
  const std::size_t least = std::min(before.size(), after.size());
  std::size_t start = 0, end = 0;
  while (start < least && before[start] == after[start]) ++start;
  while (end < least - start && before[before.size() - 1 - end] == after[after.size() - 1 - end]) {
    ++end;
  }
  start = line_start(before, start);
  // To the end of the line on which both go on alike.
  std::size_t behind = before.size() - end;
  const bool at_start = behind > start && before[behind - 1] == '\n' &&
                        (after.size() - end == 0 || after[after.size() - end - 1] == '\n');
  if (!at_start) behind = next_line(before, behind);
  end = before.size() - behind;
  EditText::Passage passage;
  passage.at = start;
  passage.was = before.substr(start, behind - start);
  now = after.substr(start, after.size() - end - start);
  std::size_t from = start, to = behind;
  for (int i = 0; i < lines_round; ++i) {
    from = from > 0 ? line_start(before, from - 1) : 0;
    to = next_line(before, to);
  }
  passage.before = before.substr(from, start - from);
  passage.after = before.substr(behind, to - behind);
  return passage;
}

/// The last line of what stood before, the first of what stood after.
std::string last_line(const std::string& lines) {
  return lines.empty() ? lines : lines.substr(line_start(lines, lines.size() - 1));
}
std::string first_line(const std::string& lines) { return lines.substr(0, next_line(lines, 0)); }

/// Where a text stands that stands only once.
std::optional<std::size_t> only_place_of(const Bytes& text, const std::string& what) {
  if (what.empty()) return std::nullopt;
  const std::size_t first = text.find(what);
  if (first == Bytes::npos || text.find(what, first + 1) != Bytes::npos) return std::nullopt;
  return first;
}

/// Where `what` stands with that round it: at `at`, else where it stands only once, with less round
/// it each time.
std::optional<std::size_t> place_of(const Bytes& text, const EditText::Passage& passage,
                                    const std::string& what) {
  const std::string whole = passage.before + what + passage.after;
  const std::size_t back = passage.before.size();
  const bool there = passage.at >= back && passage.at - back <= text.size() &&
                     text.compare(passage.at - back, whole.size(), whole) == 0;
  const bool at_end = passage.at - back + whole.size() == text.size();
  if (there && (!whole.empty() || at_end)) return passage.at;
  if (const auto only = only_place_of(text, whole)) return *only + back;
  const std::string above = last_line(passage.before), below = first_line(passage.after);
  if (!above.empty() && !below.empty()) {
    if (const auto only = only_place_of(text, above + what + below)) return *only + above.size();
  }
  return what.size() >= tells_itself ? only_place_of(text, what) : std::nullopt;
}

/// What stands now between what stood before and after the passage.
struct Theirs {
  std::size_t at = 0, size = 0;
};
std::optional<Theirs> between_lines(const Bytes& text, const std::string& above,
                                    const std::string& below) {
  const auto before = above.empty() ? std::optional<std::size_t>(0) : only_place_of(text, above);
  const auto after = below.empty() ? std::optional(text.size()) : only_place_of(text, below);
  if (!before || !after || *before + above.size() > *after) return std::nullopt;
  const std::size_t begin = *before + above.size();
  return Theirs{begin, *after - begin};
}
Theirs theirs_of(const Bytes& text, const EditText::Passage& passage) {
  if (const auto whole = between_lines(text, passage.before, passage.after)) return *whole;
  const std::string above = last_line(passage.before), below = first_line(passage.after);
  const bool has_both = !above.empty() && !below.empty();
  if (has_both) {
    if (const auto near = between_lines(text, above, below)) return *near;
  }
  // Nothing of it is found again: mine goes in near its old place, and nothing goes.
  return {line_start(text, std::min(passage.at, text.size())), 0};
}

Origin origin_at(const std::string& file, const Bytes& text, std::size_t at) {
  const std::size_t line = static_cast<std::size_t>(
      std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
  const std::size_t begin = at == 0 ? 0 : text.rfind('\n', at - 1) + 1;
  const auto column = std::count_if(text.begin() + static_cast<std::ptrdiff_t>(begin),
                                    text.begin() + static_cast<std::ptrdiff_t>(at), [](char c) {
                                      return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
                                    });
  return {FileName(file), static_cast<std::uint32_t>(line + 1),
          static_cast<std::uint32_t>(column + 1), 0};
}

Edited with_passage(const EditText& change, const Bytes& text, std::size_t at, std::size_t size) {
  Edited edited;
  edited.text = Bytes(text).replace(at, size, change.text);
  edited.place = origin_at(change.file, edited.text, at);
  EditText back{change.file, {}, {}};
  std::string now;
  back.passage = passage_between(edited.text, text, now);
  back.text = std::move(now);
  edited.inverse.change = std::move(back);
  return edited;
}

}  // namespace

Result<Claim> claim_in_text(const EditText& change, const Bytes& text) {
  if (encoding_problem(change.text, FileName(change.file))) {
    return Diagnostic(Id::edit_not_writable, {FileName(change.file)},
                      "the text holds characters that a text file cannot have")
        .hint("type it anew");
  }
  if (change.passage) return Claim{change};
  EditText made{change.file, {}, {}};
  std::string now;
  made.passage = passage_between(text, change.text, now);
  made.text = std::move(now);
  return Claim{std::move(made)};
}

EditAnswer edit_in_text(const Claim& claim, const Bytes& text, WhenChanged when_changed) {
  const auto& change = std::get<EditText>(claim.change);
  const EditText::Passage& passage = *change.passage;
  if (const auto at = place_of(text, passage, passage.was)) {
    return with_passage(change, text, *at, passage.was.size());
  }
  // Somebody wrote just the same.
  if (const auto at = place_of(text, passage, change.text)) {
    return with_passage(change, text, *at, change.text.size());
  }
  const Theirs theirs = theirs_of(text, passage);
  if (when_changed == WhenChanged::take_mine) {
    return with_passage(change, text, theirs.at, theirs.size);
  }
  return Collision{change.text, text.substr(theirs.at, theirs.size),
                   origin_at(change.file, text, theirs.at)};
}

}  // namespace quoin::game
