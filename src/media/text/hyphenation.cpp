#include "media/text/hyphenation.h"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "media/text/handles.h"
#include "media/text/house.h"
#include "media/text/letter_case.h"

namespace quoin {
namespace {

constexpr gunichar soft_hyphen = 0xAD;
constexpr std::size_t shortest_word = 4;   // letters; shorter ones are never divided
constexpr std::size_t longest_word = 128;  // letters; longer ones are not words
constexpr std::size_t longest_pattern = 64;
constexpr std::uintmax_t largest_dictionary = 16 << 20;

std::string_view next_line(std::string_view& rest) {
  const std::size_t end = rest.find('\n');
  std::string_view line = rest.substr(0, end);
  rest.remove_prefix(end == rest.npos ? rest.size() : end + 1);
  while (!line.empty() && (line.back() == '\r' || line.back() == ' ')) line.remove_suffix(1);
  return line;
}

/// iconv's name for the encoding named on a dictionary's first line, or "".
std::string encoding_name(std::string_view written) {
  if (written == "UTF-8") return "UTF-8";
  if (written.starts_with("ISO8859-")) return "ISO-8859-" + std::string(written.substr(8));
  if (written == "microsoft-cp1251") return "CP1251";
  if (written == "KOI8-R" || written == "KOI8-U") return std::string(written);
  return "";
}

std::u32string characters(std::string_view utf8) {
  const std::string valid = valid_utf8(utf8);
  glong count = 0;
  const std::unique_ptr<gunichar, Closer<g_free>> letters{
      g_utf8_to_ucs4_fast(valid.c_str(), static_cast<glong>(valid.size()), &count)};
  return {letters.get(), letters.get() + count};
}

std::optional<std::size_t> setting(std::string_view line, std::string_view name) {
  if (!line.starts_with(name)) return std::nullopt;
  const std::string_view digits = line.substr(std::min(line.size(), name.size() + 1));
  std::size_t value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

/// Takes the word level: what follows the last NEXTLEVEL, if there is one.
std::string_view word_level(std::string_view text) {
  constexpr std::string_view mark = "\nNEXTLEVEL";
  const std::size_t at = text.rfind(mark);
  return at == text.npos ? text : text.substr(at + mark.size());
}

}  // namespace

std::optional<Hyphenator> Hyphenator::read(std::string_view dictionary) {
  std::string_view rest = dictionary;
  const std::string encoding = encoding_name(next_line(rest));
  if (encoding.empty()) return std::nullopt;
  gsize length = 0;
  const GText text{g_convert(rest.data(), static_cast<gssize>(rest.size()), "UTF-8",
                             encoding.c_str(), nullptr, &length, nullptr)};
  if (!text) return std::nullopt;
  Hyphenator hyphenator;
  const std::string_view whole{text.get(), length};
  for (std::string_view lines = whole; !lines.empty();) {
    const std::string_view line = next_line(lines);
    if (const auto least = setting(line, "LEFTHYPHENMIN")) hyphenator.before_ = *least;
    if (const auto least = setting(line, "RIGHTHYPHENMIN")) hyphenator.after_ = *least;
  }
  for (std::string_view lines = word_level(whole); !lines.empty();) {
    const std::string_view line = next_line(lines);
    const bool is_setting = !line.empty() && line.front() >= 'A' && line.front() <= 'Z';
    const bool is_remark = line.empty() || line.front() == '%' || line.front() == '#';
    if (!is_setting && !is_remark && line.find('/') == line.npos)
      hyphenator.pattern(characters(line));
  }
  if (hyphenator.patterns_.empty()) return std::nullopt;
  hyphenator.before_ = std::max<std::size_t>(1, hyphenator.before_);
  hyphenator.after_ = std::max<std::size_t>(1, hyphenator.after_);
  return hyphenator;
}

void Hyphenator::pattern(std::u32string_view line) {
  std::u32string letters;
  std::vector<std::uint8_t> values(1, 0);
  for (const char32_t c : line) {
    if (c >= '0' && c <= '9') {
      values.back() = static_cast<std::uint8_t>(c - '0');
    } else {
      letters.push_back(c);
      values.push_back(0);
    }
  }
  if (letters.empty() || letters.size() > longest_pattern) return;
  longest_ = std::max(longest_, letters.size());
  patterns_[std::move(letters)] = std::move(values);
}

std::vector<std::size_t> Hyphenator::breaks(std::u32string_view word) const {
  std::vector<std::size_t> places;
  if (word.size() < std::max(shortest_word, before_ + after_) || word.size() > longest_word)
    return places;
  std::u32string framed = U".";
  for (const char32_t c : word) framed.push_back(g_unichar_tolower(c));
  framed.push_back('.');
  std::vector<std::uint8_t> values(framed.size() + 1, 0);
  for (std::size_t from = 0; from < framed.size(); ++from) {
    const std::size_t most = std::min(longest_, framed.size() - from);
    for (std::size_t length = 1; length <= most; ++length) {
      const auto found = patterns_.find(framed.substr(from, length));
      if (found == patterns_.end()) continue;
      for (std::size_t i = 0; i < found->second.size(); ++i)
        values[from + i] = std::max(values[from + i], found->second[i]);
    }
  }
  for (std::size_t i = before_; i + after_ <= word.size(); ++i)
    if (values[i + 1] % 2 == 1) places.push_back(i);
  return places;
}

std::vector<std::size_t> soft_hyphen_places(const std::string& text, const Hyphenator& hyphenator) {
  std::vector<std::size_t> places;
  std::u32string word;
  std::vector<std::size_t> offsets;
  bool divided = false;
  const auto finish_word = [&] {
    if (!divided)
      for (const std::size_t i : hyphenator.breaks(word)) places.push_back(offsets[i]);
    word.clear();
    offsets.clear();
    divided = false;
  };
  const char* const begin = text.c_str();
  const char* const end = begin + text.size();
  for (const char* at = begin; at < end; at = g_utf8_next_char(at)) {
    const gunichar c = g_utf8_get_char(at);
    if (c == soft_hyphen) {
      divided = true;
    } else if (g_unichar_isalpha(c) || (!word.empty() && g_unichar_ismark(c))) {
      word.push_back(c);
      offsets.push_back(static_cast<std::size_t>(at - begin));
    } else {
      finish_word();
    }
  }
  finish_word();
  return places;
}

namespace {

constexpr const char* machine_folder = "/usr/share/hyphen";  // where Debian's packages put them

std::string with_underscores(std::string tag) {
  std::replace(tag.begin(), tag.end(), '-', '_');
  return tag;
}

/// "hyph_de_AT.dic", with or without folders before it, -> "de_AT"; "" for other names.
std::string dictionary_language(const std::string& path) {
  const std::string name = std::filesystem::path(path).filename().string();
  if (!name.starts_with("hyph_") || !name.ends_with(".dic") || name.size() <= 9) return "";
  return with_underscores(name.substr(5, name.size() - 9));
}

/// The best of `known` for `wanted`: itself, the bare language, then any region of it by name.
std::string best_language(const std::set<std::string>& known, const std::string& wanted) {
  if (known.contains(wanted)) return wanted;
  const std::string primary{primary_language(wanted)};
  if (known.contains(primary)) return primary;
  const auto region = known.lower_bound(primary + "_");
  return region != known.end() && region->starts_with(primary + "_") ? *region : "";
}

std::set<std::string> machine_languages() {
  std::set<std::string> languages;
  std::error_code fault;
  for (auto entry = std::filesystem::directory_iterator(machine_folder, fault);
       !fault && entry != std::filesystem::directory_iterator(); entry.increment(fault))
    if (const std::string language = dictionary_language(entry->path().string()); !language.empty())
      languages.insert(language);
  return languages;
}

std::optional<Hyphenator> read_from_machine(const std::string& language) {
  const std::string path = std::string(machine_folder) + "/hyph_" + language + ".dic";
  std::error_code fault;
  const std::uintmax_t size = std::filesystem::file_size(path, fault);
  if (fault || size > largest_dictionary) return std::nullopt;
  std::ifstream file(path, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(file), {}};
  return Hyphenator::read(bytes);
}

}  // namespace

HyphenationShelf::HyphenationShelf(std::vector<FontFile>& files) {
  std::erase_if(files, [this](const FontFile& file) {
    const std::string language = dictionary_language(file.name);
    if (!language.empty()) of_game_.try_emplace(language, file.bytes);
    return !language.empty();
  });
}

std::optional<Hyphenator> HyphenationShelf::open(const std::string& language) {
  std::set<std::string> of_game;
  for (const auto& [name, file] : of_game_) of_game.insert(name);
  if (const std::string best = best_language(of_game, language); !best.empty())
    if (auto hyphenator = Hyphenator::read(*of_game_[best])) return hyphenator;
  const bool english = primary_language(language) == "en";
  if (english && (language == "en" || language == "en_US"))
    return Hyphenator::read(house_patterns().bytes);
  const std::set<std::string> of_machine = machine_languages();
  const std::string best = best_language(of_machine, language);
  if (!best.empty() && !(english && best != language)) {
    if (auto hyphenator = read_from_machine(best)) {
      borrowed_.push_back(best);
      return hyphenator;
    }
  }
  return english ? Hyphenator::read(house_patterns().bytes) : std::nullopt;
}

const Hyphenator* HyphenationShelf::find(const std::string& language) {
  const std::string wanted = with_underscores(language);
  auto known = opened_.find(wanted);
  if (known == opened_.end()) known = opened_.emplace(wanted, open(wanted)).first;
  return known->second ? &*known->second : nullptr;
}

}  // namespace quoin
