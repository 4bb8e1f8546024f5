#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "pieces/box/check_box.h"

namespace quoin::pieces {
namespace {

// What can be folded by hand; limits of ours, no source.
constexpr int most_cards = 1000;
constexpr Mm smallest_card{20}, largest_card{300};
constexpr Mm thickest_pile{300}, thickest_board{1.5}, smallest_room{15};

Diagnostic impossible(const Origin& where, std::string message) {
  return {Id::box_impossible_size, where, std::move(message)};
}

void check_count(const Contents& contents, const game::BoxWishes& wishes, Diagnostics& found) {
  if (contents.cards >= 1 && contents.cards <= most_cards) return;
  Diagnostic problem =
      impossible(wishes.origin, fmt::format("a box for {} cards cannot be made; 1 to {} cards can",
                                            contents.cards, most_cards));
  found.push_back(contents.cards < 1 ? problem.hint("give a row of cards.csv one copy or more")
                                     : problem.hint("put the deck into several boxes"));
}

void check_card(const Contents& contents, const game::BoxWishes& wishes, Diagnostics& found) {
  const Size face =
      wishes.sleeves ? Size{(*wishes.sleeves)[0], (*wishes.sleeves)[1]} : contents.card;
  const char* what = wishes.sleeves ? "sleeves" : "cards";
  for (const auto& [length, side] : {std::pair{face.width, "width"}, {face.height, "height"}}) {
    if (length >= smallest_card && length <= largest_card) continue;
    Diagnostic problem = impossible(
        wishes.place(wishes.sleeves ? "sleeves" : ""),
        fmt::format("the {} have a {} of {}; a box can be made for {} to {} mm", what, side,
                    length_words(length), smallest_card.value, largest_card.value));
    found.push_back(problem.hint("give widths and heights in millimetres"));
  }
  if (wishes.sleeves && (face.width < contents.card.width || face.height < contents.card.height)) {
    Diagnostic problem = impossible(
        wishes.place("sleeves"),
        fmt::format("the sleeves are {} by {}, smaller than the cards of {} by {}",
                    length_words(face.width), length_words(face.height),
                    length_words(contents.card.width), length_words(contents.card.height)));
    found.push_back(problem.hint("write the outer size of a sleeve, then what it adds to a card"));
  }
}

void check_pile(const Contents& contents, const game::BoxWishes& wishes, Diagnostics& found) {
  const Mm height = deck_of(contents, wishes).value.height.high;
  if (height <= thickest_pile) return;
  Diagnostic problem = impossible(
      wishes.place("pile"), fmt::format("the deck is up to {} high; a box can be made for {} mm",
                                        length_words(height), thickest_pile.value));
  found.push_back(
      problem.hint("check the thickness of a card, or put the deck into several boxes"));
}

/// A flap that the maker may have asked for by its key.
struct FlapLength {
  const char* key;
  const char* name;
  Mm length;
};

std::vector<FlapLength> flaps_of(const BoxPlan& plan, const BoxKind& kind) {
  if (kind.word == "tuck") {
    return {{"glue-flap", "the glue flap", plan.glue_flap},
            {"tuck", "the tuck flap", plan.tuck},
            {"dust-flap", "the dust flap", plan.dust_flap}};
  }
  if (kind.word == "lid") {
    return {{"glue-flap", "the corner tab", plan.glue_flap},
            {"lid-height", "the wall of the lid", plan.lid_height}};
  }
  return {{"glue-flap", "the glue flap", plan.glue_flap}};
}

void check_flaps(const BoxPlan& plan, const BoxKind& kind, const game::BoxWishes& wishes,
                 Diagnostics& found) {
  for (const FlapLength& flap : flaps_of(plan, kind)) {
    if (flap.length > plan.board) continue;
    Diagnostic problem(Id::box_caliper_exceeds_flap, wishes.place(flap.key),
                       fmt::format("{} is {} long and the board {} thick", flap.name,
                                   length_words(flap.length), length_words(plan.board)));
    found.push_back(problem.hint(fmt::format("write {} = {:.0f}, or take thinner board", flap.key,
                                             std::max(8.0, std::ceil(plan.board.value * 10)))));
  }
}

void check_room(const BoxPlan& plan, const BoxKind& kind, const game::BoxWishes& wishes,
                Diagnostics& found) {
  const Mm across = smallest_room + plan.board * 6;
  const std::array rooms = {std::tuple{plan.inside.width, across, "wide"},
                            std::tuple{plan.inside.height, across, "high"},
                            std::tuple{plan.inside.depth, kind.least_depth(plan), "deep"}};
  for (const auto& [room, least, way] : rooms) {
    if (room >= least) continue;
    Diagnostic problem =
        impossible(wishes.place("inside"),
                   fmt::format("the box is {} {} inside; with this board it needs {} at least",
                               length_words(room), way, length_words(least)));
    found.push_back(problem.hint("leave inside out: the box then follows the deck"));
  }
}

void check_notch(const BoxPlan& plan, const game::BoxWishes& wishes, Diagnostics& found) {
  const Mm most = std::min(plan.inside.width, plan.inside.height) / 2 - Mm{2};
  if (plan.notch <= most) return;
  Diagnostic problem =
      impossible(wishes.place("notch"),
                 fmt::format("the thumb notch has a radius of {}; on this box it can have {}",
                             length_words(plan.notch), length_words(most)));
  found.push_back(problem.hint("write notch = 9, or leave it out"));
}

void check_tuck(const BoxPlan& plan, const game::BoxWishes& wishes, Diagnostics& found) {
  const Mm lid = plan.inside.depth - plan.tuck_play;
  // Three times the lid is 172 degrees of its swing: the lid lies back as far as it can.
  const Mm most = std::min(lid * 3, plan.inside.height - Mm{1});
  if (plan.tuck <= most + epsilon) return;
  Diagnostic problem(Id::box_cannot_close, wishes.place("tuck"),
                     fmt::format("a tuck flap of {} does not go into this box; one of {} does",
                                 length_words(plan.tuck), length_words(most)));
  problem.detail(
      fmt::format("it is bent to the swing of the lid, which is {} long", length_words(lid)));
  found.push_back(
      problem.hint(fmt::format("write tuck = {:.0f}, or leave it out", std::floor(most.value))));
}

}  // namespace

Diagnostics contents_problems(const Contents& contents, const game::BoxWishes& wishes, Mm board) {
  Diagnostics found;
  check_count(contents, wishes, found);
  check_card(contents, wishes, found);
  if (found.empty()) check_pile(contents, wishes, found);
  if (board <= thickest_board && board >= Mm{0.05}) return found;
  Diagnostic problem =
      impossible(wishes.place(wishes.board.caliper ? "caliper" : "grammage"),
                 fmt::format("board of {} cannot be folded into a box; 0.05 to {} mm can",
                             length_words(board), thickest_board.value));
  found.push_back(problem.hint("write caliper = 0.4, a usual board for a card box"));
  return found;
}

Diagnostics plan_problems(const BoxPlan& plan, const BoxKind& kind, const game::BoxWishes& wishes) {
  Diagnostics found;
  check_room(plan, kind, wishes, found);
  if (!found.empty()) return found;
  check_flaps(plan, kind, wishes, found);
  check_notch(plan, wishes, found);
  if (kind.word == "tuck") check_tuck(plan, wishes, found);
  return found;
}

}  // namespace quoin::pieces
