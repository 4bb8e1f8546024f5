#pragma once
#include <fmt/format.h>
#include <stdlib.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <thread>

#include "desk/api/types.h"
#include "desk/desk.h"
#include "desk/http/raw_client.h"

namespace quoin::desk {

/// A desk on a folder that goes with its test, and what a page would ask it. What a test takes for
/// granted throws when it is not so.
class DeskOnAFolder {
 protected:
  DeskOnAFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "quoin-desk-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    folder_ = root_ / "reef";
  }
  ~DeskOnAFolder() {
    desk_.reset();
    std::error_code ignored;
    std::filesystem::remove_all(root_, ignored);
  }
  DeskOnAFolder(const DeskOnAFolder&) = delete;
  DeskOnAFolder& operator=(const DeskOnAFolder&) = delete;

  void put(const std::string& path, const std::string& text) const {
    std::filesystem::create_directories((folder_ / path).parent_path());
    std::ofstream(folder_ / path, std::ios::binary) << text;
  }
  [[nodiscard]] std::string text_of(const std::string& path) const {
    std::ifstream in(folder_ / path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
  }

  void small_game() const {
    put("game.toml",
        "[game]\ntitle = \"Reef\"\n[card]\nsize = \"poker\"\ncorner = 3\n[sheets]\ngrid = \"3x3\"\n"
        "orientation = \"portrait\"\n[stock]\ngrammage = 300\n"
        "[suits.weed]\nname = \"Weed\"\ncolour = \"#226633\"\n"
        "[decks.main]\nname = \"All\"\nback = \"layouts/back.toml\"\n"
        "[[layouts]]\nfile = \"layouts/face.toml\"\n[box]\nkind = \"tuck\"\n");
    put("layouts/face.toml",
        "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#e8e0d0\"\n"
        "[[element]]\nid = \"name\"\nkind = \"text\"\ntext = \"{name}\"\ntype = 12\n"
        "at = [8, 10]\nsize = [47, 10]\n");
    put("layouts/back.toml",
        "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#204060\"\n");
    put("cards.csv", "id,name,suit,copies\na,Adder,weed,20\nb,Boar,,20\nc,Cod,weed,0\n");
  }

  void open() {
    DeskWishes wishes;
    wishes.folder = folder_.string();
    wishes.printers_folder = printers_folder_;
    wishes.show_outside = [this](const std::string& path) {
      shown_outside_ = path;
      return true;
    };
    auto opened = Desk::open(wishes);
    if (const auto* refusal = std::get_if<Refusal>(&opened)) {
      throw std::runtime_error(refusal->message);
    }
    desk_ = std::move(std::get<std::unique_ptr<Desk>>(opened));
  }

  [[nodiscard]] Reply ask(std::string_view method, const std::string& target,
                          std::string_view body = {}, std::string_view more = {}) const {
    RawClient client(desk_->port());
    const std::string length =
        method == "POST" ? fmt::format("Content-Length: {}\r\n", body.size()) : "";
    client.send(fmt::format("{} {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nX-Quoin-Token: {}\r\n{}{}\r\n",
                            method, target, desk_->port(), desk_->token(), length, more));
    client.send(body);
    return client.receive(60'000);
  }
  [[nodiscard]] Reply get(const std::string& target) const { return ask("GET", target); }

  /// What was answered, which must be of that type.
  [[nodiscard]] Json json(const Reply& reply, std::string_view type) const {
    const std::optional<Json> json = read_json(reply.body);
    if (!json) throw std::runtime_error("no JSON: " + reply.head + reply.body);
    const auto fault = fault_in(*json, type);
    if (fault) throw std::runtime_error(*fault + " in " + reply.head + reply.body);
    return *json;
  }
  [[nodiscard]] Json state() const { return json(get("/api/state"), "State"); }

  template <typename Is>
  [[nodiscard]] Json state_when(const Is& is) const {
    Json now = state();
    for (int i = 0; i < 600 && !is(now); ++i) {
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
      now = state();
    }
    if (!is(now)) throw std::runtime_error("it never came about: " + now.dump());
    return now;
  }
  [[nodiscard]] Json checked_state() const {
    return state_when([](const Json& now) { return now["checked"] == true; });
  }

  std::filesystem::path root_, folder_;
  std::string printers_folder_;  ///< of the machine; none unless a test says so
  std::string shown_outside_;
  std::unique_ptr<Desk> desk_;
};

}  // namespace quoin::desk
