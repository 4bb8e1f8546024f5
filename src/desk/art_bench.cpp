#include "desk/art_bench.h"

#include <fmt/format.h>

#include "job/job.h"

namespace quoin::desk {
namespace {

constexpr std::size_t most_kept = 32, most_kept_bytes = 64'000'000;

class Patient : public job::Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

}  // namespace

std::string ArtBench::keep(MadeOfPicture made) {
  std::size_t bytes = made.difference.size();
  for (const job::NewPicture& one : made.pictures) bytes += one.bytes.size();
  const std::lock_guard lock(mutex_);
  std::string name = fmt::format("made-{}", next_++);
  kept_.push_back({name, std::make_shared<const MadeOfPicture>(std::move(made)), bytes});
  bytes_ += bytes;
  while (kept_.size() > 1 && (kept_.size() > most_kept || bytes_ > most_kept_bytes)) {
    bytes_ -= kept_.front().bytes;
    kept_.pop_front();
  }
  return name;
}

std::shared_ptr<const MadeOfPicture> ArtBench::find(const std::string& name) const {
  const std::lock_guard lock(mutex_);
  for (const Kept& one : kept_) {
    if (one.name == name) return one.made;
  }
  return nullptr;
}

std::shared_ptr<const job::PictureList> ArtBench::list(const std::shared_ptr<const World>& world) {
  const std::lock_guard lock(list_mutex_);
  if (listed_ == world) return list_;
  Patient patient;
  list_ = std::make_shared<const job::PictureList>(job::list_pictures(*world, patient));
  listed_ = world;
  return list_;
}

}  // namespace quoin::desk
