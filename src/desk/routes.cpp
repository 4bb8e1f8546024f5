#include "desk/routes.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "desk/api/types.h"
#include "desk/page.h"
#include "desk/pictures.h"
#include "desk/views.h"

namespace quoin::desk {
namespace {

Answer json_answer(const Json& json) { return text_answer("application/json", written(json)); }

std::optional<Json> fonts_view(const Snapshot& shown) {
  Json families = Json::array();
  std::set<std::string> known;
  for (const std::string& family : Typesetter(*shown.materials->fonts).families()) {
    if (!known.insert(family).second) continue;
    families.push_back({{"family", family}, {"weights", {400, 700}}, {"italic", true}});
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

Answer pack_file_answer(const std::string& pack, const std::string& name) {
  if (!is_in_pack(pack, name)) {
    return refusal_answer({404, "the pack has no such file", "make the pack again"});
  }
  const ReadAnswer read = real_world(pack)->read(name, largest_file * 4);
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

std::optional<Answer> view_answer(Room& room, const Asked& asked) {
  const std::string& path = asked.path;
  Session& session = room.session;
  if (path == "/api/state") return json_answer(state_view(*session.now(), session.folder()));
  if (path == "/api/schema") return json_answer(schema_view());
  if (path == "/api/fonts") return json_answer(*fonts_view(*session.now()));
  if (path == "/api/art") return json_answer(art_view(*session.now()));
  if (path == "/api/pack") return json_answer(pack_view(session.folder() + "/pack"));
  if (path == "/api/pack/file") {
    return pack_file_answer(session.folder() + "/pack", asked.value("name"));
  }
  if (path == "/api/box/model.json") {
    const std::shared_ptr<const Snapshot> shown = session.checked();
    if (!shown->checkup || !shown->checkup->outcome.box) return refusal_answer(no_box());
    return json_answer(box_model_view(shown->checkup->outcome));
  }
  if (path == "/api/layout") {
    const auto view = layout_view(*session.now(), asked.value("file"), asked.value("card"));
    if (view) return json_answer(*view);
    return refusal_answer({404, "no card has that layout", "choose another layout"});
  }
  if (path == "/api/element-strip") {
    return json_answer(
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
  if (is_api && asked.method == "POST") {
    if (auto answer = change_answer(room, asked)) return std::move(*answer);
  }
  if (is_api && asked.method == "GET") {
    if (auto answer = picture_answer(room, asked)) return std::move(*answer);
    if (auto answer = view_answer(room, asked)) return std::move(*answer);
  }
  return refusal_answer({404, "the desk does not know that question", "reload the page"});
}

}  // namespace quoin::desk
