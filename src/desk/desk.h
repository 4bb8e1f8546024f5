#pragma once
#include <functional>
#include <memory>
#include <string>
#include <variant>

#include "desk/http/server.h"

namespace quoin::desk {

/// How a desk is set up.
struct DeskWishes {
  std::string folder;                ///< of the game; made when missing
  std::string cache_folder;          ///< for what is kept between runs, "" for nothing
  std::string printers_folder = {};  ///< printers of this machine, "" for none
  int port = 0;                      ///< 0: a free one
  /// Shows a file or folder with the system's own program; false when it cannot.
  std::function<bool(const std::string& path)> show_outside;
  ServerLimits limits = {};
};

/// The desk: one game served to a page in the browser, until it is destroyed.
class Desk {
 public:
  /// A running desk, or why there is none: the folder is a file or cannot be made, the port is
  /// taken.
  [[nodiscard]] static std::variant<std::unique_ptr<Desk>, Refusal> open(const DeskWishes& wishes);
  ~Desk();
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  /// What to open in a browser; whoever has it may change the game.
  [[nodiscard]] std::string address() const;
  [[nodiscard]] int port() const;
  [[nodiscard]] const std::string& token() const;

 private:
  struct State;
  explicit Desk(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace quoin::desk
