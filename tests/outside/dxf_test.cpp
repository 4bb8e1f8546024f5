#include "formats/dxf/dxf.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "line_work_sample.h"
#include "programs.h"
#include "tables.h"

namespace quoin::outside {
namespace {

using testing::SizeIs;

const LayerSet machine_layers{Layer::cut, Layer::crease, Layer::glue};

/// What ezdxf, a reader that is not ours, makes of a file: its words a line.
std::vector<std::vector<std::string>> read_elsewhere(const Bytes& dxf) {
  const Folder folder;
  const std::string path = folder.put("net.dxf", dxf);
  const Answer answer =
      run({"/usr/bin/python3", QUOIN_SOURCE_DIR "/tests/outside/readers/dxf_lengths.py", path});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  std::vector<std::vector<std::string>> lines;
  for (const std::string& line : lines_of(answer.words)) lines.push_back(words_of(line));
  return lines;
}

void expect_layer(const std::vector<std::string>& words, const char* name, const char* colour,
                  const char* entities, double length, const std::vector<double>& box) {
  ASSERT_THAT(words, SizeIs(9));
  EXPECT_EQ(words[1], name);
  EXPECT_EQ(words[2], colour);
  EXPECT_EQ(words[3], entities) << name;
  EXPECT_NEAR(number(words[4]), length, 0.001) << name;
  for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(number(words[5 + i]), box[i], 1e-3) << name;
}

TEST(DxfElsewhere, has_the_same_lengths_layers_and_places) {
  const auto lines = read_elsewhere(write_dxf(LineWorkSample::drawing(), machine_layers));
  ASSERT_THAT(lines, SizeIs(5));
  // From the bottom left of a drawing of 120 x 80 mm whose net starts at 10 mm.
  expect_layer(lines[0], "CUT", "1", "3", LineWorkSample::cut_length(), {10, 10, 110, 70});
  expect_layer(lines[1], "CREASE", "5", "2", LineWorkSample::crease_length, {40, 10, 80, 70});
  expect_layer(lines[2], "GLUE", "3", "1", LineWorkSample::glue_length, {85, 15, 105, 65});
  EXPECT_EQ(lines[3][1], "AC1009");
  EXPECT_EQ(lines[4][1], "0");
}

TEST(DxfElsewhere, has_curves_that_are_no_arcs_within_a_hundredth) {
  Drawing drawing{"", {{}, {100_mm, 100_mm}}, {}};
  ShapeItem shape;
  shape.path = Path::ellipse({{10_mm, 30_mm}, {80_mm, 40_mm}});
  shape.fill = black;
  Item item;
  item.layer = Layer::cut;
  item.what = shape;
  drawing.scene.items.push_back(item);
  const auto lines = read_elsewhere(write_dxf(drawing, machine_layers));
  // The circumference of an ellipse with axes 40 and 20: 4·40·E(√3/2), E = 1.2110560275684594
  // (Abramowitz and Stegun, table 17.2, gives 1.21106 at 60 degrees).
  EXPECT_NEAR(number(lines[0][4]), 160 * 1.2110560275684594, 0.05);
}

}  // namespace
}  // namespace quoin::outside
