#include <fmt/format.h>

#include <fstream>
#include <stdexcept>
#include <string_view>

#include "folders.h"

namespace quoin::bench {
namespace {

constexpr std::string_view game_toml = R"([game]
title = "Measured"
language = "en"

[card]
size = "63.5x88.9"
corner = 3.5
bleed = 3
safe = 3

[fonts]
files = ["fonts"]

[styles.name]
font = "Lato"
weight = "bold"
type = 12

[styles.rule]
font = "Vollkorn"
type = 8.5

[styles.saying]
font = "EB Garamond"
type = 8

[decks.main]
back = "layouts/back.toml"

[[layouts]]
file = "layouts/face.toml"

[sheets]
paper = "A4"
)";

constexpr std::string_view face_toml = R"([[element]]
id = "ground"
kind = "shape"
shape = "rectangle"
inset = "bleed"
role = "decoration"
fill = { kind = "linear", from = [0, 0], to = [0, 1], stops = [["#f4e7c8", 0], ["#9fc0c4", 1]] }

[[element]]
id = "picture"
kind = "picture"
picture = "art/{art}"
at = [5, 14]
size = [53.5, 40]
fit = "cover"

[[element]]
id = "frame"
kind = "shape"
shape = "rectangle"
inset = 4
radius = 2
role = "decoration"
fill = "none"
stroke = { colour = "#1d2b33", width = 0.4 }

[[element]]
id = "icon"
kind = "picture"
picture = "art/{icon}"
at = [5.5, 5.5]
size = [8, 8]

[[element]]
id = "name"
kind = "text"
style = "name"
text = "{name}"
at = [15, 5.5]
size = [43, 8]
valign = "middle"
colour = "#1d2b33"

[[element]]
id = "rule"
kind = "text"
style = "rule"
text = "{rule}"
at = [6, 56]
size = [51.5, 20]
colour = "#1d2b33"

[[element]]
id = "saying"
kind = "text"
style = "saying"
text = "{saying}"
at = [6, 77]
size = [51.5, 7]
align = "centre"
colour = "#1d2b33"
)";

constexpr std::string_view back_toml = R"([[element]]
id = "ground"
kind = "shape"
shape = "rectangle"
inset = "bleed"
role = "decoration"
fill = { kind = "linear", from = [0, 0], to = [0, 1], stops = [["#23454f", 0], ["#23454f", 1]] }
)";

void write_text(const std::filesystem::path& file, std::string_view text) {
  std::ofstream out(file, std::ios::binary);
  out << text;
  out.close();
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

[[nodiscard]] std::string card_list(const std::vector<Face>& all) {
  std::string text = "id,name,rule,saying,art,icon\n";
  for (const Face& f : all) {
    text += fmt::format("{},{},{},{},{},{}\n", f.id, f.name, f.rule, f.saying, f.picture, f.icon);
  }
  return text;
}

}  // namespace

void write_game(const std::filesystem::path& folder, const std::vector<Face>& all) {
  std::filesystem::create_directories(folder / "layouts");
  std::filesystem::create_directories(folder / "fonts");
  write_art(folder / "art");
  write_text(folder / "game.toml", game_toml);
  write_text(folder / "layouts/face.toml", face_toml);
  write_text(folder / "layouts/back.toml", back_toml);
  write_text(folder / "cards.csv", card_list(all));
}

}  // namespace quoin::bench
