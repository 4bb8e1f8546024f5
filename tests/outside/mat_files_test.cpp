#include "pack/mat_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "formats/pdf/pdf.h"
#include "programs.h"
#include "sample_cards.h"

namespace quoin::outside {
namespace {

using testing::HasSubstr;

/// 254 pixels an inch: 10 a millimetre, so that sheets laid at tenths of a millimetre fall on whole
/// pixels.
constexpr int per_mm = 10;

/// A mat of 500 x 300 mm full of edges: a gradient, rings, slanting lines and words.
class MatFiles : public testing::Test {
 protected:
  MatFiles() {
    game_.title = "Tidewrack";
    game_.mat.emplace();
    game_.mat->size = {500_mm, 300_mm};
    game_.mat->size_name.clear();
    game_.sheets.dead_margin = Insets::all(5_mm);
    remake();
  }

  void remake() {
    mat_ = {};
    mat_.plan = pieces::mat_plan(game_);
    const Rect all = grown(Rect{{}, mat_.plan.size}, mat_.plan.ink());
    add(Path::rectangle(all),
        LinearGradient{
            {0_mm, 0_mm}, {500_mm, 300_mm}, {{{0.95, 0.88, 0.7}, 0}, {{0.1, 0.3, 0.4}, 1}}});
    for (int i = 0; i < 40; ++i) {
      const Mm size{6.0 + i * 1.7};
      const Point at{Mm{std::fmod(i * 137.0, 470)}, Mm{std::fmod(i * 71.0, 270)}};
      add(Path::ellipse({at, {size, size}}), Colour{0.8 - i * 0.015, 0.2 + i * 0.01, 0.3, 0.6});
    }
    for (int i = 0; i < 9; ++i) {
      mat_.scene.items.push_back(
          cards_.text("sand and water", {{Mm{20.0 + i * 50}, Mm{30.0 + i * 27}}, {60_mm, 8_mm}}));
    }
  }

  void add(Path path, Paint paint) {
    Item item;
    ShapeItem shape;
    shape.path = std::move(path);
    shape.fill = std::move(paint);
    item.what = std::move(shape);
    mat_.scene.items.push_back(std::move(item));
  }

  std::string written(const std::string& name, Document document) {
    Typesetter typesetter{{}};
    for (Page& page : document.pages) typeset(page.own, typesetter);
    const auto drawn = DrawnSymbols::draw(pack::mat_symbols(mat_), cards_.shelf(), {});
    return folder_.put(name, write_pdf(std::move(document), drawn.value(), cards_.shelf()).value());
  }

  sheets::Tiling tiling() {
    return sheets::lay_tiles(game_.mat->size, game_.mat->overlap, game_.sheets, {}).value();
  }

  Pixels page(const std::string& pdf, int number) {
    const std::string at = std::to_string(number);
    EXPECT_EQ(
        run({"pdftoppm", "-r", "254", "-f", at, "-l", at, "-singlefile", pdf, folder_.path("page")})
            .exit_code,
        0);
    return read_ppm(folder_.read("page.ppm"));
  }

  game::Game game_;
  pieces::Mat mat_;
  SampleCards cards_;
  Folder folder_;
};

/// What somebody has in hand who joined the sheets: each is trimmed where its line says and laid
/// over those before it, its paper and its hidden strips and all.
class Table {
 public:
  explicit Table(Size size)
      : picture_{static_cast<int>(size.width.value) * per_mm,
                 static_cast<int>(size.height.value) * per_mm,
                 {}} {
    picture_.rgb.assign(
        static_cast<std::size_t>(picture_.width) * static_cast<std::size_t>(picture_.height) * 3,
        255);
  }

