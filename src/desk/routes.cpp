#include "desk/routes.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "desk/answers.h"
#include "desk/api/types.h"
#include "desk/page.h"
#include "desk/pictures.h"
#include "desk/views.h"

namespace quoin::desk {
namespace {

Answer told_as_json(const Json& json) { return text_answer("application/json", written(json)); }

/// Whether the family has a face of its own for that weight and slope: tried, not asked for.
bool has_face(Typesetter& typesetter, const std::string& family, int weight, bool italic) {
  TextBlock block;
  block.style.family = family;
  block.style.weight = weight;
  block.style.italic = italic;
  block.runs = {TextRun{"a", false, false, nullptr}};
  block.box = {50_mm, 10_mm};
  return typesetter.set(block).facts().missing_faces.empty();
}

Json fonts_view(const Snapshot& shown) {
  Typesetter typesetter(*shown.materials->fonts);
  Json families = Json::array();
  std::set<std::string> known;
  for (const std::string& family : typesetter.families()) {
    if (!known.insert(family).second) continue;
    Json weights = Json::array();
    for (int weight = 100; weight <= 900; weight += 100) {
      if (has_face(typesetter, family, weight, false)) weights.push_back(weight);
    }
    const bool has_italic = has_face(typesetter, family, 400, true);
    families.push_back({{"family", family}, {"weights", weights}, {"italic", has_italic}});
  }
  return families;
}

Json art_view(const Snapshot& shown) {
  Json files = Json::array();
  for (const std::string& path : shown.sight.world->files_below("")) {
    constexpr std::string_view endings[] = {".svg",  ".png", ".jpg", ".jpeg",
                                            ".webp", ".tif", ".tiff"};
    const bool is_picture = std::ranges::any_of(
        endings, [&](std::string_view ending) { return path.ends_with(ending); });
    if (!is_picture || !bears_on_the_game(path)) continue;
    Diagnostics said_by_the_checks;
    const auto picture = shown.materials->shelf->open(path, {}, said_by_the_checks);
    if (!picture) continue;
    const PictureFacts& facts = (*picture)->facts();
    files.push_back({{"file", path},
                     {"width", facts.width},
                     {"height", facts.height},
                     {"bytes", (*picture)->bytes().size()}});
  }
  return files;
}

Answer pack_file_answer(const std::string& game_folder, const std::string& name) {
  const std::optional<PackPlace> place = place_in_pack(game_folder, name);
  if (!place || place->name.empty()) {
    return refusal_answer({404, "the pack has no such file", "make the pack again"});
  }
  const ReadAnswer read = real_world(place->folder)->read(place->name, largest_file * 4);
  if (!read.ok()) return refusal_answer({404, explain(read, name), "make the pack again"});
  Answer answer;
  answer.type = "application/octet-stream";
  answer.bytes = read.bytes;
  std::string plain = name.substr(name.rfind('/') + 1);
  std::erase_if(plain, [](char c) { return c == '"' || c == '\\' || c < ' '; });
  answer.headers.emplace_back("Content-Disposition",
                              fmt::format("attachment; filename=\"{}\"", plain));
  answer.headers.emplace_back("Content-Security-Policy", "sandbox");
  return answer;
}

Refusal no_box() { return {404, "the game has no box yet", "add [box] to game.toml"}; }

}  // namespace

std::optional<Answer> answer_among(std::span<const JsonQuestion> questions, Room& room,
                                   const Asked& asked) {
  for (const JsonQuestion& one : questions) {
    if (one.path != asked.path) continue;
    const std::variant<Json, Refusal> body = body_of(asked, one.type);
    if (const auto* refusal = std::get_if<Refusal>(&body)) return refusal_answer(*refusal);
    return one.answer(room, std::get<Json>(body));
  }
  return std::nullopt;
}

std::optional<Answer> view_answer(Room& room, const Asked& asked) {
  const std::string& path = asked.path;
  Session& session = room.session;
  if (path == "/api/state") return told_as_json(state_view(*session.now(), session.folder()));
  if (path == "/api/schema") return told_as_json(schema_view());
  if (path == "/api/fonts") return told_as_json(fonts_view(*session.now()));
  if (path == "/api/art") return told_as_json(art_view(*session.now()));
  if (path == "/api/pack") return told_as_json(pack_view(session.folder()));
  if (path == "/api/pack/file") {
    return pack_file_answer(session.folder(), asked.value("name"));
  }
  if (path == "/api/box/model.json") {
    const std::shared_ptr<const Snapshot> shown = session.checked();
    if (!shown->checkup || !shown->checkup->outcome.box) return refusal_answer(no_box());
    return told_as_json(box_model_view(shown->checkup->outcome));
  }
  if (path == "/api/layout") {
    const auto view = layout_view(*session.now(), asked.value("file"), asked.value("card"));
    if (view) return told_as_json(*view);
    return refusal_answer({404, "no card has that layout", "choose another layout"});
  }
  if (path == "/api/element-strip") {
    return told_as_json(
        element_cuts_view(*session.now(), asked.value("file"), asked.value("element")));
  }
  if (path == "/api/events") {
    Answer answer;
    answer.events = session.events().listen();
    return answer;
  }
  return std::nullopt;
}

Answer answer_to(Room& room, const Asked& asked) {
  const bool is_api = asked.path.starts_with("/api/");
  if (!is_api && asked.method == "GET") return page_answer(asked);
  if (is_api && asked.path.starts_with("/api/printer")) {
    if (auto answer = printer_answer(room, asked)) return std::move(*answer);
  }
  if (is_api && asked.path.starts_with("/api/mat")) {
    if (auto answer = mat_answer(room, asked)) return std::move(*answer);
  }
  if (is_api && asked.path.starts_with("/api/share")) {
    if (auto answer = share_answer(room, asked)) return std::move(*answer);
  }
  if (is_api && asked.path.starts_with("/api/pictures")) {
    if (auto answer = art_answer(room, asked)) return std::move(*answer);
  }
  if (is_api && asked.method == "POST") {
    if (auto answer = change_answer(room, asked)) return std::move(*answer);
  }
  if (is_api && asked.method == "GET") {
    if (auto answer = picture_answer(room, asked)) return std::move(*answer);
    if (auto answer = view_answer(room, asked)) return std::move(*answer);
    if (auto answer = making_answer(room, asked)) return std::move(*answer);
    if (auto answer = rules_answer(room, asked)) return std::move(*answer);
  }
  return refusal_answer({404, "the desk does not know that question", "reload the page"});
}

}  // namespace quoin::desk
