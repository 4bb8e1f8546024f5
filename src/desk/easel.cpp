#include "desk/easel.h"

#include <algorithm>
#include <exception>

namespace quoin::desk {

Easel::Easel(std::size_t most_bytes) : most_bytes_(most_bytes) {
  const unsigned cores = std::clamp(std::thread::hardware_concurrency(), 2U, 16U);
  for (unsigned i = 0; i < cores; ++i) threads_.emplace_back([this] { work(); });
}

Easel::~Easel() {
  {
    const std::lock_guard lock(mutex_);
    is_ending_ = true;
    for (auto* queue : {&asked_, &ahead_}) {
      for (const auto& order : *queue) order->is_done = true;
      queue->clear();
    }
  }
  more_.notify_all();
  done_.notify_all();
  for (std::thread& thread : threads_) thread.join();
}

std::size_t Easel::kept_bytes() const {
  const std::lock_guard lock(mutex_);
  return bytes_;
}

std::shared_ptr<const Bytes> Easel::find(const std::string& name) {
  const auto found = kept_.find(name);
  if (found == kept_.end()) return nullptr;
  ages_.splice(ages_.end(), ages_, found->second.age);
  return found->second.picture;
}

void Easel::keep(const std::string& name, std::shared_ptr<const Bytes> picture) {
  if (kept_.contains(name)) return;
  bytes_ += picture->size();
  kept_[name] = {std::move(picture), ages_.insert(ages_.end(), name)};
  while (bytes_ > most_bytes_ && ages_.size() > 1) {
    const auto oldest = kept_.find(ages_.front());
    bytes_ -= oldest->second.picture->size();
    kept_.erase(oldest);
    ages_.pop_front();
  }
}

std::shared_ptr<Easel::Order> Easel::order(const std::string& name,
                                           const std::shared_ptr<const Materials>& materials,
                                           Draw draw, std::deque<std::shared_ptr<Order>>& queue) {
  std::shared_ptr<Order>& open = open_[name];
  const bool is_new = open == nullptr;
  if (is_new) open = std::make_shared<Order>(Order{name, materials, std::move(draw), {}, false});
  const auto waits_ahead = std::find(ahead_.begin(), ahead_.end(), open);
  const bool goes_before = &queue == &asked_ && waits_ahead != ahead_.end();
  if (goes_before) ahead_.erase(waits_ahead);
  if (is_new || goes_before) queue.push_back(open);
  return open;
}

std::shared_ptr<const Bytes> Easel::picture(const std::string& name,
                                            const std::shared_ptr<const Materials>& materials,
                                            Draw draw) {
  std::unique_lock lock(mutex_);
  if (auto kept = find(name)) return kept;
  if (is_ending_) return nullptr;
  const std::shared_ptr<Order> mine = order(name, materials, std::move(draw), asked_);
  more_.notify_one();
  done_.wait(lock, [&] { return mine->is_done; });
  return mine->picture;
}

void Easel::draw_ahead(const std::string& name, const std::shared_ptr<const Materials>& materials,
                       Draw draw) {
  const std::lock_guard lock(mutex_);
  if (kept_.contains(name)) return;
  (void)order(name, materials, std::move(draw), ahead_);
  more_.notify_one();
}

void Easel::forget_ahead() {
  const std::lock_guard lock(mutex_);
  for (const auto& dropped : ahead_) open_.erase(dropped->name);
  ahead_.clear();
}

void Easel::work() {
  std::string fonts_name;
  std::optional<Typesetter> typesetter;
  std::unique_lock lock(mutex_);
  for (;;) {
    more_.wait(lock, [&] { return is_ending_ || !asked_.empty() || !ahead_.empty(); });
    if (is_ending_) return;
    auto& queue = asked_.empty() ? ahead_ : asked_;
    const std::shared_ptr<Order> order = queue.front();
    queue.pop_front();
    lock.unlock();
    std::shared_ptr<const Bytes> picture;
    try {
      if (!typesetter || fonts_name != order->materials->fonts_name) {
        typesetter.emplace(*order->materials->fonts);
        fonts_name = order->materials->fonts_name;
      }
      picture =
          std::make_shared<const Bytes>(order->draw(Tools{*order->materials->shelf, *typesetter}));
    } catch (const std::exception&) {  // the asker is told by a null; the thread goes on
    }
    lock.lock();
    order->picture = picture;
    order->is_done = true;
    if (picture) keep(order->name, picture);
    open_.erase(order->name);
    done_.notify_all();
  }
}

}  // namespace quoin::desk
