#include "desk/desk.h"

#include <fmt/format.h>

#include <filesystem>

#include "desk/routes.h"

namespace quoin::desk {
namespace fs = std::filesystem;

struct Desk::State {
  explicit State(const DeskWishes& wishes)
      : session(wishes.folder, wishes.cache_folder, wishes.printers_folder),
        workbench(wishes.folder, wishes.cache_folder, wishes.printers_folder, session.events()),
        room{session, workbench, tray, tray_mutex, art, wishes.show_outside} {}

  Session session;
  Workbench workbench;
  PictureTray tray;
  std::mutex tray_mutex;
  ArtBench art;
  Room room;
  std::unique_ptr<Server> server;  // last: ends before what it answers from
};

std::variant<std::unique_ptr<Desk>, Refusal> Desk::open(const DeskWishes& wishes) {
  std::error_code fault;
  fs::create_directories(wishes.folder, fault);
  if (!fs::is_directory(wishes.folder, fault)) {
    return Refusal{404, fmt::format("{} is not a folder, and cannot be made one", wishes.folder),
                   "name the folder of a game, or of one to be made"};
  }
  DeskWishes settled = wishes;
  settled.folder = fs::canonical(wishes.folder, fault).string();
  auto state = std::make_unique<State>(settled);
  Room& room = state->room;
  state->server = Server::open(
      wishes.port, new_token(), [&room](const Asked& asked) { return answer_to(room, asked); },
      wishes.limits);
  if (!state->server) {
    return Refusal{409, fmt::format("port {} is taken", wishes.port),
                   "leave out --port, and a free one is found"};
  }
  return std::unique_ptr<Desk>(new Desk(std::move(state)));
}

Desk::Desk(std::unique_ptr<State> state) : state_(std::move(state)) {}

Desk::~Desk() {
  state_->session.close();
  state_->server.reset();
}

std::string Desk::address() const {
  return fmt::format("http://127.0.0.1:{}/#{}", port(), token());
}

int Desk::port() const { return state_->server->identity().port; }
const std::string& Desk::token() const { return state_->server->identity().token; }

}  // namespace quoin::desk
