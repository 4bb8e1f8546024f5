#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "desk/answers.h"
#include "desk/art_answers.h"
#include "desk/art_view.h"
#include "desk/asked_values.h"
#include "desk/folder_watch.h"
#include "desk/pictures.h"
#include "game/sources.h"
#include "game/words.h"
#include "media/colour.h"

namespace quoin::desk {
namespace {

constexpr int most_wide = 4096;  // px
constexpr std::size_t most_cards = 100, most_named_colours = 64;
constexpr double farthest_pull = 100;  // CIEDE2000

/// The list of the newest moment.
struct SeenArt {
  std::shared_ptr<const Snapshot> shown;
  std::shared_ptr<const ArtList> art;
};
SeenArt look(Room& room) {
  std::shared_ptr<const Snapshot> shown = room.session.now();
  return {shown, room.art.list(shown)};
}

/// Whether a picture lies in the folder: one that was put there just now is not on the list yet.
bool is_just_there(const Room& room, const std::string& file) {
  if (normal_path(file) != file || !game::is_picture_file(file) || !bears_on_the_game(file)) {
    return false;
  }
  return real_world(room.session.folder())->read(file, largest_file).ok();
}

Answer asked_anew() { return refusal_answer({409, "the same was asked for anew meanwhile", ""}); }

/// Calls `answer` with the picture that `body` names when it is there and nobody asked anew for the
/// same `work` meanwhile; the refusal else.
template <typename AnswerTo>
Answer work_on(Room& room, const Json& body, std::string_view work, const AnswerTo& answer) {
  const std::string file = body["file"].get<std::string>();
  const auto turn = room.art.turn(fmt::format("{} {}", work, file));
  if (!turn) return asked_anew();
  auto opened = open_picture(room, file, body["stamp"].get<std::string>());
  if (const auto* refusal = std::get_if<Refusal>(&opened)) return refusal_answer(*refusal);
  return answer(std::get<OpenedPicture>(opened));
}

/// The browser may keep it: another content has another address.
void let_keep(Answer& answer) {
  answer.headers.emplace_back("Cache-Control", "private, max-age=31536000, immutable");
}

Answer png_answer(std::shared_ptr<const Bytes> bytes) {
  if (!bytes || bytes->empty()) {
    return refusal_answer({500, "the picture could not be drawn", "see what the list says of it"});
  }
  Answer answer;
  answer.type = "image/png";
  answer.bytes = std::move(bytes);
  let_keep(answer);
  return answer;
}

/// 0 or a width that can be asked for.
std::optional<int> width_in(const Asked& asked) {
  const std::string text = asked.value("w");
  if (text.empty() || text == "0") return 0;
  return number_in(text, narrowest, most_wide);
}

Answer wrong_width() {
  return refusal_answer({400, fmt::format("w is 0 or a number from {} to {}", narrowest, most_wide),
                         "reload the page"});
}

Answer original_answer(Room& room, const Asked& asked) {
  const auto width = width_in(asked);
  if (!width) return wrong_width();
  auto opened = open_picture(room, asked.value("file"), asked.value("stamp"));
  if (const auto* refusal = std::get_if<Refusal>(&opened)) return refusal_answer(*refusal);
  const OpenedPicture& original = std::get<OpenedPicture>(opened);
  return png_answer(room.session.easel().picture(
      fmt::format("original {} {}", original.picture->key(), *width), original.shown->materials,
      [picture = original.picture, at = *width](const Tools& tools) {
        return draw_picture(tools.shelf, picture, at);
      }));
}

Answer drawing_answer(Room& room, const Asked& asked) {
  const auto found = room.art.find(asked.value("id"));
  if (!found || found->made.how != job::MadeBy::redrawing) return made_is_gone();
  Answer answer = text_answer("image/svg+xml", found->made.pictures[0].bytes);
  // Never run as a page of the desk's.
  answer.headers.emplace_back("Content-Security-Policy",
                              "sandbox; default-src 'none'; style-src 'unsafe-inline'");
  let_keep(answer);
  return answer;
}

Answer difference_answer(Room& room, const Asked& asked) {
  const std::string id = asked.value("id");
  const auto found = room.art.find(id);
  if (!found || found->made.how != job::MadeBy::redrawing) return made_is_gone();
  auto opened = open_picture(room, found->file, stamp_of(found->key));
  if (const auto* refusal = std::get_if<Refusal>(&opened)) return refusal_answer(*refusal);
  const OpenedPicture& original = std::get<OpenedPicture>(opened);
  auto difference = room.session.easel().picture(
      "difference " + id, original.shown->materials,
      [found, picture = original.picture](const Tools& tools) {
        return job::difference_png(tools.shelf, picture, found->made.pictures[0].bytes);
      });
  if (difference && difference->empty()) {
    return refusal_answer({422, "the drawing has too many parts to be compared with its picture",
                           "redraw it with fewer colours"});
  }
  return png_answer(std::move(difference));
}

Answer made_answer(Room& room, const Asked& asked) {
  const auto width = width_in(asked);
  if (!width) return wrong_width();
  const std::string id = asked.value("id");
  const auto found = room.art.find(id);
  if (!found || found->made.how == job::MadeBy::redrawing) return made_is_gone();
  const int last = static_cast<int>(found->made.pictures.size()) - 1;
  const auto n = number_in(asked.value("n"), 0, last);
  if (!n) {
    return refusal_answer({404, "there is no such picture among them", "reload the page"});
  }
  const job::NewPicture& one = found->made.pictures[static_cast<std::size_t>(*n)];
  if (*width == 0 || *width >= one.width) {
    return png_answer(std::make_shared<const Bytes>(one.bytes));
  }
  return png_answer(room.session.easel().picture(
      fmt::format("made {} {} {}", id, *n, *width), room.session.now()->materials,
      [&one, at = *width](const Tools&) {
        MemoryWorld world;
        world.put("made.png", one.bytes);
        PictureShelf shelf(world);
        Diagnostics unneeded;
        const auto opened = shelf.open("made.png", {}, unneeded);
        return opened ? draw_picture(shelf, *opened, at) : Bytes{};
      }));
}

Answer list_answer(Room& room) {
  const SeenArt seen = look(room);
  return json_answer(pictures_view(*seen.shown, seen.art->list));
}

std::optional<Colour> opaque_colour(const Json& text) {
  const auto colour = parse_colour(text.get<std::string>());
  return colour && colour->alpha >= 1 ? colour : std::nullopt;
}

/// What a redrawing is asked for, or what of it makes no sense.
std::variant<job::RedrawWishes, Refusal> redraw_wishes(const Json& body) {
  job::RedrawWishes wishes;
  if (body["closeness"] == "fewest") wishes.closeness = job::Closeness::fewest_nodes;
  const double colours = body["colours"].get<double>();
  if (!(colours >= 0 && colours <= most_named_colours) || colours != std::floor(colours)) {
    return Refusal{422, "colours is a whole number from 0 to 64", "reload the page"};
  }
  wishes.colours = static_cast<int>(colours);
  if (body["palette"].size() > most_named_colours || body["instead"].size() > most_named_colours) {
    return Refusal{422, "64 colours at the most are named", "choose fewer"};
  }
  const Refusal no_colour{422, "a colour is written like #1d2b33", "write it so"};
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
  return work_on(room, body, "redraw", [&](const OpenedPicture& original) {
    const World& world = *original.shown->sight.world;
    job::Redrawn redrawn =
        job::redraw_picture(original.picture, std::get<job::RedrawWishes>(wishes));
    if (redrawn.svg.empty()) {
      return findings_answer("it cannot be redrawn", redrawn.facts.found, world);
    }
    const PictureFacts& facts = original.picture->facts();
    const int width = static_cast<int>(facts.width), height = static_cast<int>(facts.height);
    job::NewPictures made;
    made.pictures.push_back({redrawn.svg, width, height, {}});
    const std::string id =
        room.art.keep({original.picture->path(), original.picture->key(), std::move(made)});
    return json_answer(redrawing_view(redrawn, width, height, id, world));
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
  return work_on(room, body, "corners", [&](const OpenedPicture& original) {
    const game::Game& game = original.shown->game;
    const job::PicturedCards cards =
        job::find_cards(original.shelf(), original.picture, {game.card.size, game.card.corner});
    if (cards.cards.empty()) {
      return findings_answer("no card was found", cards.found, *original.shown->sight.world);
    }
    room.art.remember(original.picture->key(), cards.cards);
    return json_answer(cards_view(cards));
  });
}

Answer made_of(Room& room, const OpenedPicture& original, job::NewPictures made) {
  if (made.pictures.empty()) {
    return findings_answer("nothing could be made of it", made.found, *original.shown->sight.world);
  }
  Json view = made_view(made);
  view["id"] = room.art.keep({original.picture->path(), original.picture->key(), std::move(made)});
  return json_answer(view);
}

std::optional<std::vector<job::PicturedCard>> asked_cards(const Json& asked) {
  if (asked.empty() || asked.size() > most_cards) return std::nullopt;
  std::vector<job::PicturedCard> cards;
  for (const Json& card : asked) {
    if (card["corners"].size() != 4) return std::nullopt;
    job::PictureCorners& corners = cards.emplace_back().corners;
    for (std::size_t i = 0; i < 4; ++i) {
      corners[i] = {card["corners"][i]["x"].get<double>(), card["corners"][i]["y"].get<double>()};
    }
  }
  return cards;
}

/// The bow of the lens is known of the card that was found where this one lies, whichever of its
/// corners was moved since.
double bow_at(const job::PicturedCard& card, const std::vector<job::PicturedCard>& found) {
  const auto middle = [](const job::PicturedCard& one) {
    job::PicturePoint sum;
    for (const job::PicturePoint& at : one.corners) sum.x += at.x / 4, sum.y += at.y / 4;
    return sum;
  };
  double nearest = std::numeric_limits<double>::infinity(), bow = 0;
  for (const job::PicturedCard& one : found) {
    const job::PicturePoint a = middle(card), b = middle(one);
    const double distance = std::hypot(a.x - b.x, a.y - b.y);
    if (distance < nearest) nearest = distance, bow = one.bow;
  }
  return bow;
}

Answer straighten_answer(Room& room, const Json& body) {
  auto cards = asked_cards(body["cards"]);
  if (!cards) {
    return refusal_answer(
        {422, "a card has four corners, and there are 1 to 100 cards", "choose at least one card"});
  }
  return work_on(room, body, "straighten", [&](const OpenedPicture& original) {
    const game::Game& game = original.shown->game;
    const auto outline = outline_of(game, body["shape"].get<std::string>());
    if (!outline) {
      return refusal_answer({422, "the shape of a card is written like 63x88, in millimetres",
                             "give two lengths from 10 to 1000"});
    }
    const auto found = room.art.cards_in(original.picture->key());
    for (job::PicturedCard& card : *cards) card.bow = bow_at(card, found);
    return made_of(room, original,
                   job::straighten_cards(original.shelf(), original.picture, *cards, *outline,
                                         game.limits.good_ppi));
  });
}

Answer cut_out_answer(Room& room, const Json& body) {
  const double reach = body["reach"].get<double>();
  if (!(reach >= 0 && reach <= 1)) {
    return refusal_answer({422, "reach is a number from 0 to 1", "reload the page"});
  }
  return work_on(room, body, "cut out", [&](const OpenedPicture& original) {
    return made_of(room, original, job::cut_out_picture(original.shelf(), original.picture, reach));
  });
}

Answer pull_answer(Room& room, const Json& body) {
  const double reach = body["reach"].get<double>();
  if (!(reach > 0 && reach <= farthest_pull)) {
    return refusal_answer({422, "reach is a number above 0 and up to 100", "reload the page"});
  }
  return work_on(room, body, "pull", [&](const OpenedPicture& original) {
    std::vector<Colour> colours;
    for (const auto& one : job::colours_of(original.shown->game)) colours.push_back(one.colour);
    if (colours.empty()) {
      return refusal_answer(
          {422, "the game names no colours", "take some from its pictures first"});
    }
    return made_of(room, original,
                   job::recolour_picture(original.shelf(), original.picture, colours, reach));
  });
}

/// The pictures that were asked for, all that pieces show for none; nothing when one is not there.
std::optional<std::vector<PicturePtr>> pictures_named(const SeenArt& seen, const Json& files) {
  std::vector<PicturePtr> pictures;
  const auto open = [&](const job::ListedPicture& one) {
    Diagnostics said_by_the_list;
    auto picture = seen.shown->materials->shelf->open(one.file, {}, said_by_the_list);
    if (picture) pictures.push_back(*picture);
  };
  for (const Json& file : files) {
    const job::ListedPicture* one = seen.art->find(file.get<std::string>());
    if (one == nullptr) return std::nullopt;
    open(*one);
  }
  for (const job::ListedPicture& one : seen.art->list.pictures) {
    if (files.empty() && !one.pieces.empty()) open(one);
  }
  return pictures;
}

Answer palette_answer(Room& room, const Json& body) {
  const double most = body["most"].get<double>();
  if (!(most >= 1 && most <= most_named_colours) || most != std::floor(most)) {
    return refusal_answer({422, "most is a whole number from 1 to 64", "reload the page"});
  }
  const auto turn = room.art.turn("palette");
  if (!turn) return asked_anew();
  const SeenArt seen = look(room);
  const auto pictures = pictures_named(seen, body["files"]);
  if (!pictures) {
    return refusal_answer({404, "the game has no such picture", "look at the list again"});
  }
  job::PaletteWishes wishes;
  wishes.most = static_cast<int>(most);
  const job::FoundPalette palette = job::palette_of_pictures(
      *seen.shown->materials->shelf, *pictures, wishes, job::colours_of(seen.shown->game));
  return json_answer({{"colours", colours_view(palette.colours)}});
}

}  // namespace

std::variant<OpenedPicture, Refusal> open_picture(Room& room, const std::string& file,
                                                  const std::string& stamp) {
  SeenArt seen = look(room);
  const job::ListedPicture* listed = seen.art->find(file);
  if (listed == nullptr && is_just_there(room, file)) {
    (void)room.session.look_again();
    seen = look(room);
    listed = seen.art->find(file);
  }
  if (listed == nullptr) {
    return Refusal{404, "the game has no such picture", "look at the list again"};
  }
  if (stamp_of(listed->key) != stamp) {
    return Refusal{409, fmt::format("{} is another picture by now", file), "look at it again"};
  }
  Diagnostics said_by_the_list;
  const auto picture = seen.shown->materials->shelf->open(file, {}, said_by_the_list);
  if (!picture) return Refusal{422, listed->words, "look at the list again"};
  return OpenedPicture{seen.shown, seen.art, *picture};
}

std::optional<Answer> art_answer(Room& room, const Asked& asked) {
  static constexpr JsonQuestion questions[] = {
      {"/api/pictures/redraw", "RedrawRequest", redraw_answer},
      {"/api/pictures/corners", "PictureAsked", corners_answer},
      {"/api/pictures/straighten", "StraightenRequest", straighten_answer},
      {"/api/pictures/cut-out", "CutOutRequest", cut_out_answer},
      {"/api/pictures/pull", "PullRequest", pull_answer},
      {"/api/pictures/palette", "PaletteRequest", palette_answer},
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
