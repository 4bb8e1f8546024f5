#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "pack/dimensions.h"
#include "pack/report.h"
#include "pack/sample_box.h"

namespace quoin::pack {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

/// 54 cards of 0.30 mm, 5 % either way, and up to 0.5 mm of air: 15.39 to 17.51 mm. Clearances of
/// 0.6, 1.0 and 0.6 mm on the thickest; outside of a reverse carton: room + its walls and flaps.
TEST(BoxLines, tell_a_person_what_was_measured) {
  const game::Game game = sample_game("tuck");
  const pieces::Box box = *box_for_paper(game).value;
  const BoxSheets sheets = lay_box(game, box, {}, 3).value;
  EXPECT_THAT(
      box_lines(box, sheets, "A4"),
      ElementsAre("tuck carton for a pile of 15.4 to 17.5 mm, 64.1 x 89.9 x 18.1 mm inside, "
                  "65.3 x 91.5 x 20.3 mm outside",
                  "room to spare 0.6 mm in width, 1.0 in height and 0.6 to 2.7 in depth; largest "
                  "gap 0.50 mm, 1016 mm² glued, tuck flaps grip 15.6 mm",
                  "board of 0.40 mm, 3 sheets of A4"));
}

TEST(BoxLines, say_when_no_sheet_takes_the_box) {
  game::Game game = sample_game("tuck");
  game.card.size = {220_mm, 220_mm};
  const pieces::Box box = *box_for_paper(game).value;
  EXPECT_EQ(box_lines(box, lay_box(game, box, {}, 1).value, "A4").back(),
            "board of 0.40 mm, no sheet of A4");
}

TEST(Report, has_every_number_of_the_box) {
  const game::Game game = sample_game("sleeve");
  const pieces::Box box = *box_for_paper(game).value;
  const BoxSheets sheets = lay_box(game, box, {}, 1).value;
  const Bytes json = report_json({game, {}, nullptr, {}, {}, &box, &sheets});
  for (const char* key :
       {"\"kind\": \"sleeve\"", "\"deck_height_mm\"", "\"board_mm\"", "\"inside_mm\"",
        "\"clearance_mm\"", "\"outside_mm\"", "\"creasing_channel_mm\"", "\"largest_gap_mm\"",
        "\"largest_overlap_mm\"", "\"gaps\"", "\"seams\"", "\"glued_mm2\"", "\"grips\"",
        "\"sheets\"", "\"times\": 1"}) {
    EXPECT_THAT(json, HasSubstr(key));
  }
}

/// The arrows of the outer lines are the size of the net; each panel's are its own.
TEST(Dimensions, have_lines_as_long_as_they_say) {
  const pieces::Box box = *box_for_paper(sample_game("tuck")).value;
  const fold::Net& net = box.model.parts[0].net;
  const Rect whole = box_nets(box, "")[0].bounds;
  std::vector<double> across;
  for (const Item& item : dimensions(net, Mm{4})) {
    EXPECT_EQ(item.layer, Layer::dimension);
    const auto* shape = std::get_if<ShapeItem>(&item.what);
    if (!shape || shape->path.steps().size() != 2) continue;
    const Vec along = shape->path.steps()[1].p[0] - shape->path.steps()[0].p[0];
    if (along.y == Mm{}) across.push_back(along.x.value);
  }
  EXPECT_THAT(across, testing::Contains(testing::DoubleNear(whole.size.width.value, 1e-9)));
  for (const fold::Panel& panel : net.panels) {
    const Size size = bounds(panel.outline).size;
    if (size.width < Mm{4}) continue;
    EXPECT_THAT(across, testing::Contains(testing::DoubleNear(size.width.value, 1e-9)))
        << panel.name;
  }
}

}  // namespace
}  // namespace quoin::pack
