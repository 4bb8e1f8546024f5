#include <fmt/format.h>

#include "desk/asked_values.h"
#include "desk/box_art.h"
#include "desk/pictures.h"
#include "desk/routes.h"

namespace quoin::desk {
namespace {

constexpr int usual_width = 384;

std::optional<int> width_of(const Asked& asked) {
  const std::string text = asked.value("w");
  return text.empty() ? std::optional(usual_width) : number_in(text, narrowest, widest);
}

Answer no_width() {
  return refusal_answer(
      {400, fmt::format("w is a number from {} to {}", narrowest, widest), "reload the page"});
}

Answer no_such_picture() {
  return refusal_answer({404, "there is no such picture any more", "reload the page"});
}

Answer png(const std::shared_ptr<const Bytes>& bytes) {
  if (!bytes) {
    return refusal_answer({500, "the picture could not be drawn", "see what the checks found"});
  }
  Answer answer;
  answer.type = "image/png";
  answer.bytes = bytes;
  return answer;
}

/// Lets the browser keep the picture: for ever when it was asked for by its stamp, else as long as
/// it asks again.
void let_keep(Answer& answer, const Asked& asked, const std::string& stamp,
              const std::string& tag) {
  if (answer.status != 200) return;
  const bool is_named = asked.value("stamp") == stamp;
  answer.headers.emplace_back(
      "Cache-Control", is_named ? "private, max-age=31536000, immutable" : "private, no-cache");
  answer.headers.emplace_back("ETag", fmt::format("\"{}\"", tag));
  if (asked.known_tag != fmt::format("\"{}\"", tag)) return;
  answer.status = 304;
  answer.bytes = nullptr;
}

Answer face_answer(Room& room, const Asked& asked, const std::string& key) {
  const std::shared_ptr<const Snapshot> shown = room.session.now();
  const Face* face = shown->faces.find(key);
  if (face == nullptr) return no_such_picture();
  const std::optional<int> width = width_of(asked);
  if (!width) return no_width();
  const Extent extent = asked.value("bleed") == "1" ? Extent::bleed : Extent::trim;
  if (extent == Extent::trim) room.session.was_asked(key, *width);
  Answer answer = png(room.session.easel().picture(
      name_of_picture(*face, *width, extent), shown->materials,
      [&](const Tools& tools) { return draw_face(tools, shown->game, *face, *width, extent); }));
  let_keep(
      answer, asked, face->stamp,
      fmt::format("{}-{}-{}", face->stamp, *width, extent == Extent::bleed ? "bleed" : "trim"));
  return answer;
}

Answer drawing_answer(Room& room, const std::string& key) {
  const std::shared_ptr<const Snapshot> shown = room.session.now();
  const Face* face = shown->faces.find(key);
  if (face == nullptr) return no_such_picture();
  Diagnostics found;
  const auto svg = room.session.easel().picture(
      "drawing " + face->stamp, shown->materials,
      [&](const Tools& tools) { return face_drawing(tools, shown->game, *face, found); });
  if (!svg || svg->empty()) {
    const std::string why = found.empty() ? "it could not be drawn" : found.front().message;
    return refusal_answer(
        {500, "the drawing cannot be saved: " + why, "see what the checks found"});
  }
  Answer answer;
  answer.type = "image/svg+xml";
  answer.bytes = svg;
  // Never run as a page of the desk's: to be saved, and powerless if it is opened all the same.
  answer.headers.emplace_back("Content-Security-Policy", "sandbox");
  answer.headers.emplace_back("Content-Disposition", fmt::format("attachment; filename=\"{}.svg\"",
                                                                 safe_stem(key + ".svg")));
  return answer;
}

std::optional<SheetSide> side_called(std::string_view word) {
  if (word == "front") return SheetSide::front;
  if (word == "back") return SheetSide::back;
  if (word == "light") return SheetSide::light;
  if (word == "uncorrected") return SheetSide::uncorrected;
  return std::nullopt;
}

Answer sheet_answer(Room& room, const Asked& asked, const std::string& which) {
  const std::size_t slash = which.find('/');
  const std::shared_ptr<const Snapshot> shown = room.session.checked();
  if (!shown->checkup || !shown->checkup->outcome.plan || slash == std::string::npos) {
    return no_such_picture();
  }
  const auto& sheets = shown->checkup->outcome.plan->sheets;
  const auto index = number_in(which.substr(0, slash), 0, static_cast<int>(sheets.size()) - 1);
  const std::string word = which.substr(slash + 1);
  const std::optional<SheetSide> side = side_called(word);
  if (!index || !side) return no_such_picture();
  const std::optional<int> width = width_of(asked);
  if (!width) return no_width();
  return png(room.session.easel().picture(
      fmt::format("sheet {} {} {} {}", shown->revision, *index, word, *width), shown->materials,
      [&](const Tools& tools) {
        return draw_sheet(tools, *shown, static_cast<std::size_t>(*index), *side, *width);
      }));
}

enum class NetPicture { lines, texture };

Answer net_answer(Room& room, const Asked& asked, const std::string& which, NetPicture what) {
  const std::shared_ptr<const Snapshot> shown = room.session.checked();
  if (!shown->checkup || !shown->checkup->outcome.box) return no_such_picture();
  const auto& parts = shown->checkup->outcome.box->model.parts;
  const auto index = number_in(which, 0, static_cast<int>(parts.size()) - 1);
  const std::optional<int> width = width_of(asked);
  if (!index) return no_such_picture();
  if (!width) return no_width();
  const auto net = static_cast<std::size_t>(*index);
  if (what == NetPicture::texture && art_of_net(shown->checkup->outcome, net) == nullptr) {
    return no_such_picture();
  }
  const std::string name = fmt::format("net {} {} {} {}", shown->revision, net, *width,
                                       what == NetPicture::texture ? "texture" : "lines");
  return png(room.session.easel().picture(name, shown->materials, [&](const Tools& tools) {
    return what == NetPicture::texture ? draw_texture(tools, *shown, net)
                                       : draw_net(tools, *shown, net, *width);
  }));
}

Answer font_answer(Room& room, const std::string& family) {
  const std::shared_ptr<const Snapshot> shown = room.session.now();
  const std::vector<std::string> known = Typesetter(*shown->materials->fonts).families();
  if (std::find(known.begin(), known.end(), family) == known.end()) return no_such_picture();
  return png(room.session.easel().picture(
      "font " + shown->materials->fonts_name + family, shown->materials,
      [&](const Tools& tools) { return draw_font_sample(tools, family); }));
}

}  // namespace

std::optional<Answer> picture_answer(Room& room, const Asked& asked) {
  const std::string& path = asked.path;
  if (const auto key = between(path, "/api/picture/", ".png")) {
    return face_answer(room, asked, *key);
  }
  if (const auto key = between(path, "/api/drawing/", ".svg")) return drawing_answer(room, *key);
  if (const auto which = between(path, "/api/sheet/", ".png")) {
    return sheet_answer(room, asked, *which);
  }
  if (const auto which = between(path, "/api/box/net/", ".png")) {
    return net_answer(room, asked, *which, NetPicture::lines);
  }
  if (const auto which = between(path, "/api/box/texture/", ".png")) {
    return net_answer(room, asked, *which, NetPicture::texture);
  }
  if (const auto family = between(path, "/api/font-sample/", ".png")) {
    return font_answer(room, *family);
  }
  return std::nullopt;
}

}  // namespace quoin::desk
