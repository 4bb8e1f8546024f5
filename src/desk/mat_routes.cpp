#include <fmt/format.h>

#include "desk/answers.h"
#include "desk/asked_values.h"
#include "desk/mat_view.h"
#include "desk/pictures.h"
#include "desk/routes.h"
#include "desk/views.h"

namespace quoin::desk {
namespace {

Answer mat_picture_answer(Room& room, const Asked& asked) {
  const std::shared_ptr<const Snapshot> shown = room.session.now();
  const std::string stamp = mat_stamp(*shown);
  if (stamp.empty()) return refusal_answer({404, "the game has no mat", "begin one"});
  const auto width = number_in(asked.value("w"), narrowest, widest);
  if (!width) {
    return refusal_answer(
        {400, fmt::format("w is a number from {} to {}", narrowest, widest), "reload the page"});
  }
  Answer answer;
  answer.type = "image/png";
  answer.bytes = room.session.easel().picture(
      fmt::format("mat {} {}", stamp, *width), shown->materials,
      [&](const Tools& tools) { return draw_mat_picture(tools, *shown, *width); });
  if (!answer.bytes) {
    return refusal_answer({500, "the mat could not be drawn", "see what the checks found"});
  }
  const bool is_named = asked.value("stamp") == stamp;
  answer.headers.emplace_back(
      "Cache-Control", is_named ? "private, max-age=31536000, immutable" : "private, no-cache");
  return answer;
}

Answer begin_answer(Room& room) {
  if (room.session.now()->game.mat) {
    return refusal_answer({409, "the game has a mat already", "reload the page"});
  }
  Diagnostics found;
  const Session::Answered answered = begin_mat(room.session, found);
  if (answered.changed.state == Changed::State::done) {
    return json_answer({{"ok", true}, {"revision", answered.shown->revision}});
  }
  return findings_answer("the mat could not be begun", answered.changed.found,
                         *answered.shown->sight.world);
}

}  // namespace

std::optional<Answer> mat_answer(Room& room, const Asked& asked) {
  if (asked.path == "/api/mat/begin" && asked.method == "POST") return begin_answer(room);
  if (asked.method != "GET") return std::nullopt;
  if (asked.path == "/api/mat/picture.png") return mat_picture_answer(room, asked);
  if (asked.path != "/api/mat") return std::nullopt;
  return text_answer("application/json", written(mat_view(*room.session.now())));
}

}  // namespace quoin::desk
