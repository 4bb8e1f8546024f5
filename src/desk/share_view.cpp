#include "desk/share_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "game/sources.h"
#include "job/share/share.h"
#include "pack/staging.h"

namespace quoin::desk {
namespace {

constexpr std::size_t largest_list = std::size_t{64} << 20;

/// Source: RFC 4648, section 4.
std::string base64(std::string_view bytes) {
  constexpr std::string_view letters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    const auto byte = [&](std::size_t i) {
      return at + i < bytes.size() ? static_cast<unsigned char>(bytes[at + i]) : 0U;
    };
    const unsigned three = byte(0) << 16 | byte(1) << 8 | byte(2);
    const std::size_t left = std::min<std::size_t>(3, bytes.size() - at);
    for (std::size_t i = 0; i < 4; ++i) {
      text += i <= left ? letters[three >> (18 - 6 * i) & 63] : '=';
    }
  }
  return text;
}

std::string licence_words(const game::Licence& one) {
  if (one.giving == game::Leave::not_known) return "nobody knows yet; ask whoever made it";
  if (one.giving == game::Leave::no) return "may not be given on, unless whoever made it agrees";
  std::string words = "may be given on";
  if (one.changing == game::Leave::no) words += ", not changed";
  if (one.selling == game::Leave::no) words += ", not sold";
  if (one.credit == game::Licence::Credit::due) words += "; name whoever made it";
  if (one.terms == game::Licence::Terms::same) words += "; keep the same terms";
  return words;
}

Json licences_view() {
  Json licences = Json::array();
  const auto add = [&](bool is_spdx) {
    for (const game::Licence& one : game::licences()) {
      if (one.is_spdx != is_spdx) continue;
      licences.push_back({{"id", one.id}, {"name", one.name}, {"words", licence_words(one)}});
    }
  };
  add(false);  // plain words first: most makers need no other
  add(true);
  return licences;
}

Json file_view(const job::ShareOutcome& outcome, const std::string& file,
               const std::set<std::string>& pieces) {
  const game::Sources& sources = outcome.game.sources;
  const game::SourceRow* row = game::source_of(sources, file);
  const auto why = game::hindrance(sources, file, game::Asked::no);
  Json view{{"file", file},
            {"pieces", pieces},
            {"row", row ? Json(row->row) : Json(nullptr)},
            {"listed", row ? row->file.text : ""},
            {"author", row ? row->author.text : ""},
            {"source", row ? row->source.text : ""},
            {"licence", row ? row->licence.text : ""},
            {"changes", row ? row->changes.text : ""},
            {"problem", why ? why->message : ""},
            {"hints", why ? why->hints : std::vector<std::string>{}}};
  return view;
}

Json files_view(const job::ShareOutcome& outcome) {
  std::vector<Json> files;
  for (const auto& [file, pieces] : outcome.used) {
    files.push_back(file_view(outcome, file, pieces));
  }
  std::stable_partition(files.begin(), files.end(),
                        [](const Json& one) { return one["problem"] != ""; });
  return files;
}

std::optional<Json> manifest_in(const std::string& folder) {
  const ReadAnswer answer = real_world(folder)->read(pack::manifest_name, largest_list);
  if (!answer.ok()) return std::nullopt;
  std::optional<Json> json = read_json(*answer.bytes);
  const bool is_ours = json && json->is_object() && json->contains("files") &&
                       (*json)["files"].is_array() && json->contains("editions") &&
                       (*json)["editions"].is_array();
  return is_ours ? json : std::nullopt;
}

double number_of(const Json& json, const char* key) {
  return json.is_object() && json.contains(key) && json[key].is_number() ? json[key].get<double>()
                                                                         : 0;
}
std::string text_of(const Json& json, const char* key) {
  return json.is_object() && json.contains(key) && json[key].is_string()
             ? json[key].get<std::string>()
             : std::string{};
}

Json edition_view(const Json& edition) {
  return {{"paper", text_of(edition, "paper")},
          {"sheets", number_of(edition, "sheets")},
          {"boardSheets", number_of(edition, "board_sheets")},
          {"rulesSheets", number_of(edition, "rules_sheets")},
          {"matSheets", number_of(edition, "mat_sheets")},
          {"ink", number_of(edition, "ink_percent")},
          {"lowInk", number_of(edition, "low_ink_percent")},
          {"changedSheets", number_of(edition, "changed_sheets")}};
}

Json made_view(const std::string& game_folder, const std::string& name) {
  const std::string folder = fmt::format("{}/{}", shares_folder, name);
  const std::optional<Json> manifest = manifest_in(game_folder + "/" + folder);
  if (!manifest) return nullptr;
  Json files = Json::array(), editions = Json::array();
  for (const Json& file : (*manifest)["files"]) {
    files.push_back({{"name", folder + "/" + text_of(file, "path")},
                     {"bytes", number_of(file, "bytes")},
                     {"what", ""}});
  }
  for (const Json& edition : (*manifest)["editions"]) editions.push_back(edition_view(edition));
  return {{"folder", folder}, {"files", files}, {"editions", editions}};
}

std::vector<std::string> earlier_shares(const std::string& game_folder) {
  std::vector<std::string> names;
  const std::string ending = std::string("/") + pack::manifest_name;
  for (const std::string& path : real_world(game_folder + "/" + shares_folder)->files_below("")) {
    if (!path.ends_with(ending)) continue;
    const std::string name = path.substr(0, path.size() - ending.size());
    if (name.find('/') == std::string::npos) names.push_back(name);
  }
  return names;
}

/// Said at each file.
bool is_told_beside(Id id) {
  return id == Id::share_no_source_row || id == Id::share_unknown_licence;
}

/// What stands against it beside the files, and what licences ask for.
void add_words(const job::ShareOutcome& outcome, Json& faults, Json& notes) {
  for (const Diagnostic& one : outcome.found) {
    const bool is_about_a_file = std::any_of(
        outcome.used.begin(), outcome.used.end(),
        [&](const auto& used) { return one.message.find(used.first) != std::string::npos; });
    const bool is_of_sharing = facts(one.id).name.starts_with("share.");
    if (one.severity == Severity::error) {
      if (!is_about_a_file) faults.push_back(one.message);
    } else if (is_of_sharing && !is_told_beside(one.id)) {
      notes.push_back(one.message);
    }
  }
}

}  // namespace

