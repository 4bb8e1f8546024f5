#include "media/canvas.h"

#include <gtest/gtest.h>
#include <libdeflate.h>

#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <regex>
#include <sstream>
#include <stdexcept>

#include "media/pictures/samples.h"

namespace quoin {
namespace {

using namespace pictures;

Rect rect(double x, double y, double w, double h) { return {{Mm{x}, Mm{y}}, {Mm{w}, Mm{h}}}; }

PicturePtr opened(PictureShelf& shelf, const std::string& path) {
  Diagnostics found;
  return std::move(shelf.open(path, {}, found)).or_report(found).value();
}

/// The pixel at a place in mm, as 0xAARRGGBB, of a raster of 10 pixels a millimetre.
std::uint32_t pixel(const Raster& raster, double x, double y) {
  return raster
      .pixels[static_cast<std::size_t>(y * 10) * raster.width + static_cast<std::size_t>(x * 10)];
}

class CanvasTest : public ::testing::Test {
 protected:
  Raster drawn(const std::function<void(Canvas&)>& draw) {
    ImageCanvas canvas(shelf, {Mm{20}, Mm{20}}, 254, ImageCanvas::Background::transparent);
    draw(canvas.canvas());
    EXPECT_TRUE(canvas.found().empty());
    return canvas.raster();
  }
  PageRecorder::Recording recorded(const std::function<void(Canvas&)>& draw) {
    PageRecorder recorder(shelf);
    recorder.page({Mm{25.4}, Mm{50.8}}, draw);
    return recorder.finish();
  }

