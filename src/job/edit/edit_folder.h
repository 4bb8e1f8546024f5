#pragma once
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <system_error>

#include "job/edit/editor.h"

namespace quoin::job {

// What the tests of the editor share.

/// A game folder on the disk that goes with its test.
class EditFolder {
 public:
  explicit EditFolder(const std::string& name) {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("quoin-edit-" + name + std::to_string(++count) + "-" + std::to_string(::getpid()));
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_ / "layouts");
    write("game.toml", "[game]\ntitle = \"Wrack\" # ours\n\n[card]\nsize = 'poker'\n");
    write("cards.csv", "id,name\na,Adder\nb,Boar\n");
    write("layouts/face.toml",
          "[[element]]\nid = \"name\"\nat = [1, 2]\n\n[[element]]\nid = \"art\"\n");
  }
  ~EditFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  EditFolder(const EditFolder&) = delete;
  EditFolder& operator=(const EditFolder&) = delete;

  void write(const std::string& file, const std::string& text) const {
    std::ofstream(path_ / file, std::ios::binary) << text;
  }
  [[nodiscard]] std::string read(const std::string& file) const {
    std::ifstream in(path_ / file, std::ios::binary);
    std::ostringstream all;
    all << in.rdbuf();
    return all.str();
  }
  [[nodiscard]] std::filesystem::path path(const std::string& file = "") const {
    return file.empty() ? path_ : path_ / file;
  }
  /// All files but those of the journal, with their texts.
  [[nodiscard]] std::map<std::string, std::string> all() const {
    std::map<std::string, std::string> texts;
    for (const auto& each : std::filesystem::recursive_directory_iterator(path_)) {
      const std::string name = each.path().lexically_relative(path_).generic_string();
      if (each.is_regular_file() && !name.starts_with(".quoin/")) texts[name] = read(name);
    }
    return texts;
  }

 private:
  std::filesystem::path path_;
};

inline game::Change set_title(const std::string& title) {
  return game::SetValue{"game.toml", {"game", "title"}, game::Node{{}, title}};
}

inline game::Change set_name(int row, const std::string& id, const std::string& name) {
  return game::SetCell{"cards.csv", static_cast<std::size_t>(row), id, "name", name};
}

inline game::Change set_at(double x) {
  return game::SetValue{
      "layouts/face.toml", {"element", std::size_t{0}, "at", std::size_t{0}}, game::Node{{}, x}};
}

inline Edit edit_of(std::string label, std::vector<game::Change> changes, std::string group = {}) {
  return {std::move(label), std::move(group), Edit::Kind::kept, std::move(changes)};
}

inline Edit passing(std::vector<game::Change> changes) {
  return {"drag", "", Edit::Kind::passing, std::move(changes)};
}

inline std::string words_of_state(EditAnswer::State state) {
  switch (state) {
    case EditAnswer::State::done:
      return "done";
    case EditAnswer::State::conflict:
      return "conflict";
    case EditAnswer::State::waiting:
      return "waiting";
    case EditAnswer::State::refused:
      return "refused";
  }
  return "";
}

/// "done: move the name", then the messages.
inline std::string words_of(const EditAnswer& answer) {
  std::string words = words_of_state(answer.state) + ": " + answer.label;
  for (const Diagnostic& each : answer.found) {
    words += "; " + to_string(each.origin) + ": " + each.message + " [" +
             std::string(facts(each.id).name) + "]";
  }
  return words;
}

}  // namespace quoin::job
