#include "desk/session.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/today.h"
#include "desk/pictures.h"
#include "job/kept_findings.h"

namespace quoin::desk {
namespace {

/// Bytes: the grid of a thousand cards. What is dropped too early is drawn anew in 5 ms; 200 MB
/// were mostly pictures of moments that are over.
constexpr std::size_t kept_pictures = 48'000'000;
/// The page may ask for changes in view of so many moments; of long lists only of as many as fit
/// the memory, but always of the last few.
constexpr std::size_t kept_sights = 256, least_sights = 8;
constexpr std::size_t most_bytes_in_sight = 64'000'000;
constexpr std::size_t most_drawn_ahead = 120;
/// Checks begin when nothing changed for so long, so that they do not hold up the drawing.
constexpr std::chrono::milliseconds calm{120};

/// Stops a check once another moment is shown.
class NewestOnly : public job::Watcher {
 public:
  NewestOnly(const std::atomic<std::uint64_t>& newest, std::uint64_t mine,
             const std::stop_token& stop)
      : newest_(newest), mine_(mine), stop_(stop) {}
  bool at(std::string_view, int, int) override {
    return newest_.load() == mine_ && !stop_.stop_requested();
  }
  [[nodiscard]] bool is_outdated() { return !at({}, 0, 0); }

 private:
  const std::atomic<std::uint64_t>& newest_;
  const std::uint64_t mine_;
  const std::stop_token& stop_;
};

std::vector<int> printed_cards(const game::Game& game) {
  std::vector<int> cards;
  for (std::size_t i = 0; i < game.cards.size(); ++i) {
    if (game.cards[i].layout >= 0 && game.cards[i].copies > 0) {
      cards.push_back(static_cast<int>(i));
    }
  }
  return cards;
}

bool is_there(const World& world, std::string_view path) {
  return world.read(path, largest_file).failure != ReadFailure::missing ||
         world.read(path, largest_file).ok();
}

Snapshot::StateOf state_of(const World& world, const game::Game& game, const Diagnostics& found) {
  if (!game.cards.empty() || !any_errors(found)) return Snapshot::StateOf::game;
  const bool has_game = is_there(world, "game.toml") || is_there(world, "cards.csv");
  return has_game ? Snapshot::StateOf::unreadable : Snapshot::StateOf::empty;
}

Changed too_long_ago(std::uint64_t revision) {
  return {Changed::State::not_understood,
          {},
          {},
          fmt::format("revision {} is not known any more", revision)};
}

}  // namespace

Session::Session(std::string folder, std::string cache_folder, std::string printers_folder)
    : folder_(std::move(folder)),
      cache_folder_(std::move(cache_folder)),
      printers_folder_(std::move(printers_folder)),
      easel_(kept_pictures),
      changes_(changes_of(folder_)) {
  is_dirty_ = true;
  watch_ = std::make_unique<FolderWatch>(folder_, [this] { mark_dirty(); });
  reader_ = std::jthread([this](const std::stop_token& stop) { read_changes(stop); });
  checker_ = std::jthread([this](const std::stop_token& stop) { check_changes(stop); });
}

Session::~Session() {
  watch_.reset();
  reader_.request_stop();
  checker_.request_stop();
  close();
  reader_.join();
  checker_.join();
}

std::shared_ptr<const Snapshot> Session::now() const {
  std::unique_lock lock(mutex_);
  more_.wait(lock, [&] { return now_ != nullptr; });
  return now_;
}

std::shared_ptr<const Snapshot> Session::checked() const {
  std::unique_lock lock(mutex_);
  const auto is_ready = [&] {
    return now_ != nullptr &&
           (now_->is_checked || now_->state_of != Snapshot::StateOf::game || is_closing_);
  };
  more_.wait_for(lock, std::chrono::seconds(20), is_ready);
  return now_;
}

void Session::close() {
  {
    const std::lock_guard lock(mutex_);
    is_closing_ = true;
  }
  more_.notify_all();
  events_.close();
}

void Session::mark_dirty() {
  {
    const std::lock_guard lock(mutex_);
    is_dirty_ = true;
  }
  more_.notify_all();
}

void Session::read_changes(const std::stop_token& stop) {
  while (!stop.stop_requested()) {
    {
      std::unique_lock lock(mutex_);
      more_.wait(lock, stop, [&] { return is_dirty_; });
      if (stop.stop_requested()) return;
      is_dirty_ = false;
    }
    more_.notify_all();
    const std::lock_guard lock(work_mutex_);
    if (names_of(folder_) != names_) read(Drawing::ahead);
  }
}

void Session::check_changes(const std::stop_token& stop) {
  while (!stop.stop_requested()) {
    {
      std::unique_lock lock(mutex_);
      more_.wait(lock, stop, [&] { return must_check_ && !is_dirty_; });
      if (stop.stop_requested()) return;
    }
    check(stop);
  }
}

void Session::read(Drawing drawing) {
  auto next = std::make_shared<Snapshot>();
  names_ = names_of(folder_);  // before reading: what changes meanwhile is read again
  next->sight = changes_->look();
  const job::WitnessedWorld witnessed(*next->sight.world);
  Checked<game::Game> game = game::read_game(witnessed);
  next->game = std::move(game.value);
  next->found_reading = in_order(std::move(game.found));
  next->state_of = state_of(*next->sight.world, next->game, next->found_reading);
  const std::shared_ptr<const Snapshot> before = now_;
  if (before && before->state_of == Snapshot::StateOf::empty &&
      next->state_of == Snapshot::StateOf::game) {
    begin_changing();  // a game came into the folder
    next->sight = changes_->look();
  }
  next->materials =
      materials_for(next->game, folder_, names_.pictures, before ? before->materials : nullptr);
  next->faces = face_maker_.compose(next->game, *next->materials, witnessed.hash());
  if (before) next->checkup = before->checkup;
  next->undo = changes_->undo_label();
  next->redo = changes_->redo_label();
  next->conflicts = changes_->conflicts();
  next->found_changing = changes_->found();
  show(next);
  easel_.forget_ahead();
  if (before && drawing == Drawing::ahead) draw_ahead(*before, next);
}

void Session::begin_changing() {
  changes_.reset();
  changes_ = changes_of(folder_);
  seen_.clear();
  bytes_in_sight_ = 0;
}

void Session::show(std::shared_ptr<Snapshot> next) {
  {
    const std::lock_guard lock(mutex_);
    next->revision = now_ ? now_->revision + 1 : 1;
    newest_ = next->revision;
    must_check_ = !next->is_checked && next->state_of == Snapshot::StateOf::game;
    now_ = next;
  }
  remember(*next);
  more_.notify_all();
  events_.tell("state", "", fmt::format(R"({{"revision":{}}})", next->revision));
}

void Session::remember(const Snapshot& shown) {
  Sight sight = shown.sight;
  const bool is_checked_only = !seen_.empty() && seen_.back().second.basis == sight.basis;
  if (is_checked_only) sight.bytes = 0;
  bytes_in_sight_ += sight.bytes;
  seen_.emplace_back(shown.revision, std::move(sight));
  while (seen_.size() > kept_sights ||
         (seen_.size() > least_sights && bytes_in_sight_ > most_bytes_in_sight)) {
    bytes_in_sight_ -= seen_.front().second.bytes;
    seen_.pop_front();
  }
}

void Session::check(const std::stop_token& stop) {
  std::shared_ptr<const Snapshot> shown;
  {
    std::unique_lock lock(mutex_);
    if (!must_check_) return;
    shown = now_;
    const bool is_first = shown->checkup == nullptr;
    const auto is_outdated = [&] { return is_dirty_ || now_ != shown; };
    if (!is_first && more_.wait_for(lock, stop, calm, is_outdated)) return;
    if (stop.stop_requested()) return;
    must_check_ = false;
  }
  NewestOnly watcher(newest_, shown->revision, stop);
  job::Wishes wishes;
  wishes.out = folder_ + "/pack";
  wishes.cache_folder = cache_folder_;
  wishes.printers_folder = printers_folder_;
  wishes.today = today();
  auto checkup = std::make_shared<Checkup>();
  checkup->outcome = job::check(*shown->sight.world, wishes, watcher);
  checkup->printed =
      job::list_drawings(checkup->outcome.game, printed_cards(checkup->outcome.game));
  if (watcher.is_outdated()) return;
  const std::lock_guard lock(work_mutex_);
  if (watcher.is_outdated()) return;
  auto next = std::make_shared<Snapshot>(*shown);
  next->checkup = std::move(checkup);
  next->is_checked = true;
  show(next);
}

void Session::was_asked(const std::string& key, int width) {
  const std::lock_guard lock(mutex_);
  widths_[key] = width;
}

void Session::draw_ahead(const Snapshot& before, const std::shared_ptr<const Snapshot>& after) {
  std::map<std::string, int> widths;
  {
    const std::lock_guard lock(mutex_);
    if (widths_.size() > 2 * after->faces.all.size() + 100) {  // cards that are long gone
      std::erase_if(widths_, [&](const auto& one) { return !after->faces.find(one.first); });
    }
    widths = widths_;
  }
  std::map<std::string_view, std::string_view> stamps;
  for (const Face& face : before.faces.all) stamps[face.key] = face.stamp;
  std::size_t ordered = 0;
  for (const Face& face : after->faces.all) {
    const auto width = widths.find(face.key);
    const auto earlier = stamps.find(face.key);
    if (width == widths.end() || earlier == stamps.end() || earlier->second == face.stamp) continue;
    if (++ordered > most_drawn_ahead) return;
    easel_.draw_ahead(name_of_picture(face, width->second, Extent::trim), after->materials,
                      [after, &face, wide = width->second](const Tools& tools) {
                        return draw_face(tools, after->game, face, wide, Extent::trim);
                      });
  }
}

template <typename Do>
Session::Answered Session::change(const Do& what, Drawing drawing) {
  (void)now();
  const std::lock_guard lock(work_mutex_);
  Answered answered{what(), nullptr};
  const bool nothing_came_of_it = answered.changed.state == Changed::State::not_understood ||
                                  answered.changed.state == Changed::State::nothing_there;
  if (!nothing_came_of_it) read(drawing);
  answered.shown = now();
  return answered;
}

const Sight* Session::sight_at(std::uint64_t revision) const {
  const auto seen = std::ranges::find(seen_, revision, [](const auto& one) { return one.first; });
  return seen == seen_.end() ? nullptr : &seen->second;
}

Session::Answered Session::edit(std::uint64_t base, const Json& asked) {
  const bool is_passing = asked.contains("transient") && asked["transient"].get<bool>();
  const auto make = [&] {
    const Sight* seen = sight_at(base);
    return seen != nullptr ? changes_->apply(*seen, asked) : too_long_ago(base);
  };
  return change(make, is_passing ? Drawing::when_asked : Drawing::ahead);
}

Session::Answered Session::put(std::uint64_t base, const std::string& label,
                               const std::vector<game::Change>& changes) {
  return change([&] {
    const Sight* seen = sight_at(base);
    return seen != nullptr ? changes_->put(*seen, label, changes) : too_long_ago(base);
  });
}

Session::Answered Session::undo() {
  return change([&] { return changes_->undo(); });
}

Session::Answered Session::redo() {
  return change([&] { return changes_->redo(); });
}

Session::Answered Session::choose(const std::string& conflict, const std::string& keep) {
  return change([&] { return changes_->choose(conflict, keep); });
}

std::shared_ptr<const Snapshot> Session::look_again() {
  (void)now();
  const std::lock_guard lock(work_mutex_);
  read(Drawing::ahead);
  return now();
}

void Session::reopen() {
  const std::lock_guard lock(work_mutex_);
  begin_changing();
  watch_ = std::make_unique<FolderWatch>(folder_, [this] { mark_dirty(); });
  read(Drawing::ahead);
}

}  // namespace quoin::desk
