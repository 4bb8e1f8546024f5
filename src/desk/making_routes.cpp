#include <fmt/format.h>

#include "desk/asked_values.h"
#include "desk/making_view.h"
#include "desk/pictures.h"
#include "desk/routes.h"

namespace quoin::desk {
namespace {

/// Pictures of steps are not smaller or larger than this, in pixels.
constexpr int least_side = 120, most_side = 2400;

Refusal no_plan() {
  return {404, "there is no plan for cutting these sheets", "see what the checks found"};
}

Answer told(const Json& json) { return text_answer("application/json", written(json)); }

/// A drawing that is shown as a picture and can do nothing when it is opened by itself.
Answer svg(const std::shared_ptr<const Bytes>& bytes) {
  if (!bytes || bytes->empty()) {
    return refusal_answer({500, "the picture could not be drawn", "reload the page"});
  }
  Answer answer;
  answer.type = "image/svg+xml";
  answer.bytes = bytes;
  answer.headers.emplace_back("Content-Security-Policy", "sandbox");
  answer.headers.emplace_back("Cache-Control", "private, no-cache");
  return answer;
}

struct Wanted {
  int width = 0, height = 0;
  WorkInk ink = WorkInk::paper;
};

std::optional<Wanted> wanted_of(const Asked& asked) {
  const auto width = number_in(asked.value("w"), least_side, most_side);
  const auto height = number_in(asked.value("h"), least_side, most_side);
  const std::string ink = asked.value("ink");
  if (!width || !height || (ink != "paper" && ink != "dark")) return std::nullopt;
  return Wanted{*width, *height, ink == "dark" ? WorkInk::dark : WorkInk::paper};
}

Refusal not_wanted() {
  return {
      400,
      fmt::format("w and h are numbers from {} to {}, ink is paper or dark", least_side, most_side),
      "reload the page"};
}

Answer work_answer(Room& room, const Asked& asked, const WorkPicture& which) {
  const std::optional<Wanted> wanted = wanted_of(asked);
  if (!wanted) return refusal_answer(not_wanted());
  const std::shared_ptr<const Snapshot> shown = room.session.checked();
  if (!has_work_picture(*shown, which)) return refusal_answer(no_plan());
  const std::string name =
      fmt::format("work {} {} {} {} {} {}", shown->revision, which.kind, which.step, wanted->width,
                  wanted->height, wanted->ink == WorkInk::dark ? "dark" : "paper");
  return svg(room.session.easel().picture(name, shown->materials, [&](const Tools& tools) {
    return draw_work(tools, *shown, which, wanted->width, wanted->height, wanted->ink);
  }));
}

Answer likely_cuts_answer(Room& room, const std::string& key) {
  const std::shared_ptr<const Snapshot> shown = room.session.checked();
  const Face* face = shown->faces.find(key);
  if (face == nullptr) {
    return refusal_answer({404, "there is no such face any more", "reload the page"});
  }
  NoCuts why;
  if (const auto view = likely_cuts_view(*shown, *face, why)) return told(*view);
  return refusal_answer({404, why.message, why.hint});
}

}  // namespace

std::optional<Answer> making_answer(Room& room, const Asked& asked) {
  const std::string& path = asked.path;
  if (path == "/api/making") return told(making_view(*room.session.checked()));
  if (path == "/api/likely-cuts") return likely_cuts_answer(room, asked.value("key"));
  if (path == "/api/cutting/corner.svg") return work_answer(room, asked, {-1, -1});
  const auto which = between(path, "/api/cutting/", ".svg");
  if (!which) return std::nullopt;
  const std::size_t slash = which->find('/');
  if (slash == std::string::npos) return refusal_answer(no_plan());
  constexpr int most = 1'000'000;
  const auto kind = number_in(which->substr(0, slash), 0, most);
  const auto step = number_in(which->substr(slash + 1), 0, most);
  if (!kind || !step) return refusal_answer(no_plan());
  return work_answer(room, asked, {*kind, *step});
}

}  // namespace quoin::desk
