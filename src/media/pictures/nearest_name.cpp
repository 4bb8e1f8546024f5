#include "media/pictures/nearest_name.h"

#include <algorithm>
#include <numeric>
#include <vector>

namespace quoin::pictures {
namespace {

constexpr std::size_t longest_compared = 200;  // bytes of a path
constexpr std::size_t most_files = 20'000;

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

/// Insertions, deletions and replacements between two texts (Levenshtein's distance).
std::size_t slips_between(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t replaced = corner + (a[i] == b[j] ? 0 : 1);
      corner = row[j + 1];
      row[j + 1] = std::min({replaced, row[j] + 1, corner + 1});
    }
  }
  return row.back();
}

std::string_view base_name(std::string_view path) {
  return path.substr(path.find_last_of('/') + 1);
}
std::string_view stem(std::string_view path) { return path.substr(0, path.find_last_of('.')); }

/// 0 for the same path but for large and small letters, then a rising number.
std::size_t distance(const std::string& asked, const std::string& there) {
  const std::string a = lower(asked), b = lower(there);
  if (a == b) return 0;
  if (base_name(a) == base_name(b) || stem(a) == stem(b)) return 1;
  const std::size_t lengths = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
  return lengths > 2 ? longest_compared : 1 + slips_between(a, b);
}

}  // namespace

std::string nearest_file(const World& world, const std::string& path) {
  if (path.size() > longest_compared) return {};
  const std::vector<std::string> files = world.files_below("");
  std::string nearest;
  std::size_t least = 4;  // two slips at most
  for (std::size_t i = 0; i < std::min(files.size(), most_files); ++i) {
    if (files[i].size() > longest_compared) continue;
    const std::size_t d = distance(path, files[i]);
    if (d >= least) continue;
    least = d;
    nearest = files[i];
  }
  return nearest;
}

}  // namespace quoin::pictures