  MemoryWorld world;
  PictureShelf shelf{world};
};

TEST(ImageCanvas, rounds_its_size_in_pixels_up) {
  const MemoryWorld world;
  PictureShelf shelf(world);
  const Raster raster =
      ImageCanvas(shelf, {Mm{25.4}, Mm{10}}, 300, ImageCanvas::Background::paper).raster();
  EXPECT_EQ(raster.width, 300);
  EXPECT_EQ(raster.height, 119);
  EXPECT_EQ(raster.pixels.front(), 0xFFFFFFFF);
}

TEST(ImageCanvas, refuses_sizes_that_no_picture_has) {
  const MemoryWorld world;
  PictureShelf shelf(world);
  EXPECT_THROW(ImageCanvas(shelf, {Mm{1e6}, Mm{1}}, 300, ImageCanvas::Background::paper),
               std::length_error);
  EXPECT_THROW(ImageCanvas(shelf, {Mm{std::nan("")}, Mm{1}}, 300, ImageCanvas::Background::paper),
               std::length_error);
}

TEST_F(CanvasTest, goes_on_after_paths_and_maps_that_are_no_numbers) {
  const Mm nan{std::nan("")}, endless{INFINITY};
  const Raster raster = drawn([&](Canvas& canvas) {
    canvas.save();
    canvas.transform({1, 0, 0, 1, nan, Mm{0}});
    canvas.fill(Path::rectangle(rect(0, 0, 5, 5)), black);
    canvas.restore();
    canvas.fill(Path::polygon({{nan, Mm{0}}, {endless, Mm{0}}, {Mm{0}, Mm{9}}}), black);
    canvas.fill(Path::rectangle(rect(-1e12, 15, 2e12, 2)), black);
    canvas.stroke(Path::rectangle(rect(1, 1, 1, 1)), Stroke{black, nan, {}});
    canvas.fill(Path::rectangle(rect(8, 8, 4, 4)), black);
  });
  EXPECT_EQ(pixel(raster, 2, 2), 0U);
  EXPECT_EQ(pixel(raster, 10, 10), 0xFF000000);
  EXPECT_EQ(pixel(raster, 10, 16), 0xFF000000);
}

TEST_F(CanvasTest, draws_dashes_finer_than_any_dot_as_a_line) {
  const Raster raster = drawn([&](Canvas& canvas) {
    Path line;
    line.move_to({Mm{0}, Mm{10}}).line_to({Mm{20}, Mm{10}});
    canvas.stroke(line, Stroke{black, Mm{2}, {Mm{1e-9}, Mm{1e-9}}});
  });
  EXPECT_EQ(pixel(raster, 10, 10), 0xFF000000);
}

TEST_F(CanvasTest, runs_gradients_of_text_over_its_box) {
  Typesetter typesetter({});
  TextBlock block;
  block.runs = {{"I", false, false, nullptr}};
  block.style.weight = 700;
  block.style.type_size = block.style.smallest_size = Mm{12};
  block.style.fill = LinearGradient{{}, {Mm{10}, Mm{0}}, {{{1, 0, 0, 1}, 0}, {{0, 0, 1, 1}, 1}}};
  block.box = {Mm{10}, Mm{18}};
  const auto colour_of_letter = [&](TextAlign align) {
    block.style.align = align;
    const SetText text = typesetter.set(block);
    const Raster raster = drawn([&](Canvas& canvas) { canvas.text(text, {Mm{5}, Mm{1}}); });
    const Point middle = text.facts().ink.centre();
    return pixel(raster, 5 + middle.x.value, 1 + middle.y.value);
  };
  const std::uint32_t left = colour_of_letter(TextAlign::left);
  const std::uint32_t right = colour_of_letter(TextAlign::right);
  EXPECT_GT(left >> 16 & 0xFF, 170U);
  EXPECT_LT(right >> 16 & 0xFF, 85U);
  EXPECT_GT(right & 0xFF, 170U);
}

TEST_F(CanvasTest, puts_symbols_in_the_line) {
  world.put("red.svg",
            "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 1 1'>"
            "<rect width='1' height='1' fill='#f00'/></svg>");
  Typesetter typesetter({});
  TextBlock block;
  block.runs = {{"red", false, false,
                 std::make_shared<InlineSymbol>(InlineSymbol{opened(shelf, "red.svg"), 1, 0})}};
  block.style.type_size = block.style.smallest_size = Mm{8};
  block.box = {Mm{20}, Mm{20}};
  const SetText text = typesetter.set(block);
  const Raster raster = drawn([&](Canvas& canvas) { canvas.text(text, {}); });
  const Point middle = text.facts().ink.centre();
  EXPECT_EQ(pixel(raster, middle.x.value, middle.y.value), 0xFFFF0000);
  EXPECT_NEAR(text.facts().ink.size.height.value, 8, 1e-3);
}

TEST_F(CanvasTest, sets_letters_of_an_svg_in_the_games_fonts_and_never_the_machines) {
  const auto svg = [&](const std::string& family, const std::string& letters) {
    const std::string path = family + letters + ".svg";
    world.put(path,
              "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 20 20'><text x='1' y='15' "
              "font-size='9' font-family='" +
                  family + "'>" + letters + "</text></svg>");
    return opened(shelf, path);
  };
  const auto look = [&](const PicturePtr& picture) {
    return drawn([&](Canvas& canvas) { canvas.picture(picture, rect(0, 0, 20, 20)); }).pixels;
  };
  std::ifstream file(QUOIN_SOURCE_DIR "/tests/fonts/NotoSansHebrew-Regular.ttf", std::ios::binary);
  const auto bytes = std::make_shared<const Bytes>(std::istreambuf_iterator<char>(file),
                                                   std::istreambuf_iterator<char>());
  const PicturePtr hebrew = svg("Noto Sans Hebrew", "קל");
  const Typesetter house({});
  EXPECT_EQ(look(svg("DejaVu Sans", "ag")), look(svg("Noto Sans", "ag")));
  const auto without = look(hebrew);
  const Typesetter with_hebrew({{"hebrew.ttf", bytes}});
  EXPECT_NE(look(hebrew), without);
}

// ---- what a recorded page says ----

/// The streams of a PDF that inflate, joined.
std::string contents(const Bytes& pdf) {
  const std::unique_ptr<libdeflate_decompressor, void (*)(libdeflate_decompressor*)> inflater{
      libdeflate_alloc_decompressor(), libdeflate_free_decompressor};
  std::string all;
  std::vector<char> room(1 << 20);
  for (std::size_t at = pdf.find("stream\n"); at != pdf.npos; at = pdf.find("stream\n", at + 7)) {
    const std::size_t begin = at + 7, end = pdf.find("endstream", begin);
    std::size_t length = 0;
    if (libdeflate_zlib_decompress(inflater.get(), pdf.data() + begin, end - begin, room.data(),
                                   room.size(), &length) == LIBDEFLATE_SUCCESS)
      all.append(room.data(), length).append("\n");
  }
  return all;
}

/// Where the unit square's corners (PDF's: y up) lie on the page when the first image is drawn,
/// in mm from the page's top left.
struct Placed {
  Affine map;  ///< unit square to page units, y up
  [[nodiscard]] Point corner(double u, double v) const {
    const Point p = map(Point{Mm{u}, Mm{v}});
    const double units = PageRecorder::units_per_mm;
    return {p.x / units, Mm{50.8} - p.y / units};
  }
};

Placed first_image(const Bytes& pdf) {
  std::istringstream words(contents(pdf));
  std::vector<Affine> saved;
  Affine now;
  std::vector<std::string> operands;
  for (std::string word; words >> word;) {
    if (word == "q") saved.push_back(now);
    if (word == "Q" && !saved.empty()) now = saved.back(), saved.pop_back();
    if (word == "cm" && operands.size() >= 6) {
      std::array<double, 6> m{};
      for (std::size_t i = 0; i < 6; ++i) m[i] = std::stod(operands[operands.size() - 6 + i]);
      now = then(Affine{m[0], m[1], m[2], m[3], Mm{m[4]}, Mm{m[5]}}, now);
    }
    if (word == "Do" && !operands.empty() && operands.back().starts_with("/x")) return {now};
    operands.push_back(word);
  }
  ADD_FAILURE() << "no image on the page";
  return {};
}

void expect_at(Point is, Point wanted) {
  EXPECT_NEAR(is.x.value, wanted.x.value, 1e-3);
  EXPECT_NEAR(is.y.value, wanted.y.value, 1e-3);
}

// Source: Exif 2.3 (CIPA DC-008), tag 0x0112: which visual sides the 0th row and column are.
TEST_F(CanvasTest, turns_pictures_upright_as_their_orientation_says) {
  const Rect to = rect(4, 6, 12, 8);
  const Point left_top = to.at, right_top{to.right(), to.top()},
              left_bottom{to.left(), to.bottom()}, right_bottom{to.right(), to.bottom()};
  const std::array<std::pair<Point, Point>, 8> first_and_last_of_row_0{{{left_top, right_top},
                                                                        {right_top, left_top},
                                                                        {right_bottom, left_bottom},
                                                                        {left_bottom, right_bottom},
                                                                        {left_top, left_bottom},
                                                                        {right_top, right_bottom},
                                                                        {right_bottom, right_top},
                                                                        {left_bottom, left_top}}};
  for (int orientation = 1; orientation <= 8; ++orientation) {
    SCOPED_TRACE(orientation);
    const std::string path = std::to_string(orientation) + ".jpg";
    world.put(path, samples::jpeg({.width = 30, .height = 20, .orientation = orientation}));
    const PicturePtr picture = opened(shelf, path);
    const auto recording = recorded([&](Canvas& canvas) { canvas.picture(picture, to); });
    const Placed placed = first_image(recording.pdf);
    const auto& [first, last] = first_and_last_of_row_0[static_cast<std::size_t>(orientation - 1)];
    expect_at(placed.corner(0, 1), first);  // an image's 0th row is at the square's top
    expect_at(placed.corner(1, 1), last);
  }
}

TEST_F(CanvasTest, records_a_picture_once_as_a_placeholder_of_one_pixel) {
  world.put("a.jpg", samples::jpeg({.width = 30, .height = 20, .orientation = 6}));
  const PicturePtr picture = opened(shelf, "a.jpg");
  const auto recording = recorded([&](Canvas& canvas) {
    canvas.picture(picture, rect(0, 0, 10, 15));
    canvas.picture(picture, rect(10, 0, 10, 15));
  });
  ASSERT_EQ(recording.pictures.size(), 1U);
  const std::string key = "asset:" + picture->key();
  EXPECT_EQ(recording.pictures.begin()->first, key);
  EXPECT_EQ(recording.pictures.begin()->second, picture);
  EXPECT_EQ(recording.pages, 1);
  const std::size_t at = recording.pdf.find(key);
  ASSERT_NE(at, recording.pdf.npos);
  EXPECT_EQ(recording.pdf.find(key, at + 1), recording.pdf.npos);  // once
  EXPECT_TRUE(std::regex_search(recording.pdf, std::regex("/Width 1\\s+/Height 1\\s")));
}

TEST_F(CanvasTest, records_a_drawing_once_for_all_uses_that_are_no_larger) {
  world.put("two.svg",
            "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 20 10'>"
            "<rect width='20' height='10' fill='#f00'/><circle cx='9' cy='5' r='3'/></svg>");
  const PicturePtr picture = opened(shelf, "two.svg");
  const auto drawings = [&](const std::vector<Rect>& uses) {
    const auto recording = recorded([&](Canvas& canvas) {
      for (const Rect use : uses) canvas.picture(picture, use);
    });
    const std::regex form("/Subtype\\s*/Form");
    const auto all = std::sregex_iterator(recording.pdf.begin(), recording.pdf.end(), form);
    return std::distance(all, std::sregex_iterator{});
  };
  const auto one = drawings({rect(0, 0, 16, 8)});
  EXPECT_EQ(drawings({rect(0, 0, 16, 8), rect(0, 8, 8, 4), rect(8, 8, 16, 8)}), one);
  // A larger one is drawn anew, that its effects come out as fine; so is one of other proportions.
  EXPECT_EQ(drawings({rect(0, 0, 8, 4), rect(0, 8, 16, 8)}), 2 * one);
  EXPECT_EQ(drawings({rect(0, 0, 16, 8), rect(0, 8, 8, 8)}), 2 * one);
}

TEST_F(CanvasTest, records_opaque_pictures_shadows_as_vectors) {
  world.put("a.png", samples::png({}));
  const PicturePtr picture = opened(shelf, "a.png");
  const auto draw = [&](Canvas& to) { to.picture(picture, rect(5, 5, 5, 5)); };
  const auto recording = recorded([&](Canvas& canvas) {
    canvas.shadow(Shadow{{0, 0, 0, 0.5}, {Mm{1}, Mm{1}}, Mm{0}}, rect(5, 5, 5, 5), "k", draw);
  });
  EXPECT_TRUE(recording.made.empty());
  EXPECT_TRUE(recording.pictures.empty());
}

TEST_F(CanvasTest, makes_coarser_masks_rather_than_endless_ones) {
  const auto draw = [](Canvas& to) { to.fill(Path::ellipse(rect(0, 0, 900, 600)), black); };
  PageRecorder recorder(shelf);
  recorder.page({Mm{900}, Mm{600}}, [&](Canvas& canvas) {
    canvas.shadow(Shadow{{0, 0, 0, 0.5}, {}, Mm{10}}, rect(0, 0, 900, 600), "k", draw);
  });
  const auto recording = recorder.finish();
  ASSERT_EQ(recording.made.size(), 1U);
  const PreparedImage& made = *recording.made.begin()->second;
  EXPECT_LE(double(made.width) * made.height, 16e6);
  EXPECT_GT(double(made.width) * made.height, 15e6);
}

}  // namespace
}  // namespace quoin
