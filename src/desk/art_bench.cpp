#include "desk/art_bench.h"

#include <fmt/format.h>

#include <algorithm>
#include <thread>

namespace quoin::desk {
namespace {

constexpr std::size_t most_made = 32, most_bytes_made = 64'000'000;
constexpr std::size_t most_pictures_with_cards = 16;

int most_at_work() { return std::max(2, static_cast<int>(std::thread::hardware_concurrency())); }

/// What the faces show comes from the moment itself; box, mat and rules from its checks, which may
/// be a moment behind: then the list follows when they are done.
std::shared_ptr<const ArtList> pictures_of(const Snapshot& shown) {
  auto art = std::make_shared<ArtList>();
  Typesetter typesetter(*shown.materials->fonts);
  job::PictureFinder finder(*shown.sight.world);
  for (const Face& face : shown.faces.all) {
    finder.see(*face.scene, face.piece, shown.game.limits, typesetter);
  }
  if (shown.checkup) finder.see_other_pieces(shown.checkup->outcome, typesetter);
  art->shown = std::move(finder.shown);
  art->list =
      job::list_pictures(*shown.sight.world, shown.game, art->shown, *shown.materials->shelf);
  return art;
}

}  // namespace

const job::ListedPicture* ArtList::find(const std::string& file) const {
  const auto one = std::ranges::find(list.pictures, file, &job::ListedPicture::file);
  return one == list.pictures.end() ? nullptr : &*one;
}

ArtBench::ArtBench() : run_(new_token().substr(0, 8)) {}

std::string ArtBench::keep(MadeOfPicture made) {
  std::size_t bytes = 0;
  for (const job::NewPicture& one : made.made.pictures) bytes += one.bytes.size();
  const std::lock_guard lock(mutex_);
  const std::string name = fmt::format("{}-{}", run_, next_++);
  kept_.push_back({name, std::make_shared<const MadeOfPicture>(std::move(made)), bytes});
  bytes_ += bytes;
  while (kept_.size() > 1 && (kept_.size() > most_made || bytes_ > most_bytes_made)) {
    bytes_ -= kept_.front().bytes;
    kept_.pop_front();
  }
  return name;
}

std::shared_ptr<const MadeOfPicture> ArtBench::find(const std::string& name) const {
  const std::lock_guard lock(mutex_);
  const auto one = std::ranges::find(kept_, name, &Kept::name);
  return one == kept_.end() ? nullptr : one->made;
}

void ArtBench::remember(const std::string& key, std::vector<job::PicturedCard> cards) {
  const std::lock_guard lock(mutex_);
  std::erase_if(cards_, [&](const auto& one) { return one.first == key; });
  cards_.emplace_back(key, std::move(cards));
  if (cards_.size() > most_pictures_with_cards) cards_.pop_front();
}

std::vector<job::PicturedCard> ArtBench::cards_in(const std::string& key) const {
  const std::lock_guard lock(mutex_);
  const auto one = std::ranges::find(cards_, key, [](const auto& kept) { return kept.first; });
  return one == cards_.end() ? std::vector<job::PicturedCard>{} : one->second;
}

std::shared_ptr<const ArtList> ArtBench::list(const std::shared_ptr<const Snapshot>& shown) {
  const std::lock_guard lock(list_mutex_);
  if (!list_ || !listed_ || listed_->revision != shown->revision) {
    list_ = pictures_of(*shown);
    listed_ = shown;
  }
  return list_;
}

std::optional<ArtBench::Turn> ArtBench::turn(const std::string& work) {
  std::unique_lock lock(turns_mutex_);
  const std::uint64_t mine = ++newest_[work];
  turns_.notify_all();
  turns_.wait(lock, [&] { return at_work_ < most_at_work() || newest_[work] != mine; });
  if (newest_[work] != mine) return std::nullopt;
  ++at_work_;
  return Turn(*this);
}

ArtBench::Turn::~Turn() {
  if (bench_ == nullptr) return;
  {
    const std::lock_guard lock(bench_->turns_mutex_);
    --bench_->at_work_;
  }
  bench_->turns_.notify_all();
}

}  // namespace quoin::desk
