#include <fmt/format.h>

#include "desk/answers.h"
#include "desk/asked_values.h"
#include "desk/pictures.h"
#include "desk/routes.h"
#include "desk/rules_view.h"
#include "game/new_game.h"
#include "job/edit/add_files.h"

namespace quoin::desk {
namespace {

using DrawRules = Bytes (*)(const Tools&, const Snapshot&, int);

Answer no_such_page() {
  return refusal_answer({404, "there is no such picture any more", "reload the page"});
}

/// One picture of several that are drawn together, once for each moment and width.
Answer rules_picture(Room& room, const Asked& asked, const char* what, DrawRules draw,
                     const std::string& number) {
  const auto index = number_in(number, 0, 1000);
  const auto width = number_in(asked.value("w"), narrowest, widest);
  if (!index) return no_such_page();
  if (!width) {
    return refusal_answer(
        {400, fmt::format("w is a number from {} to {}", narrowest, widest), "reload the page"});
  }
  const std::shared_ptr<const Snapshot> shown = room.session.now();
  const auto pictures = room.session.easel().picture(
      fmt::format("rules {} {} {}", what, shown->revision, *width), shown->materials,
      [&](const Tools& tools) { return draw(tools, *shown, *width); });
  if (!pictures) {
    return refusal_answer({500, "the picture could not be drawn", "see what the checks found"});
  }
  auto one = picture_in(*pictures, static_cast<std::size_t>(*index));
  if (!one) return no_such_page();
  Answer answer;
  answer.type = "image/png";
  answer.bytes = std::make_shared<const Bytes>(std::move(*one));
  const bool is_named = asked.value("r") == std::to_string(shown->revision);
  answer.headers.emplace_back("Cache-Control",
                              is_named ? "private, max-age=31536000, immutable" : "no-store");
  return answer;
}

Answer info_answer(Room& room) {
  const std::shared_ptr<const Snapshot> shown = room.session.now();
  const auto info =
      room.session.easel().picture(fmt::format("rules info {}", shown->revision), shown->materials,
                                   [&](const Tools& tools) { return rules_info(tools, *shown); });
  if (!info) {
    return refusal_answer({500, "the rules could not be set", "see what the checks found"});
  }
  return text_answer("application/json", *info);
}

}  // namespace

std::optional<Answer> rules_answer(Room& room, const Asked& asked) {
  const std::string& path = asked.path;
  if (path == "/api/rules") return info_answer(room);
  if (const auto page = between(path, "/api/rules/page/", ".png")) {
    return rules_picture(room, asked, "pages", draw_rules_pages, *page);
  }
  if (const auto step = between(path, "/api/rules/step/", ".png")) {
    return rules_picture(room, asked, "steps", draw_rules_steps, *step);
  }
  if (path == "/api/rules/sheet/front.png") {
    return rules_picture(room, asked, "sheets", draw_rules_sheets, "0");
  }
  if (path == "/api/rules/sheet/back.png") {
    return rules_picture(room, asked, "sheets", draw_rules_sheets, "1");
  }
  return std::nullopt;
}

Answer begin_rules(Room& room) {
  const std::shared_ptr<const Snapshot> shown = room.session.now();
  const std::string file =
      shown->game.rules ? shown->game.rules->file.str() : std::string(game::usual_rules_file);
  if (shown->game.rules) {
    return refusal_answer({409, fmt::format("there is {} already", file), "reload the page"});
  }
  if (shown->state_of != Snapshot::StateOf::game) {
    return refusal_answer({409, "there is no game in this folder yet", "begin one first"});
  }
  const quoin::Outcome added =
      job::add_files(room.session.folder(), {{file, game::first_rules(shown->game)}}, file);
  if (!added) {
    return findings_answer("the rules could not be begun", added.why(), *shown->sight.world);
  }
  return json_answer({{"ok", true}, {"revision", room.session.look_again()->revision}});
}

}  // namespace quoin::desk