  void lay(const sheets::Tiling& tiling, const sheets::Tile& tile, const Pixels& sheet) {
    const Affine to_page = tiling.to_page(tile);
    const Affine to_mat = *inverse(to_page);
    Rect paper = bounds(to_mat, Rect{{}, tiling.paper});
    if (tile.column > 0) cut_left(paper, tile.shown.left());
    if (tile.row > 0) cut_top(paper, tile.shown.top());
    for (int y = 0; y < picture_.height; ++y) {
      for (int x = 0; x < picture_.width; ++x) {
        const Point place{Mm{(x + 0.5) / per_mm}, Mm{(y + 0.5) / per_mm}};
        if (!lies_on(paper, place)) continue;
        const Point there = to_page(place);
        copy(sheet, static_cast<int>(there.x.value * per_mm),
             static_cast<int>(there.y.value * per_mm), x, y);
      }
    }
  }

  [[nodiscard]] const Pixels& picture() const { return picture_; }

 private:
  static void cut_left(Rect& paper, Mm x) {
    paper = {{x, paper.top()}, {paper.right() - x, paper.size.height}};
  }
  static void cut_top(Rect& paper, Mm y) {
    paper = {{paper.left(), y}, {paper.size.width, paper.bottom() - y}};
  }
  static bool lies_on(Rect paper, Point place) {
    return place.x >= paper.left() && place.x < paper.right() && place.y >= paper.top() &&
           place.y < paper.bottom();
  }
  void copy(const Pixels& from, int column, int row, int x, int y) {
    const auto source = (static_cast<std::size_t>(row) * static_cast<std::size_t>(from.width) +
                         static_cast<std::size_t>(column)) *
                        3;
    const auto to = (static_cast<std::size_t>(y) * static_cast<std::size_t>(picture_.width) +
                     static_cast<std::size_t>(x)) *
                    3;
    for (std::size_t i = 0; i < 3; ++i) picture_.rgb[to + i] = from.rgb[source + i];
  }

