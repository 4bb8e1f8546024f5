#include "job/edit/step.h"

#include <algorithm>

#include "base/hash.h"

namespace quoin::job {
namespace {

bool is_inside_letter(const Bytes& text, std::size_t at) {
  return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80;
}

std::optional<Bytes> with(const Bytes& text, std::size_t at, const std::string& out,
                          const std::string& in) {
  if (at > text.size() || text.compare(at, out.size(), out) != 0) return std::nullopt;
  return Bytes(text).replace(at, out.size(), in);
}

/// Whether two changes set the same value.
bool set_the_same(const game::Change& a, const game::Change& b) {
  if (const auto* one = std::get_if<game::SetValue>(&a)) {
    const auto* other = std::get_if<game::SetValue>(&b);
    return other && one->file == other->file && one->path == other->path;
  }
  const auto* one = std::get_if<game::SetCell>(&a);
  const auto* other = std::get_if<game::SetCell>(&b);
  return one && other && one->file == other->file && one->row == other->row &&
         one->column == other->column && one->column != "id";
}

bool set_the_same(const std::vector<game::Claim>& a, const std::vector<game::Claim>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const game::Claim& one, const game::Claim& other) {
                      return set_the_same(one.change, other.change);
                    });
}

}  // namespace

FileSplice splice_between(std::string file, const Bytes& before, const Bytes& after) {
  const std::size_t least = std::min(before.size(), after.size());
  std::size_t start = 0, end = 0;
  while (start < least && before[start] == after[start]) ++start;
  while (start > 0 && (is_inside_letter(before, start) || is_inside_letter(after, start))) --start;
  while (end < least - start && before[before.size() - 1 - end] == after[after.size() - 1 - end]) {
    ++end;
  }
  while (end > 0 && is_inside_letter(before, before.size() - end)) --end;
  return {std::move(file),
          sha256(before),
          sha256(after),
          start,
          before.substr(start, before.size() - end - start),
          after.substr(start, after.size() - end - start)};
}

std::optional<Bytes> forward(const FileSplice& splice, const Bytes& before) {
  std::optional<Bytes> after = with(before, splice.at, splice.removed, splice.inserted);
  if (!after || sha256(*after) != splice.after) return std::nullopt;
  return after;
}

std::optional<Bytes> backward(const FileSplice& splice, const Bytes& after) {
  std::optional<Bytes> before = with(after, splice.at, splice.inserted, splice.removed);
  if (!before || sha256(*before) != splice.before) return std::nullopt;
  return before;
}

Step joined(Step earlier, Step later, std::vector<FileSplice> whole) {
  Step made{later.label, later.group, std::move(whole), std::move(earlier.done),
            std::move(later.back)};
  if (set_the_same(made.done, later.done) && set_the_same(earlier.back, made.back)) {
    for (std::size_t i = 0; i < made.done.size(); ++i) {
      made.done[i].change = std::move(later.done[i].change);
      made.back[i].change = std::move(earlier.back[i].change);
    }
    return made;
  }
  made.done.insert(made.done.end(), later.done.begin(), later.done.end());
  made.back.insert(made.back.end(), earlier.back.begin(), earlier.back.end());
  return made;
}

}  // namespace quoin::job
