#include <fmt/format.h>

#include <cmath>

#include "desk/answers.h"
#include "desk/art_answers.h"
#include "desk/art_view.h"
#include "desk/views.h"
#include "job/edit/add_files.h"
#include "job/pictures/accept_pictures.h"

namespace quoin::desk {
namespace {

/// What was chosen among what was made, by its places; nothing when one is not there.
std::optional<std::map<std::size_t, const job::NewPicture*>> chosen(const job::NewPictures& made,
                                                                    const Json& which) {
  std::map<std::size_t, const job::NewPicture*> pictures;
  for (const Json& n : which) {
    const double number = n.get<double>();
    const bool is_there =
        number >= 0 && number < double(made.pictures.size()) && number == std::floor(number);
    if (!is_there) return std::nullopt;
    const auto place = static_cast<std::size_t>(number);
    pictures[place] = &made.pictures[place];
  }
  for (std::size_t i = 0; which.empty() && i < made.pictures.size(); ++i) {
    pictures[i] = &made.pictures[i];
  }
  return pictures;
}

/// The game with the new files in it, and its lists and layouts changed.
Answer put_there(Room& room, const Snapshot& seen, job::Acceptance accepted) {
  const World& world = *seen.sight.world;
  // Files first, so that nothing ever names one that is not there.
  if (!job::add_files(room.session.folder(), accepted.files, "").or_report(accepted.found)) {
    return findings_answer("the picture could not be written", accepted.found, world);
  }
  std::shared_ptr<const Snapshot> now;
  std::size_t changes = accepted.changes.size();
  if (changes == 0) {
    now = room.session.look_again();
  } else {
    const Session::Answered answered =
        room.session.put(seen.revision, accepted.label, accepted.changes);
    if (answered.changed.state == Changed::State::not_understood) {
      return refusal_answer({409, "the game was opened anew meanwhile", "do it again"});
    }
    now = answered.shown;
    // The picture lies there all the same; what stands against the change is told with it.
    for (const Diagnostic& one : answered.changed.found) accepted.found.push_back(one);
    const auto state = answered.changed.state;
    if (state != Changed::State::done && state != Changed::State::waiting) changes = 0;
  }
  return json_answer({{"files", accepted.names},
                      {"changes", changes},
                      {"findings", findings_view(accepted.found, *now->sight.world)},
                      {"revision", now->revision}});
}

}  // namespace

Answer made_is_gone() { return refusal_answer({410, "that was made too long ago", "do it again"}); }

Answer accept_answer(Room& room, const Json& body) {
  const auto made = room.art.find(body["id"].get<std::string>());
  if (!made) return made_is_gone();
  const auto pictures = chosen(made->made, body["n"]);
  if (!pictures) {
    return refusal_answer({422, "there is no such picture among them", "reload the page"});
  }
  job::Accepting accepting{made->file, made->made.how, *pictures, job::Instead::no};
  if (body["instead"].get<bool>()) accepting.instead = job::Instead::yes;
  if (accepting.instead == job::Instead::yes && pictures->size() != 1) {
    return refusal_answer({422, "only one picture can be shown instead of another",
                           "choose one, or only put them beside it"});
  }
  const std::unique_lock alone = room.art.alone();
  auto opened = open_picture(room, made->file, stamp_of(made->key));
  if (const auto* refusal = std::get_if<Refusal>(&opened)) return refusal_answer(*refusal);
  const auto& [seen, art, picture] = std::get<OpenedPicture>(opened);
  return put_there(room, *seen,
                   job::accept_pictures(*seen->sight.world, seen->game, accepting, art->shown));
}

}  // namespace quoin::desk
