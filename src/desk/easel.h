#pragma once
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <thread>
#include <unordered_map>
#include <vector>

#include "desk/faces.h"

namespace quoin::desk {

/// What a drawing thread lends to whoever draws on it.
struct Tools {
  PictureShelf& shelf;
  Typesetter& typesetter;
};

/// Draws pictures on threads of its own, one for each core, and keeps them in memory: each is drawn
/// once, however many ask for it. What a page waits for goes before what is drawn ahead.
class Easel {
 public:
  using Draw = std::function<Bytes(const Tools&)>;

  /// `most_bytes` of pictures are kept; the ones not asked for longest go first.
  explicit Easel(std::size_t most_bytes);
  /// Drops what was not begun yet; whoever waits for it gets null.
  ~Easel();
  Easel(const Easel&) = delete;
  Easel& operator=(const Easel&) = delete;

  /// The picture of that name, drawn now unless it is kept. Null when `draw` threw or the easel is
  /// put away.
  [[nodiscard]] std::shared_ptr<const Bytes> picture(
      const std::string& name, const std::shared_ptr<const Materials>& materials, Draw draw);
  /// Has it drawn when there is nothing better to do. Earlier ones that were not begun are
  /// dropped with `forget_ahead`.
  void draw_ahead(const std::string& name, const std::shared_ptr<const Materials>& materials,
                  Draw draw);
  void forget_ahead();

  /// What is kept, in bytes.
  [[nodiscard]] std::size_t kept_bytes() const;

 private:
  struct Order {
    std::string name;
    std::shared_ptr<const Materials> materials;
    Draw draw;
    std::shared_ptr<const Bytes> picture;
    bool is_done = false;
  };
  struct Kept {
    std::shared_ptr<const Bytes> picture;
    std::list<std::string>::iterator age;
  };
  void work();
  void keep(const std::string& name, std::shared_ptr<const Bytes> picture);
  [[nodiscard]] std::shared_ptr<const Bytes> find(const std::string& name);
  std::shared_ptr<Order> order(const std::string& name,
                               const std::shared_ptr<const Materials>& materials, Draw draw,
                               std::deque<std::shared_ptr<Order>>& queue);

  const std::size_t most_bytes_;
  mutable std::mutex mutex_;
  std::condition_variable more_, done_;
  std::deque<std::shared_ptr<Order>> asked_, ahead_;
  std::map<std::string, std::shared_ptr<Order>> open_;  // asked for, ahead or being drawn
  std::unordered_map<std::string, Kept> kept_;
  std::list<std::string> ages_;  // the oldest first
  std::size_t bytes_ = 0;
  bool is_ending_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace quoin::desk
