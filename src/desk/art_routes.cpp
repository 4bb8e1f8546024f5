#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desk/answers.h"
#include "desk/art_view.h"
#include "desk/asked_values.h"
#include "desk/pictures.h"
#include "desk/routes.h"
#include "desk/views.h"
#include "formats/png/png.h"
#include "game/words.h"
#include "job/edit/add_files.h"
#include "job/pictures/accept_pictures.h"

namespace quoin::desk {
namespace {

constexpr int most_wide = 4096;
constexpr std::size_t most_cards = 100, most_exchanged = 64;
constexpr const char* again = "do it again";

/// A picture as it stands in the folder now.
struct Opened {
  std::shared_ptr<const Snapshot> shown;
  PicturePtr picture;
};

/// The picture that was asked for, when it is still as the page saw it.
std::variant<Opened, Refusal> open_picture(Room& room, const std::string& file,
                                           const std::string& stamp) {
  Opened opened{room.session.now(), nullptr};
  Diagnostics said_by_the_list;
  const auto picture = opened.shown->materials->shelf->open(file, {}, said_by_the_list);
  if (!picture) {
    const std::string why = picture.why().empty() ? "" : picture.why().front().message;
    return Refusal{404, why.empty() ? fmt::format("{} cannot be read", file) : why,
                   "look at the list again"};
  }
  opened.picture = *picture;
  if (stamp_of(opened.picture->key()) != stamp) {
    return Refusal{409, fmt::format("{} is another picture by now", file), "look at it again"};
  }
  return opened;
}

/// Calls `answer` with the picture that `body` names; the refusal when it is not there.
template <typename AnswerTo>
Answer with_picture(Room& room, const Json& body, const AnswerTo& answer) {
  const std::string file = body["file"].get<std::string>();
  auto opened = open_picture(room, file, body["stamp"].get<std::string>());
  if (const auto* refusal = std::get_if<Refusal>(&opened)) return refusal_answer(*refusal);
  return answer(std::get<Opened>(opened), file);
}

Answer png_answer(std::shared_ptr<const Bytes> bytes) {
  if (!bytes || bytes->empty()) {
    return refusal_answer({500, "the picture could not be drawn", "see what the list says of it"});
  }
  Answer answer;
  answer.type = "image/png";
  answer.bytes = std::move(bytes);
  answer.headers.emplace_back("Cache-Control", "private, max-age=31536000, immutable");
  return answer;
}

/// 0 or a width that can be asked for.
std::optional<int> width_in(const Asked& asked) {
  const std::string text = asked.value("w");
  if (text.empty() || text == "0") return 0;
  return number_in(text, narrowest, most_wide);
}

Refusal wrong_width() {
  return {400, fmt::format("w is 0 or a number from {} to {}", narrowest, most_wide),
          "reload the page"};
}

Answer original_answer(Room& room, const Asked& asked) {
  const auto width = width_in(asked);
  if (!width) return refusal_answer(wrong_width());
  auto opened = open_picture(room, asked.value("file"), asked.value("stamp"));
  if (const auto* refusal = std::get_if<Refusal>(&opened)) return refusal_answer(*refusal);
  const auto& [shown, picture] = std::get<Opened>(opened);
  return png_answer(room.session.easel().picture(
      fmt::format("original {} {}", picture->key(), *width), shown->materials,
      [&, at = *width](const Tools& tools) { return draw_picture(tools, picture, at); }));
}

std::shared_ptr<const MadeOfPicture> made_in(Room& room, const std::string& name) {
  return room.art.find(name);
}

Answer gone() { return refusal_answer({410, "that was made too long ago", again}); }

Answer drawing_answer(Room& room, const Asked& asked) {
  const auto made = made_in(room, asked.value("id"));
  if (!made || made->pictures.empty() || made->pictures[0].ending != ".svg") return gone();
  Answer answer = text_answer("image/svg+xml", made->pictures[0].bytes);
  answer.headers.emplace_back("Content-Security-Policy",
                              "sandbox; default-src 'none'; style-src 'unsafe-inline'");
  answer.headers.emplace_back("Cache-Control", "private, max-age=31536000, immutable");
  return answer;
}

Answer difference_answer(Room& room, const Asked& asked) {
  const auto made = made_in(room, asked.value("id"));
  if (!made || made->difference.empty()) return gone();
  return png_answer(std::make_shared<const Bytes>(made->difference));
}

Answer made_answer(Room& room, const Asked& asked) {
  const auto width = width_in(asked);
  if (!width) return refusal_answer(wrong_width());
  const auto made = made_in(room, asked.value("id"));
  if (!made) return gone();
  const auto n = number_in(asked.value("n"), 0, static_cast<int>(made->pictures.size()) - 1);
  if (!n) return refusal_answer({404, "there is no such picture among them", again});
  const job::NewPicture& picture = made->pictures[static_cast<std::size_t>(*n)];
  if (*width == 0 || *width >= picture.width) {
    return png_answer(std::make_shared<const Bytes>(picture.bytes));
  }
  const std::shared_ptr<const Snapshot> shown = room.session.now();
  return png_answer(room.session.easel().picture(
      fmt::format("{} {} {}", asked.value("id"), *n, *width), shown->materials, [&](const Tools&) {
        MemoryWorld world;
        world.put("made.png", picture.bytes);
        PictureShelf shelf(world);
        Typesetter none({});
        Diagnostics unneeded;
        const auto opened = shelf.open("made.png", {}, unneeded);
        return opened ? draw_picture({shelf, none}, *opened, *width) : Bytes{};
      }));
}

Answer list_answer(Room& room) {
  const std::shared_ptr<const Snapshot> shown = room.session.now();
  return json_answer(pictures_view(*shown, *room.art.list(shown->sight.world)));
}

/// The colours that a word names; nothing when it is none.
std::optional<Colour> opaque_colour(const Json& text) {
  const auto colour = parse_colour(text.get<std::string>());
  return colour && colour->alpha >= 1 ? colour : std::nullopt;
}

/// What a redrawing is asked for, or what of it makes no sense.
std::variant<job::RedrawWishes, Refusal> redraw_wishes(const Json& body) {
  job::RedrawWishes wishes;
  if (body["closeness"] == "fewest") wishes.closeness = job::Closeness::fewest_nodes;
  const double colours = body["colours"].get<double>();
  if (!(colours >= 0 && colours <= most_exchanged) || colours != std::floor(colours)) {
    return Refusal{422, "colours is a whole number from 0 to 64", "reload the page"};
  }
  wishes.colours = static_cast<int>(colours);
  if (body["palette"].size() > most_exchanged || body["instead"].size() > most_exchanged) {
    return Refusal{422, "64 colours at the most are named", "reload the page"};
  }
  const Refusal no_colour{422, "a colour is written like #1d2b33", "reload the page"};
  for (const Json& one : body["palette"]) {
    const auto colour = opaque_colour(one);
    if (!colour) return no_colour;
    wishes.palette.push_back(*colour);
  }
  for (const Json& one : body["instead"]) {
    const auto from = opaque_colour(one["from"]), to = opaque_colour(one["to"]);
    if (!from || !to) return no_colour;
    wishes.instead.emplace_back(*from, *to);
  }
  return wishes;
}

Answer redraw_answer(Room& room, const Json& body) {
  auto wishes = redraw_wishes(body);
  if (const auto* refusal = std::get_if<Refusal>(&wishes)) return refusal_answer(*refusal);
  return with_picture(room, body, [&](const Opened& opened, const std::string& file) {
    const World& world = *opened.shown->sight.world;
    Raster difference;
    job::Redrawn redrawn =
        job::redraw_file(world, file, file, std::get<job::RedrawWishes>(wishes), &difference);
    if (redrawn.svg.empty()) {
      return findings_answer("it cannot be redrawn", redrawn.facts.found, world);
    }
    const PictureFacts& facts = opened.picture->facts();
    const int width = static_cast<int>(facts.width), height = static_cast<int>(facts.height);
    MadeOfPicture made{file, body["stamp"].get<std::string>(), {}, {}};
    made.pictures.push_back({".svg", "redrawn", redrawn.svg, width, height, {}});
    if (!difference.pixels.empty()) made.difference = write_png(difference, 96);
    return json_answer(
        redrawing_view(redrawn, width, height, room.art.keep(std::move(made)), world));
  });
}

std::optional<job::CardOutline> outline_of(const game::Game& game, const std::string& shape) {
  if (shape.empty()) return job::CardOutline{game.card.size, game.card.corner};
  const std::size_t by = shape.find('x');
  if (by == std::string::npos) return std::nullopt;
  const auto width = game::read_number(shape.substr(0, by));
  const auto height = game::read_number(shape.substr(by + 1));
  const auto is_side = [](const std::optional<double>& side) {
    return side && *side >= 10 && *side <= 1000;
  };
  if (!is_side(width) || !is_side(height)) return std::nullopt;
  const Size size{Mm{*width}, Mm{*height}};
  return job::CardOutline{size, std::min(game.card.corner, std::min(size.width, size.height) / 2)};
}

Answer corners_answer(Room& room, const Json& body) {
  return with_picture(room, body, [&](const Opened& opened, const std::string& file) {
    const game::Game& game = opened.shown->game;
    const World& world = *opened.shown->sight.world;
    const job::PicturedCards cards =
        job::find_cards(world, file, {game.card.size, game.card.corner});
    if (cards.cards.empty()) return findings_answer("no card was found", cards.found, world);
    return json_answer(cards_view(cards));
  });
}

Answer made_of(Room& room, const Opened& opened, const std::string& file, job::NewPictures made) {
  if (made.pictures.empty()) {
    return findings_answer("nothing could be made of it", made.found, *opened.shown->sight.world);
  }
  const std::string name =
      room.art.keep({file, stamp_of(opened.picture->key()), made.pictures, {}});
  return json_answer(made_view(made, name));
}

Answer straighten_answer(Room& room, const Json& body) {
  std::vector<job::PictureCorners> cards;
  const Refusal wrong{422, "a card has four corners, and there are 1 to 100 cards",
                      "reload the page"};
  for (const Json& card : body["cards"]) {
    if (card["corners"].size() != 4) return refusal_answer(wrong);
    job::PictureCorners& corners = cards.emplace_back();
    for (std::size_t i = 0; i < 4; ++i) {
      corners[i] = {card["corners"][i]["x"].get<double>(), card["corners"][i]["y"].get<double>()};
    }
  }
  if (cards.empty() || cards.size() > most_cards) return refusal_answer(wrong);
  return with_picture(room, body, [&](const Opened& opened, const std::string& file) {
    const auto outline = outline_of(opened.shown->game, body["shape"].get<std::string>());
    if (!outline) {
      return refusal_answer({422, "the shape of a card is written like 63x88, in millimetres",
                             "give two lengths from 10 to 1000"});
    }
    return made_of(room, opened, file,
                   job::straighten_cards(*opened.shown->sight.world, file, cards, *outline));
  });
}

Answer cut_out_answer(Room& room, const Json& body) {
  return with_picture(room, body, [&](const Opened& opened, const std::string& file) {
    return made_of(
        room, opened, file,
        job::cut_out_picture(*opened.shown->sight.world, file, body["reach"].get<double>()));
  });
}

/// The pictures of `made` that were chosen; nothing when one is not there.
std::optional<std::vector<const job::NewPicture*>> chosen(const MadeOfPicture& made,
                                                          const Json& which) {
  std::vector<const job::NewPicture*> pictures;
  for (const Json& n : which) {
    const double number = n.get<double>();
    const bool is_there =
        number >= 0 && number < double(made.pictures.size()) && number == std::floor(number);
    if (!is_there) return std::nullopt;
    pictures.push_back(&made.pictures[static_cast<std::size_t>(number)]);
  }
  if (which.empty()) {
    for (const job::NewPicture& one : made.pictures) pictures.push_back(&one);
  }
  return pictures;
}

/// Files first, so that nothing ever names one that is not there.
Answer accept_answer(Room& room, const Json& body) {
  const auto made = made_in(room, body["id"].get<std::string>());
  if (!made) return gone();
  const auto pictures = chosen(*made, body["n"]);
  if (!pictures) return refusal_answer({422, "there is no such picture among them", again});
  auto opened = open_picture(room, made->file, made->stamp);
  if (const auto* refusal = std::get_if<Refusal>(&opened)) return refusal_answer(*refusal);
  const Snapshot& seen = *std::get<Opened>(opened).shown;
  const World& world = *seen.sight.world;
  std::vector<std::string> used;
  for (const job::ListedPicture& one : room.art.list(seen.sight.world)->pictures) {
    if (!one.pieces.empty()) used.push_back(one.file);
  }
  const auto instead = body["instead"].get<bool>() ? job::Instead::yes : job::Instead::no;
  const job::Acceptance accepted =
      job::accept_pictures(world, seen.game, made->file, *pictures, instead, used);
  Diagnostics found;
  if (!job::add_files(room.session.folder(), accepted.files, "").or_report(found)) {
    return findings_answer("the picture could not be put there", found, world);
  }
  if (accepted.is_held) {
    found.push_back(
        Diagnostic(Id::trace_name_composed, {FileName(made->file)},
                   fmt::format("{} is there, but {} is still shown", accepted.names[0], made->file))
            .detail("a layout makes its name from a pattern that other pictures still need")
            .hint("write whole file names into a column of the list and use that in the layout"));
  }
  std::uint64_t revision = 0;
  if (accepted.changes.empty()) {
    revision = room.session.look_again()->revision;
  } else {
    const Session::Answered answered = room.session.put(seen, accepted.label, accepted.changes);
    if (answered.changed.state == Changed::State::refused) {
      return findings_answer("the game's files cannot be changed from here", answered.changed.found,
                             world);
    }
    revision = answered.shown->revision;
  }
  return json_answer({{"files", accepted.names},
                      {"changes", accepted.changes.size()},
                      {"findings", findings_view(found, world)},
                      {"revision", revision}});
}

}  // namespace

std::optional<Answer> art_answer(Room& room, const Asked& asked) {
  static constexpr JsonQuestion questions[] = {
      {"/api/pictures/redraw", "RedrawRequest", redraw_answer},
      {"/api/pictures/corners", "PictureAsked", corners_answer},
      {"/api/pictures/straighten", "StraightenRequest", straighten_answer},
      {"/api/pictures/cut-out", "CutOutRequest", cut_out_answer},
      {"/api/pictures/accept", "AcceptRequest", accept_answer},
  };
  if (asked.method == "POST") return answer_among(questions, room, asked);
  if (asked.path == "/api/pictures") return list_answer(room);
  if (asked.path == "/api/pictures/original.png") return original_answer(room, asked);
  if (asked.path == "/api/pictures/redrawn.svg") return drawing_answer(room, asked);
  if (asked.path == "/api/pictures/difference.png") return difference_answer(room, asked);
  if (asked.path == "/api/pictures/made.png") return made_answer(room, asked);
  return std::nullopt;
}

}  // namespace quoin::desk
