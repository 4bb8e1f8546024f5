#include "desk/answers.h"
#include "desk/routes.h"
#include "desk/share_view.h"
#include "game/sources.h"
#include "job/edit/add_files.h"
#include "job/share/share.h"

namespace quoin::desk {
namespace {

/// The list of sources with a row for each picture that is used, to be filled in.
Answer begin_list(Room& room) {
  job::ShareWishes wishes;
  wishes.folder = room.session.folder();
  const std::unique_ptr<World> world = real_world(wishes.folder);
  const job::ShareOutcome outcome = job::survey(*world, wishes);
  std::vector<std::string> files;
  for (const auto& [file, pieces] : outcome.used) {
    files.push_back(file.starts_with("art/") ? file.substr(4) : file);
  }
  Diagnostics found;
  const bool added =
      job::add_files(wishes.folder, {{game::sources_file, game::sources_to_fill_in(files)}},
                     game::sources_file)
          .or_report(found)
          .has_value();
  if (!added) return findings_answer("the list could not be begun", found, *world);
  (void)room.session.look_again();
  return json_answer({{"ok", true}});
}

/// Not framed by anybody but the desk, without a script, and with nothing from elsewhere.
Answer page_to_look_at(Room& room) {
  const Bytes page =
      share_page_to_look_at(room.session.folder(), job::share_name(room.session.now()->game));
  if (page.empty()) return refusal_answer({404, "there is no share of this version", "share it"});
  Answer answer = text_answer("text/html; charset=utf-8", page);
  answer.headers.emplace_back("Content-Security-Policy",
                              "sandbox; default-src 'none'; style-src 'unsafe-inline'; "
                              "img-src data:; frame-ancestors 'self'; base-uri 'none'; "
                              "form-action 'none'");
  answer.headers.emplace_back("X-Frame-Options", "SAMEORIGIN");
  return answer;
}

}  // namespace

std::optional<Answer> share_answer(Room& room, const Asked& asked) {
  const bool changes = asked.method == "POST";
  if (!changes && asked.path == "/api/share") {
    return json_answer(share_view(*room.session.now(), room.session));
  }
  if (!changes && asked.path == "/api/share/page.html") return page_to_look_at(room);
  if (changes && asked.path == "/api/share/list") return begin_list(room);
  static constexpr JsonQuestion questions[] = {
      {"/api/share", "ShareRequest", [](Room& in, const Json& body) {
         auto begun = in.workbench.share(body);
         if (const auto* refusal = std::get_if<Refusal>(&begun)) return refusal_answer(*refusal);
         return json_answer({{"id", std::get<std::string>(begun)}});
       }}};
  return changes ? answer_among(questions, room, asked) : std::nullopt;
}

}  // namespace quoin::desk
