#include "pack/share/manifest.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "game/words.h"

namespace quoin::pack {
namespace {

using Json = nlohmann::ordered_json;
using What = CardChange::What;

Diagnostic unreadable(const std::string& shown, const std::string& why) {
  return Diagnostic(Id::share_earlier_unreadable, {}, fmt::format("{} {}", shown, why))
      .hint("name the folder of an earlier share after --since: the one with share.json in it");
}

std::string text_of(const Json& json, const char* key) {
  const auto found = json.find(key);
  return found != json.end() && found->is_string() ? found->get<std::string>() : std::string{};
}

std::optional<SharedCard> card_of(const Json& json) {
  if (!json.is_object()) return std::nullopt;
  SharedCard card{text_of(json, "id"), text_of(json, "name"), text_of(json, "looks"), 0};
  const auto copies = json.find("copies");
  const bool is_whole = copies != json.end() && copies->is_number_integer();
  if (is_whole) card.copies = static_cast<int>(std::clamp<std::int64_t>(*copies, 0, 1000));
  if (card.id.empty() || card.looks.empty() || !is_whole) return std::nullopt;
  return card;
}

const SharedCard* find(const std::vector<SharedCard>& cards, const std::string& id) {
  const auto found =
      std::find_if(cards.begin(), cards.end(), [&](const SharedCard& one) { return one.id == id; });
  return found == cards.end() ? nullptr : &*found;
}

std::optional<CardChange> change_of(const SharedCard* earlier, const SharedCard& now) {
  CardChange change{What::looks, now.id, now.name, now.copies};
  if (earlier == nullptr) {
    change.what = What::fresh;
  } else if (earlier->looks != now.looks) {
    change.what = What::looks;
  } else if (earlier->copies < now.copies) {
    change.what = What::more_copies;
    change.copies = now.copies - earlier->copies;
  } else if (earlier->copies > now.copies) {
    change.what = What::fewer_copies;
    change.copies = 0;
  } else {
    return std::nullopt;
  }
  return change;
}

std::string shown_name(const CardChange& change) {
  return change.name.empty() ? change.id : fmt::format("{} ({})", change.name, change.id);
}

}  // namespace

Bytes manifest_json(const Manifest& manifest) {
  Json json = {{"quoin", "share 1"}, {"title", manifest.title}, {"version", manifest.version}};
  json["editions"] = Json::array();
  for (const SharedEdition& one : manifest.editions) {
    const auto percent = [](double part) { return std::round(part * 1000) / 10; };
    json["editions"].push_back({{"paper", one.paper},
                                {"sheets", one.sheets},
                                {"board_sheets", one.board_sheets},
                                {"mat_sheets", one.mat_sheets},
                                {"rules_sheets", one.rules_sheets},
                                {"ink_percent", percent(one.full_cover)},
                                {"low_ink_percent", percent(one.low_cover)},
                                {"changed_sheets", one.changed_sheets}});
  }
  json["cards"] = Json::array();
  for (const SharedCard& card : manifest.cards) {
    json["cards"].push_back(
        {{"id", card.id}, {"name", card.name}, {"copies", card.copies}, {"looks", card.looks}});
  }
  json["files"] = Json::array();
  for (const SharedFile& file : manifest.files) {
    json["files"].push_back({{"path", file.path}, {"bytes", file.bytes}, {"sha256", file.sha256}});
  }
  return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

Result<Manifest> read_manifest(const Bytes& bytes, const std::string& shown) {
  const Json json = Json::parse(bytes, nullptr, false);
  if (!json.is_object() || !text_of(json, "quoin").starts_with("share ")) {
    return unreadable(shown, "does not tell of a game that was given to others");
  }
  Manifest manifest{text_of(json, "title"), text_of(json, "version"), {}};
  const auto cards = json.find("cards");
  if (cards == json.end() || !cards->is_array()) return unreadable(shown, "names no cards");
  for (const Json& each : *cards) {
    const std::optional<SharedCard> card = card_of(each);
    if (!card) {
      return unreadable(shown,
                        fmt::format("tells too little of card {}", manifest.cards.size() + 1));
    }
    manifest.cards.push_back(*card);
  }
  return manifest;
}

int Changes::to_print() const {
  int copies = 0;
  for (const CardChange& change : cards) copies += change.copies;
  return copies;
}

Changes changes_between(const Manifest& earlier, const Manifest& now) {
  Changes changes{earlier.version, {}};
  for (const SharedCard& card : now.cards) {
    if (auto change = change_of(find(earlier.cards, card.id), card)) {
      changes.cards.push_back(std::move(*change));
    }
  }
  for (const SharedCard& card : earlier.cards) {
    if (find(now.cards, card.id) != nullptr) continue;
    changes.cards.push_back({What::gone, card.id, card.name, 0});
  }
  return changes;
}

std::vector<std::string> change_lines(const Changes& changes) {
  const std::pair<What, std::pair<const char*, const char*>> kinds[] = {
      {What::looks, {"looks different", "look different"}},
      {What::fresh, {"is new", "are new"}},
      {What::more_copies, {"has more copies", "have more copies"}},
      {What::fewer_copies, {"has fewer copies", "have fewer copies"}},
      {What::gone, {"is gone", "are gone"}}};
  std::vector<std::string> lines;
  for (const auto& [what, words] : kinds) {
    std::vector<std::string> names;
    for (const CardChange& change : changes.cards) {
      if (change.what == what) names.push_back(shown_name(change));
    }
    if (names.empty()) continue;
    lines.push_back(fmt::format("{} {}: {}", game::counted(names.size(), "card"),
                                names.size() == 1 ? words.first : words.second,
                                game::all_of(names)));
  }
  return lines;
}

}  // namespace quoin::pack