  Pixels picture_;
};

Pixels cut_out(const Pixels& page, int left, int top, int width, int height) {
  Pixels part{width, height, {}};
  for (int y = 0; y < height; ++y) {
    const auto from = (static_cast<std::size_t>(top + y) * static_cast<std::size_t>(page.width) +
                       static_cast<std::size_t>(left)) *
                      3;
    part.rgb.insert(part.rgb.end(), page.rgb.begin() + static_cast<std::ptrdiff_t>(from),
                    page.rgb.begin() + static_cast<std::ptrdiff_t>(from) + width * 3);
  }
  return part;
}

TEST_F(MatFiles, sheets_that_are_trimmed_and_joined_are_the_mat_again) {
  const sheets::Tiling laid = tiling();
  ASSERT_EQ(laid.tiles.size(), 4U);
  const std::string home = written("home.pdf", pack::home_mat(game_, mat_, laid));
  Table table(game_.mat->size);
  for (std::size_t i = 0; i < laid.tiles.size(); ++i) {
    table.lay(laid, laid.tiles[i], page(home, static_cast<int>(i) + 2));
  }
  const Document shop = pack::shop_mat(game_, mat_);
  const Rect trim = shop.pages.front().trim;
  const Pixels whole = page(written("shop.pdf", shop), 1);
  const Pixels expected =
      cut_out(whole, static_cast<int>(std::lround(trim.left().value * per_mm)),
              static_cast<int>(std::lround(trim.top().value * per_mm)), 5000, 3000);
  int largest = 0;
  double sum = 0;
  for (std::size_t i = 0; i < expected.rgb.size(); ++i) {
    const int off = std::abs(int{expected.rgb[i]} - int{table.picture().rgb[i]});
    largest = std::max(largest, off);
    sum += off;
  }
  const double mean = sum / static_cast<double>(expected.rgb.size());
  RecordProperty("mean_difference", std::to_string(mean));
  RecordProperty("largest_difference", largest);
  EXPECT_LT(mean, 0.02);
  EXPECT_LE(largest, 32) << "edges that two pages smooth a little otherwise";
}

TEST_F(MatFiles, each_sheet_of_paper_is_a_page_and_a_first_page_says_how_they_are_joined) {
  const std::string home = written("home.pdf", pack::home_mat(game_, mat_, tiling()));
  const Answer info = run({"pdfinfo", home});
  EXPECT_THAT(info.words, HasSubstr("Pages:           5"));
  EXPECT_THAT(info.words, HasSubstr("841.89 x 595.276 pts (A4)"));
  const std::string words = run({"pdftotext", "-f", "1", "-l", "1", home, "-"}).words;
  for (const char* said : {"Tidewrack: the mat", "100 %", "A1 is not trimmed", "guard stays on",
                           "rules where you live"}) {
    EXPECT_THAT(words, HasSubstr(said));
  }
  const std::string last = run({"pdftotext", "-f", "5", "-l", "5", home, "-"}).words;
  EXPECT_THAT(last, HasSubstr("B2: trim along the line; this edge goes over B1"));
  EXPECT_THAT(last, HasSubstr("B2: trim along the line; this edge goes over A2"));
}

TEST_F(MatFiles, a_mat_that_goes_on_one_sheet_is_one_page) {
  game_.mat->size = {180_mm, 250_mm};
  remake();
  const std::string home = written("home.pdf", pack::home_mat(game_, mat_, tiling()));
  EXPECT_THAT(run({"pdfinfo", home}).words, HasSubstr("Pages:           1"));
}

/// "TrimBox:  1.0 2.0 3.0 4.0" of pdfinfo as width and height in millimetres.
Size box_of(const std::string& pdf, const std::string& name) {
  for (const std::string& line : lines_of(run({"pdfinfo", "-box", pdf}).words)) {
    if (!line.starts_with(name + ":")) continue;
    const std::vector<std::string> words = words_of(line);
    const auto mm = [&](std::size_t a, std::size_t b) {
      return Mm{(std::stod(words[a]) - std::stod(words[b])) * mm_per_inch / points_per_inch};
    };
    return {mm(3, 1), mm(4, 2)};
  }
  return {};
}

TEST_F(MatFiles, the_shop_gets_trim_and_bleed_of_paper_at_true_size) {
  const std::string shop = written("shop.pdf", pack::shop_mat(game_, mat_));
  const Size trim = box_of(shop, "TrimBox"), bleed = box_of(shop, "BleedBox");
  EXPECT_NEAR(trim.width.value, 500, 0.02);
  EXPECT_NEAR(trim.height.value, 300, 0.02);
  EXPECT_NEAR(bleed.width.value, 506, 0.02);
  EXPECT_THAT(run({"pdftotext", shop, "-"}).words,
              HasSubstr("print at 100 %; trim to 500 x 300 mm; bleed 3 mm all round"));
}

// By hand: 500 / 0.97 = 515.464, 300 / 0.98 = 306.122; with hems of 20 mm 555.464 x 346.122.
TEST_F(MatFiles, the_shop_gets_cloth_larger_by_what_it_shrinks_and_its_hem) {
  game_.mat->material = game::MatMaterial::cloth;
  game_.mat->hem = 20_mm;
  game_.mat->shrink_across = 0.03;
  game_.mat->shrink_down = 0.02;
  remake();
  const std::string shop = written("shop.pdf", pack::shop_mat(game_, mat_));
  const Size trim = box_of(shop, "TrimBox"), bleed = box_of(shop, "BleedBox");
  EXPECT_NEAR(trim.width.value, 555.464, 0.02);
  EXPECT_NEAR(trim.height.value, 346.122, 0.02);
  EXPECT_NEAR(bleed.height.value, 352.122, 0.02);
  const std::string words = run({"pdftotext", shop, "-"}).words;
  EXPECT_THAT(words, HasSubstr("width 1.0309 times (3 % lost), height 1.0204 times (2 % lost)"));
  EXPECT_THAT(words, HasSubstr("hem 20 mm on each side: cut at 555.46 x 346.12 mm"));
}

}  // namespace
}  // namespace quoin::outside
