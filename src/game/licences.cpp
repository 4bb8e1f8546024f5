#include "game/licences.h"

#include <algorithm>

#include "game/game.h"
#include "game/words.h"

namespace quoin::game {
namespace {

using Credit = Licence::Credit;
using Terms = Licence::Terms;

/// The licences of Creative Commons: what stands in their names is what they ask.
void add_creative_commons(std::vector<Licence>& all) {
  constexpr std::string_view kinds[] = {"BY", "BY-SA", "BY-ND", "BY-NC", "BY-NC-SA", "BY-NC-ND"};
  constexpr std::string_view versions[] = {"1.0", "2.0", "2.5", "3.0", "4.0"};
  const auto has = [](std::string_view kind, std::string_view part) {
    return kind.find(part) != std::string_view::npos;
  };
  for (const std::string_view kind : kinds) {
    for (const std::string_view version : versions) {
      Licence one;
      one.id = "CC-" + std::string(kind) + "-" + std::string(version);
      one.name = "CC " + std::string(kind) + " " + std::string(version);
      one.credit = Credit::due;
      if (has(kind, "ND")) one.changing = Leave::no;
      if (has(kind, "NC")) one.selling = Leave::no;
      if (has(kind, "SA")) one.terms = Terms::same;
      all.push_back(std::move(one));
    }
  }
}

void add_free(std::vector<Licence>& all) {
  for (const auto& [id, name] : {std::pair{"CC0-1.0", "CC0 1.0"},
                                 {"CC-PDDC", "public domain"},
                                 {"PDDL-1.0", "PDDL 1.0"},
                                 {"0BSD", "0BSD"},
                                 {"MIT-0", "MIT-0"},
                                 {"Unlicense", "The Unlicense"}}) {
    Licence one;
    one.id = id;
    one.name = name;
    all.push_back(std::move(one));
  }
  for (const char* id : {"MIT", "ISC", "Zlib", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause",
                         "Artistic-2.0", "OFL-1.0", "OFL-1.1", "OFL-1.1-RFN", "OFL-1.1-no-RFN",
                         "Bitstream-Vera", "OGL-UK-3.0", "ODC-By-1.0", "etalab-2.0"}) {
    Licence one;
    one.id = one.name = id;
    one.credit = Credit::due;
    all.push_back(std::move(one));
  }
  for (const char* id :
       {"LAL-1.2", "LAL-1.3", "GPL-2.0-only", "GPL-2.0-or-later", "GPL-3.0-only",
        "GPL-3.0-or-later", "LGPL-2.1-only", "LGPL-2.1-or-later", "LGPL-3.0-only",
        "LGPL-3.0-or-later", "AGPL-3.0-only", "AGPL-3.0-or-later", "GFDL-1.2-only",
        "GFDL-1.2-or-later", "GFDL-1.3-only", "GFDL-1.3-or-later", "MPL-2.0", "EUPL-1.2"}) {
    Licence one;
    one.id = one.name = id;
    one.credit = Credit::due;
    one.terms = Terms::same;
    all.push_back(std::move(one));
  }
}

Licence plain(std::string id, std::string name, Leave leave) {
  Licence one;
  one.id = std::move(id);
  one.name = std::move(name);
  one.giving = one.changing = one.selling = leave;
  one.is_spdx = false;
  return one;
}

std::vector<Licence> table() {
  std::vector<Licence> all;
  add_creative_commons(all);
  add_free(all);
  all.push_back(plain("own", "made for this game", Leave::yes));
  Licence permission = plain("permission", "used with permission", Leave::yes);
  permission.credit = Credit::due;
  permission.changing = permission.selling = Leave::not_known;
  all.push_back(std::move(permission));
  all.push_back(plain("public domain", "public domain", Leave::yes));
  all.push_back(plain("all rights reserved", "all rights reserved", Leave::no));
  all.push_back(plain("unknown", "licence not known", Leave::not_known));
  return all;
}

std::string with_dashes(std::string_view text) {
  std::string word = lower_case(trimmed(text));
  std::replace(word.begin(), word.end(), ' ', '-');
  std::replace(word.begin(), word.end(), '_', '-');
  return word;
}

/// Other ways to write some of them.
std::string usual(const std::string& word) {
  constexpr std::pair<std::string_view, std::string_view> others[] = {
      {"cc0", "cc0-1.0"},      {"mine", "own"},
      {"own-work", "own"},     {"with-permission", "permission"},
      {"pd", "public-domain"}, {"copyright", "all-rights-reserved"},
      {"?", "unknown"},        {"", "unknown"}};
  for (const auto& [other, one] : others) {
    if (word == other) return std::string(one);
  }
  return word;
}

std::optional<Licence> find_one(std::string_view text) {
  const std::string word = usual(with_dashes(text));
  for (const Licence& one : licences()) {
    if (with_dashes(one.id) == word) return one;
  }
  return std::nullopt;
}

Leave weaker(Leave a, Leave b) {
  if (a == Leave::no || b == Leave::no) return Leave::no;
  return a == Leave::yes ? b : a;
}
Leave stronger(Leave a, Leave b) {
  if (a == Leave::yes || b == Leave::yes) return Leave::yes;
  return a == Leave::no ? b : a;
}

Licence both(const Licence& a, const Licence& b) {
  Licence all = a;
  all.id += " AND " + b.id;
  all.name += " and " + b.name;
  all.giving = weaker(a.giving, b.giving);
  all.changing = weaker(a.changing, b.changing);
  all.selling = weaker(a.selling, b.selling);
  if (b.credit == Credit::due) all.credit = Credit::due;
  if (b.terms == Terms::same) all.terms = Terms::same;
  all.is_spdx = a.is_spdx && b.is_spdx;
  return all;
}

Licence either(const Licence& a, const Licence& b) {
  Licence all = a;
  all.id += " OR " + b.id;
  all.name += " or " + b.name;
  all.giving = stronger(a.giving, b.giving);
  all.changing = stronger(a.changing, b.changing);
  all.selling = stronger(a.selling, b.selling);
  if (b.credit == Credit::not_asked) all.credit = Credit::not_asked;
  if (b.terms == Terms::free) all.terms = Terms::free;
  all.is_spdx = a.is_spdx && b.is_spdx;
  return all;
}

/// The parts of a text between words in capitals.
std::vector<std::string_view> parted(std::string_view text, std::string_view word) {
  std::vector<std::string_view> parts;
  for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word)) {
    parts.push_back(text.substr(0, at));
    text.remove_prefix(at + word.size());
  }
  parts.push_back(text);
  return parts;
}

template <typename Part, typename Join>
std::optional<Licence> joined(std::string_view text, std::string_view word, const Part& part,
                              const Join& join) {
  std::optional<Licence> all;
  for (const std::string_view each : parted(text, word)) {
    const std::optional<Licence> one = part(each);
    if (!one) return std::nullopt;
    all = all ? join(*all, *one) : *one;
  }
  return all;
}

}  // namespace

const std::vector<Licence>& licences() {
  static const std::vector<Licence> all = table();
  return all;
}

std::optional<Licence> find_licence(std::string_view text) {
  const auto all_of_them = [](std::string_view part) {
    return joined(part, " AND ", find_one, both);
  };
  return joined(text, " OR ", all_of_them, either);
}

std::optional<std::string> nearest_licence(std::string_view text) {
  std::vector<std::string> known;
  for (const Licence& one : licences()) known.push_back(with_dashes(one.id));
  const std::optional<std::string> meant = nearest(with_dashes(text), known);
  if (!meant) return std::nullopt;
  return find_one(*meant)->id;
}

}  // namespace quoin::game
