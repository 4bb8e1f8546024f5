#include "job/trace/trace_game.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <mutex>
#include <set>

#include "job/edit/add_files.h"
#include "job/edit/editor.h"
#include "job/pictures/shown_pictures.h"
#include "job/trace/picture_files.h"
#include "job/trace/rename_pictures.h"

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

bool is_accepted(const AcceptTraces& accept, const CoarsePicture& picture) {
  using Which = AcceptTraces::Which;
  const trace::Verdict verdict = picture.traced.judgement.verdict;
  if (any_errors(picture.traced.found)) return false;
  switch (accept.which) {
    case Which::none:
      return false;
    case Which::good:
      return verdict == trace::Verdict::good;
    case Which::all:
      return verdict <= trace::Verdict::look_closely;
    case Which::named:
      return std::find(accept.names.begin(), accept.names.end(), picture.traced.picture) !=
             accept.names.end();
  }
  return false;
}

std::string beside(const std::string& picture) {
  return fs::path(picture).replace_extension(".svg").generic_string();
}

class GameTracer {
 public:
  GameTracer(const std::string& folder, const trace::TraceWishes& wishes,
             const AcceptTraces& accept, Watcher& watcher)
      : folder_(folder),
        wishes_(wishes),
        accept_(accept),
        watcher_(watcher),
        world_(real_world(folder)) {}

  GameTraced run() {
    Checked<game::Game> read = game::read_game(*world_);
    drawn_.game = std::move(read.value);
    for (Diagnostic& problem : read.found) {
      if (problem.severity == Severity::error) result_.found.push_back(std::move(problem));
    }
    result_.good_ppi = drawn_.game.limits.good_ppi;
    if (any_errors(result_.found)) return finished();
    if (!find_pictures()) return finished();
    redraw_all();
    if (accept_.which != AcceptTraces::Which::none) accept_some();
    return finished();
  }

 private:
  /// False when the work was stopped.
  bool find_pictures() {
    Workshop shop(*world_, drawn_.game, cards_with_faces(drawn_.game), nullptr, "");
    shown_ = draw_and_find(*world_, shop, drawn_, watcher_);
    bool goes_on = true;
    for (Diagnostic& problem : drawn_.found) {
      goes_on = goes_on && problem.id != Id::pack_cancelled;
      result_.found.push_back(std::move(problem));
    }
    return goes_on;
  }

  void redraw_all() {
    for (const auto& [path, shown] : shown_) {
      if (!shown.coarsest || shown.coarsest->reaches(shown.good_ppi)) continue;
      CoarsePicture coarse;
      coarse.ppi = shown.coarsest->ppi();
      coarse.pieces = shown.pieces;
      coarse.traced.picture = path;
      result_.pictures.push_back(std::move(coarse));
    }
    const int count = static_cast<int>(result_.pictures.size());
    drawings_.resize(result_.pictures.size());
    std::mutex counting;
    int done = 0;
    on_all_cores(count, [&](int i) {
      CoarsePicture& coarse = result_.pictures[std::size_t(i)];
      Redrawn redrawn = redraw_file(*world_, coarse.traced.picture, coarse.traced.picture, wishes_);
      redrawn.facts.drawing = beside(coarse.traced.picture);
      coarse.traced = std::move(redrawn.facts);
      drawings_[std::size_t(i)] = std::move(redrawn.svg);
      const std::lock_guard lock(counting);
      (void)watcher_.at("redrawing", ++done, count);
    });
  }

  void accept_some() {
    report_unknown_names();
    std::map<std::string, Bytes> files;
    NewNames names;
    for (std::size_t i = 0; i < result_.pictures.size(); ++i) {
      CoarsePicture& coarse = result_.pictures[i];
      if (!is_accepted(accept_, coarse)) continue;
      const std::string& drawing = coarse.traced.drawing;
      const ReadAnswer there = world_->read(drawing, largest_file);
      if (there.ok() ? *there.bytes != drawings_[i] : there.failure != ReadFailure::missing) {
        coarse.traced.found.push_back(
            Diagnostic(Id::trace_file_there, {FileName(coarse.traced.picture)},
                       fmt::format("{} is there already, and was left as it is", drawing))
                .hint("move that file away, or name it in the list yourself"));
        continue;
      }
      files[drawing] = drawings_[i];
      names[coarse.traced.picture] = drawing;
    }
    if (!names.empty()) put(files, names);
  }

