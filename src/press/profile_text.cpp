#include <fmt/format.h>

#include <cmath>

#include "game/edit/toml_write.h"
#include "game/words.h"
#include "press/profile.h"

namespace quoin::press {
namespace {

/// To 1e-6, without superfluous zeros and never "-0".
std::string rounded(double value) {
  const double whole = std::round(value * 1e6) / 1e6;
  return game::number_text(whole == 0 ? 0 : whole);
}

std::string quoted(const std::string& text) { return game::toml_value({{}, text}, "\"\"", "\n"); }

std::string pair(double a, double b) { return fmt::format("[{}, {}]", rounded(a), rounded(b)); }

std::string_view how_word(Measured how) {
  return how == Measured::eye ? "eye" : how == Measured::scans ? "scans" : "typed";
}

std::string machine_lines(const Profile& p) {
  std::string text = fmt::format("name = {}\n", quoted(p.name));
  if (!p.tray.empty()) text += fmt::format("tray = {}\n", quoted(p.tray));
  if (!p.stock.empty()) text += fmt::format("stock = {}\n", quoted(p.stock));
  if (!p.measured.empty()) text += fmt::format("measured = {}\n", p.measured);
  text += fmt::format("how = \"{}\"\n", how_word(p.how));
  text += fmt::format("paper = {}\n", quoted(p.paper_name));
  text += fmt::format("backs = \"{}\"\n",
                      p.backs == game::BackPrinting::by_hand ? "by-hand" : "printer");
  text += fmt::format("flip = \"{}\"\n",
                      p.flip == game::FlipEdge::short_edge ? "short-edge" : "long-edge");
  if (p.pile) {
    text +=
        fmt::format("pile = \"{}\"\n", *p.pile == game::Pile::face_up ? "face-up" : "face-down");
  }
  if (p.margin) {
    text += fmt::format("margin = [{}, {}, {}, {}]  # top, right, bottom, left\n",
                        rounded(p.margin->top.value), rounded(p.margin->right.value),
                        rounded(p.margin->bottom.value), rounded(p.margin->left.value));
  }
  if (p.heaviest) text += fmt::format("heaviest = {}  # g/m²\n", rounded(*p.heaviest));
  text += fmt::format("sheets = {}\n", p.sheets);
  if (p.within) {
    text += fmt::format("within = {}  # mm, at the worst corner, 95 in 100\n",
                        rounded(p.within->value));
  }
  return text;
}

std::string map_lines(const Profile& p) {
  return fmt::format(
      "\n[front]\nscale = {}\n"
      "\n[back]  # seen from the front against the light, about the middle of the sheet\n"
      "shift = {}  # mm to the right, mm down\n"
      "turn = {}  # degrees clockwise\n"
      "scale = {}\n"
      "skew = {}  # degrees\n"
      "\n[spread]  # from sheet to sheet; cannot be corrected\n"
      "shift = {}  # mm\n"
      "turn = {}  # degrees\n",
      pair(p.scale_x, p.scale_y), pair(p.back.shift.x.value, p.back.shift.y.value),
      rounded(p.back.turn.in_degrees()), pair(p.back.scale_x, p.back.scale_y),
      rounded(p.back.skew.in_degrees()), pair(p.spread.shift_x.value, p.spread.shift_y.value),
      rounded(p.spread.turn.in_degrees()));
}

}  // namespace

Bytes profile_text(const Profile& profile) {
  return "# A printer as Quoin measured it. Any game can use it: profile = \"" + profile.id +
         "\" under [printer].\n" + machine_lines(profile) + map_lines(profile);
}

}  // namespace quoin::press
