#include <fmt/format.h>

#include "desk/answers.h"
#include "desk/routes.h"
#include "desk/views.h"
#include "job/new_game.h"

namespace quoin::desk {
namespace {

Answer done() { return json_answer({{"ok", true}}); }

Answer changed_answer(const Session::Answered& answered) {
  const Changed& changed = answered.changed;
  const Snapshot& shown = *answered.shown;
  switch (changed.state) {
    case Changed::State::done:
    case Changed::State::waiting:  // the page sees why it waits among the findings
      return json_answer({{"ok", true}, {"revision", shown.revision}});
    case Changed::State::conflict:
      return json_answer({{"message", "this was changed elsewhere too"},
                          {"hint", "choose which of the two stays"},
                          {"conflicts", conflicts_view(shown.conflicts)}},
                         409);
    case Changed::State::not_understood:
      return json_answer(
          {{"message", changed.fault}, {"hint", "reload the page"}, {"findings", Json::array()}},
          422);
    case Changed::State::nothing_there:
      return refusal_answer({409, "there is nothing left to take back or make again", ""});
    case Changed::State::refused:
      break;
  }
  return findings_answer("the game's files cannot be changed from here", changed.found,
                         *shown.sight.world);
}

Answer labelled(const Session::Answered& answered) {
  if (answered.changed.state != Changed::State::done) return changed_answer(answered);
  return json_answer(
      {{"ok", true}, {"revision", answered.shown->revision}, {"label", answered.changed.label}});
}

Answer upload_answer(Uploaded put) {
  if (const auto* refusal = std::get_if<Refusal>(&put)) return refusal_answer(*refusal);
  return json_answer({{"file", std::get<std::string>(put)}});
}

Answer make_answer(Room& room, const Json& asked) {
  auto begun = room.workbench.make(asked);
  if (const auto* refusal = std::get_if<Refusal>(&begun)) return refusal_answer(*refusal);
  return json_answer({{"id", std::get<std::string>(begun)}});
}

Answer open_answer(Room& room, const std::string& name) {
  const auto place = place_in_pack(room.session.folder(), name);
  if (!place && name.empty()) return refusal_answer({404, "there is no pack yet", "make it first"});
  // A link in the pack leads nowhere else: what the world reads lies inside.
  const bool is_there =
      place &&
      (place->name.empty() || real_world(place->folder)->read(place->name, largest_file * 4).ok());
  if (!is_there) {
    return refusal_answer({404, "the pack has no such file", "make the pack again"});
  }
  if (!room.show_outside(place->name.empty() ? place->folder : place->folder + "/" + place->name)) {
    return refusal_answer(
        {500, "this machine has no program to show it with", "download the file instead"});
  }
  return done();
}

Answer new_answer(Room& room, const Json& asked) {
  if (room.session.now()->state_of != Snapshot::StateOf::empty) {
    return refusal_answer({409, "there is a game in this folder already",
                           "run quoin desk with the name of a new folder"});
  }
  const std::lock_guard lock(room.tray_mutex);
  job::NewGame wanted;
  wanted.folder = room.session.folder();
  wanted.title = asked["title"].get<std::string>();
  wanted.place = job::NewGame::Place::among_files;
  const std::string size = asked["size"].get<std::string>();
  if (!size.empty()) wanted.size = size;
  if (asked["from"] == "pictures") {
    // Pictures that were dropped on the page, else those that lie in the folder already.
    wanted.pictures = room.tray.folder().empty() ? room.session.folder() : room.tray.folder();
  }
  const job::NewGameMade made = job::new_game(wanted);
  if (!made.made) {
    return findings_answer("the game could not be made", made.found, MemoryWorld());
  }
  room.tray.clear();
  room.session.reopen();
  return done();
}

/// Questions with a JSON body, by their paths.
std::optional<Answer> answer_to_json(Room& room, const Asked& asked) {
  static constexpr JsonQuestion questions[] = {
      {"/api/edit", "EditRequest",
       [](Room& in, const Json& body) {
         const double base = body["base"].get<double>();
         const std::uint64_t revision =
             base >= 0 && base < 9e15 ? static_cast<std::uint64_t>(base) : 0;
         return changed_answer(in.session.edit(revision, body));
       }},
      {"/api/conflict", "ConflictChoice",
       [](Room& in, const Json& body) {
         return changed_answer(
             in.session.choose(body["id"].get<std::string>(), body["keep"].get<std::string>()));
       }},
      {"/api/make", "MakeRequest", make_answer},
      {"/api/stop", "WorkId",
       [](Room& in, const Json& body) {
         if (in.workbench.stop(body["id"].get<std::string>())) return done();
         return refusal_answer({404, "that work is done already", ""});
       }},
      {"/api/open", "OpenRequest",
       [](Room& in, const Json& body) { return open_answer(in, body["name"].get<std::string>()); }},
      {"/api/new", "NewRequest", new_answer},
  };
  return answer_among(questions, room, asked);
}

}  // namespace

std::optional<Answer> change_answer(Room& room, const Asked& asked) {
  if (asked.path == "/api/undo") return labelled(room.session.undo());
  if (asked.path == "/api/redo") return labelled(room.session.redo());
  if (asked.path == "/api/rules/begin") return begin_rules(room);
  if (asked.path == "/api/upload") {
    return upload_answer(put_picture(room.session.folder(), "art", asked.value("to"), asked.body));
  }
  if (asked.path == "/api/new-picture") {
    const std::lock_guard lock(room.tray_mutex);
    return upload_answer(room.tray.put(asked.value("name"), asked.body));
  }
  return answer_to_json(room, asked);
}

}  // namespace quoin::desk