  void report_unknown_names() {
    for (const std::string& name : accept_.names) {
      const bool known =
          std::any_of(result_.pictures.begin(), result_.pictures.end(),
                      [&](const CoarsePicture& one) { return one.traced.picture == name; });
      if (known) continue;
      Diagnostic unknown(Id::trace_kept_as_it_is, {}, why_kept(name));
      result_.found.push_back(unknown.hint("quoin pictures lists them all"));
    }
  }

  std::string why_kept(const std::string& name) const {
    const auto shown = shown_.find(name);
    if (shown == shown_.end()) return fmt::format("no piece shows a picture {}", name);
    if (!shown->second.coarsest) {
      return fmt::format("{} is in vectors, or part of a drawing, and needs no redrawing", name);
    }
    return fmt::format("{} prints at {:.0f} ppi and needs no redrawing", name,
                       shown->second.coarsest->ppi());
  }

  /// Files first, so that nothing ever names one that is not there.
  void put(const std::map<std::string, Bytes>& files, const NewNames& names) {
    if (quoin::Outcome added = add_files(folder_, files, ""); !added) {
      for (const Diagnostic& why : added.why()) result_.found.push_back(why);
      return;
    }
    std::vector<std::string> used;
    for (const auto& [path, unused] : shown_) used.push_back(path);
    const Renaming renaming = rename_pictures(*world_, drawn_.game, names, used);
    for (const std::string& held : renaming.held) {
      result_.found.push_back(
          Diagnostic(Id::trace_name_composed, {FileName(held)},
                     fmt::format("{} was redrawn as {}, but the original is still shown", held,
                                 names.at(held)))
              .detail("a layout makes its name from a pattern that other pictures still need")
              .hint("write whole file names into a column of the list and use that in the layout"));
    }
    if (!renaming.changes.empty() && !change_files(renaming.changes, names.size())) return;
    for (CoarsePicture& coarse : result_.pictures) {
      const bool is_held = std::find(renaming.held.begin(), renaming.held.end(),
                                     coarse.traced.picture) != renaming.held.end();
      coarse.traced.written = names.contains(coarse.traced.picture);
      coarse.accepted = coarse.traced.written && !is_held;
    }
  }

  bool change_files(const std::vector<game::Change>& changes, std::size_t count) {
    auto opened = Editor::open(folder_).or_report(result_.found);
    if (!opened) return false;
    for (Diagnostic& note : opened->found) result_.found.push_back(std::move(note));
    Edit edit;
    edit.label = fmt::format("redraw {} {}", count, count == 1 ? "picture" : "pictures");
    edit.changes = changes;
    const View seen = opened->editor->look();
    EditAnswer answer = opened->editor->apply(seen, std::move(edit));
    for (Diagnostic& why : answer.found) result_.found.push_back(std::move(why));
    if (answer.state != EditAnswer::State::done) return false;
    result_.changes = static_cast<int>(changes.size());
    return true;
  }

  GameTraced finished() {
    for (CoarsePicture& coarse : result_.pictures) {
      for (const Diagnostic& one : coarse.traced.found) result_.found.push_back(one);
    }
    result_.found = in_order(std::move(result_.found));
    return std::move(result_);
  }

  std::string folder_;
  const trace::TraceWishes& wishes_;
  const AcceptTraces& accept_;
  Watcher& watcher_;
  std::unique_ptr<World> world_;
  Outcome drawn_;
  ShownPictures shown_;
  std::vector<Bytes> drawings_;
  GameTraced result_;
};

}  // namespace

GameTraced trace_game(const std::string& folder, const trace::TraceWishes& wishes,
                      const AcceptTraces& accept, Watcher& watcher) {
  return GameTracer(folder, wishes, accept, watcher).run();
}

}  // namespace quoin::job