Json share_view(const Snapshot& shown, const Session& session) {
  job::ShareWishes wishes;
  wishes.folder = session.folder();
  wishes.cache_folder = session.cache_folder();
  const job::ShareOutcome outcome = job::survey(*shown.sight.world, wishes);
  const game::Sources& sources = outcome.game.sources;
  const std::string name = job::share_name(outcome.game);
  Json faults = Json::array(), notes = Json::array();
  add_words(outcome, faults, notes);
  return {{"revision", shown.revision},
          {"name", name},
          {"version", outcome.game.version},
          {"listed", sources.is_there},
          {"columns",
           {{"file", sources.names.file},
            {"author", sources.names.author},
            {"source", sources.names.source},
            {"licence", sources.names.licence},
            {"changes", sources.names.changes}}},
          {"rows", sources.rows.empty() ? 0 : sources.rows.back().row + 1},
          {"files", files_view(outcome)},
          {"licences", licences_view()},
          {"notes", notes},
          {"faults", faults},
          {"earlier", earlier_shares(session.folder())},
          {"made", made_view(session.folder(), name)}};
}

Bytes share_page_to_look_at(const std::string& game_folder, const std::string& name) {
  const std::string folder = fmt::format("{}/{}/{}", game_folder, shares_folder, name);
  const std::unique_ptr<World> world = real_world(folder);
  const ReadAnswer page = world->read("index.html", largest_list);
  if (!page.ok() || !manifest_in(folder)) return {};
  const std::string_view text = *page.bytes;
  Bytes result;
  std::size_t at = 0;
  // Our own page: attributes are written in one way.
  while (at < text.size()) {
    const std::size_t source = text.find("src=\"", at), link = text.find("href=\"", at);
    const std::size_t next = std::min(source, link);
    if (next == std::string_view::npos) break;
    const std::size_t open = text.find('"', next) + 1, close = text.find('"', open);
    if (close == std::string_view::npos) break;
    result += text.substr(at, open - at);
    const std::string_view value = text.substr(open, close - open);
    if (next == link) {
      result += value.starts_with('#') ? value : "#print";
    } else {
      const ReadAnswer picture = world->read(value, largest_list);
      if (picture.ok()) result += "data:image/png;base64," + base64(*picture.bytes);
    }
    at = close;
  }
  return result + Bytes(text.substr(at));
}

}  // namespace quoin::desk
