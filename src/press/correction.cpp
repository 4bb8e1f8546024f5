#include "press/correction.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "game/words.h"

namespace quoin::press {
namespace {

Affine inverted(const Affine& map) {
  const std::optional<Affine> back = inverse(map);
  if (!back) throw std::logic_error("a printer's map flattens the page");
  return *back;
}

std::string size_words(Size size) {
  return fmt::format("{} x {} mm", game::number_text(size.width.value),
                     game::number_text(size.height.value));
}

bool both_sides(const SheetRun& run) {
  return run.backs == game::BackPrinting::printer || run.backs == game::BackPrinting::by_hand;
}

std::string_view edge_words(game::FlipEdge flip) {
  return flip == game::FlipEdge::long_edge ? "long edge" : "short edge";
}

std::string_view backs_words(game::BackPrinting backs) {
  return backs == game::BackPrinting::by_hand ? "by hand" : "by the printer";
}

Diagnostic differs(const SheetRun& run, std::string message) {
  Diagnostic found(Id::press_measured_otherwise, run.origin, std::move(message));
  return found.detail("fronts and backs are printed as if it had not been measured");
}

}  // namespace

Correction correction(const Profile& profile, Size paper, const Affine& behind) {
  const Point centre{paper.width / 2, paper.height / 2};
  Parts size;
  size.scale_x = profile.scale_x;
  size.scale_y = profile.scale_y;
  const Affine front = inverted(map_of(size, centre));
  const Affine register_back = inverted(map_of(profile.back, centre));
  return {front, then(then(then(behind, front), register_back), behind)};
}

Landing landing(const Profile& profile, Size paper, const Affine& behind) {
  const Point centre{paper.width / 2, paper.height / 2};
  Parts size;
  size.scale_x = profile.scale_x;
  size.scale_y = profile.scale_y;
  const Affine front = map_of(size, centre);
  const Affine register_back = map_of(profile.back, centre);
  return {front, then(then(then(behind, register_back), front), behind)};
}

Diagnostics differences(const Profile& profile, const SheetRun& run) {
  Diagnostics found;
  if (!nearly_equal(profile.paper, run.paper)) {
    found.push_back(
        differs(run, fmt::format("{} was measured on paper of {}, and these sheets "
                                 "are {}",
                                 profile.id, size_words(profile.paper), size_words(run.paper)))
            .hint(fmt::format("measure it on this paper: quoin printer sheet --paper "
                              "{}x{}",
                              game::number_text(run.paper.width.value),
                              game::number_text(run.paper.height.value))));
  }
  if (!both_sides(run)) return found;
  if (profile.backs != run.backs) {
    found.push_back(
        differs(run, fmt::format("{} was measured with sheets turned {}, and these are turned {}",
                                 profile.id, backs_words(profile.backs), backs_words(run.backs)))
            .hint(
                fmt::format("write backs = \"{}\" under [sheets], or measure it again",
                            profile.backs == game::BackPrinting::by_hand ? "by-hand" : "printer")));
  }
  if (profile.flip != run.flip) {
    found.push_back(
        differs(run, fmt::format("{} turned its sheets about the {}, and these are turned about "
                                 "the {}",
                                 profile.id, edge_words(profile.flip), edge_words(run.flip)))
            .hint(fmt::format(
                "write flip = \"{}\" under [sheets], or measure it again",
                profile.flip == game::FlipEdge::long_edge ? "long-edge" : "short-edge")));
  }
  return found;
}

Spread usual_spread(game::PrinterKind kind, game::BackPrinting backs) {
  if (kind == game::PrinterKind::copy_shop) return {Mm{0.25}, Mm{0.25}, Angle::degrees(0.05)};
  if (backs == game::BackPrinting::by_hand) return {Mm{1}, Mm{1}, Angle::degrees(0.25)};
  if (kind == game::PrinterKind::inkjet) return {Mm{0.75}, Mm{1}, Angle::degrees(0.2)};
  return {Mm{0.75}, Mm{0.75}, Angle::degrees(0.15)};
}

Mm usual_feed(game::PrinterKind kind) {
  if (kind == game::PrinterKind::copy_shop) return Mm{0.1};
  return kind == game::PrinterKind::inkjet ? Mm{0.25} : Mm{0.2};
}

Mm reach_of(const Spread& spread, Mm arm, std::optional<Mm> within) {
  const double shift = std::max(spread.shift_x, spread.shift_y).value;
  const double turn = spread.turn.radians * arm.value;
  return Mm{1.96 * std::hypot(shift, turn)} + within.value_or(Mm{});
}

}  // namespace quoin::press
