#include <fmt/format.h>

#include <algorithm>

#include "making/hand_work.h"
#include "media/text.h"
#include "pack/mat_files.h"
#include "pack/mat_marks.h"
#include "pack/net_lines.h"
#include "sheets/slug.h"
#include "sheets/wording.h"

namespace quoin::pack {
namespace {

using sheets::Tile;
using sheets::Tiling;

/// Inside of the sheet's edge on the first page, so that it looks like a page.
constexpr Mm page_rim{6}, between_columns{8};

/// A page of a tiling's paper, drawn for the printer that it is made for.
Page page_of_paper(const Tiling& tiling) {
  Page page;
  page.media = tiling.paper;
  if (tiling.correction) page.printed = tiling.correction->front;
  return page;
}

Page tile_page(const pieces::Mat& mat, const Tiling& tiling, const Tile& tile) {
  Page page = page_of_paper(tiling);
  const Affine map = tiling.to_page(tile);
  const Rect art = grown(Rect{{}, mat.plan.size}, mat.plan.ink());
  const Rect printed = overlap(tile.printed, art).value_or(tile.printed);
  const Rect shown = overlap(tile.shown, Rect{{}, tiling.whole}).value_or(tile.shown);
  page.bleed = bounds(map, printed);
  page.trim = bounds(map, shown);
  page.label = tile.name;
  page.placements.push_back({0, map, page.bleed});
  for (Item& item : tile_marks(tiling, tile)) {
    item.map = then(item.map, map);
    page.own.items.push_back(std::move(item));
  }
  return page;
}

TextItem paragraphs(std::vector<TextRun> runs, Rect box, Mm type_size) {
  TextItem text;
  text.block.style.family = house_family;
  text.block.style.type_size = type_size;
  text.block.style.smallest_size = std::min(type_size, Mm{1.6});
  text.block.style.leading = 1.32;
  text.block.style.paragraph_gap = 0.55;
  text.block.runs = std::move(runs);
  text.block.box = box.size;
  text.at = box.at;
  return text;
}

Item mark(decltype(Item::what) what) {
  Item item;
  item.layer = Layer::mark;
  item.what = std::move(what);
  return item;
}

/// The first page: the sheets together, and what is done with them.
class FirstPage {
 public:
  FirstPage(const game::Game& game, const Tiling& tiling)
      : game_(game), tiling_(tiling), page_(page_of_paper(tiling)) {}

  Page draw() {
    page_.label = "how to join";
    const Rect room = grown(tiling_.printable, -page_rim);
    const Mm bar = sheets::slug_row + Mm{3};
    const Mm head = type() * 4.8;
    add_head({room.at, {room.size.width, head}});
    const Rect body{{room.left(), room.top() + head},
                    {room.size.width, room.size.height - head - bar}};
    const bool level = body.size.width > body.size.height;
    if (level) {
      const Mm half = body.size.width * 0.54;
      add_picture({body.at, {half, body.size.height}});
      add_words({{body.left() + half + between_columns, body.top()},
                 {body.size.width - half - between_columns, body.size.height}});
    } else {
      const Mm half = body.size.height * 0.48;
      const Mm drawn = add_picture({body.at, {body.size.width, half}});
      const Mm from = drawn + type() * 1.6;
      add_words({{body.left(), body.top() + from}, {body.size.width, body.size.height - from}});
    }
    const sheets::SlugRow row{Affine::move({room.left(), room.bottom() - sheets::slug_row}),
                              room.size.width};
    for (Item& item : sheets::measuring_bar(row, house_family)) {
      page_.own.items.push_back(std::move(item));
    }
    return std::move(page_);
  }

 private:
  /// The body's: 3.3 mm on A4, less on smaller paper.
  [[nodiscard]] Mm type() const {
    const Mm shorter = std::min(tiling_.paper.width, tiling_.paper.height);
    return std::clamp(shorter / 63, Mm{2}, Mm{3.6});
  }

  void add_head(Rect box) {
    const int sheets = static_cast<int>(tiling_.tiles.size());
    TextItem text =
        paragraphs({{game_.title + ": the mat\n", true, false, nullptr}}, box, type() * 1.75);
    text.block.style.vertical = VerticalAlign::top;
    page_.own.items.push_back(mark(std::move(text)));
    const Mm below = type() * 2.35;
    page_.own.items.push_back(mark(paragraphs(
        {{fmt::format("{} from {}, joined edge over edge", sheets::millimetres(tiling_.whole),
                      sheets::counted(sheets, "sheet")),
          false, false, nullptr}},
        {{box.left(), box.top() + below}, {box.size.width, type() * 1.6}}, type())));
  }

  /// The mat with its sheets on it, at the top of the box; its height.
  Mm add_picture(Rect box) {
    const Rect all = covering(tiling_.tiles.front().printed, tiling_.tiles.back().printed);
    const Rect papers = grown(all, Mm{2});
    const double scale =
        std::min(box.size.width / papers.size.width, box.size.height / papers.size.height);
    const Mm across = (box.size.width - papers.size.width * scale) / 2;
    const bool level = box.size.height > papers.size.height * scale * 1.2;
    const Affine map = then(then(Affine::move(Point{} - papers.at), Affine::scale(scale, scale)),
                            Affine::move(box.at + Vec{level ? Mm{} : across, Mm{}} - Point{}));
    const Rect whole = bounds(map, Rect{{}, tiling_.whole});
    page_.placements.push_back({0, map, whole});
    // Paler, so that seams and names stand out.
    add(Path::rectangle(whole), Colour{1, 1, 1, 0.45}, {});
    for (const Tile& tile : tiling_.tiles) {
      const Rect shown = bounds(map, tile.shown);
      add(Path::rectangle(shown), NoPaint{}, Stroke{black, Mm{0.2}, {}});
    }
    add(Path::rectangle(whole), NoPaint{}, Stroke{black, Mm{0.45}, {}});
    for (const Tile& tile : tiling_.tiles) add_name(tile, map);
    return papers.size.height * scale;
  }

  void add_name(const Tile& tile, const Affine& map) {
    const Rect shown =
        bounds(map, overlap(tile.shown, Rect{{}, tiling_.whole}).value_or(tile.shown));
    const Mm radius = std::min(Mm{5.2}, std::min(shown.size.width, shown.size.height) * 0.32);
    const Point middle = shown.centre();
    add(Path::ellipse({middle - Vec{radius, radius}, {radius * 2, radius * 2}}), white,
        Stroke{black, Mm{0.25}, {}});
    WordsLook look;
    look.type_size = radius * 0.86;
    page_.own.items.push_back(words_item(tile.name, middle, {radius * 2, radius * 2}, look));
  }

  void add(Path path, Paint fill, Stroke stroke) {
    page_.own.items.push_back(mark(ShapeItem{std::move(path), std::move(fill), std::move(stroke)}));
  }

  void add_words(Rect box) {
    const int sheets = static_cast<int>(tiling_.tiles.size());
    std::vector<TextRun> runs;
    const auto say = [&](const std::string& head, const std::string& words) {
      runs.push_back({head + " ", true, false, nullptr});
      runs.push_back({words + "\n", false, false, nullptr});
    };
    say("1. Print",
        fmt::format("pages 2 to {} at 100 %, one side only. The bar at the foot of this "
                    "page is for measuring that.",
                    sheets + 1));
    say("2. Lay them out", "as in the picture: letters are rows, numbers go from left to right.");
    say("3. Trim",
        fmt::format(
            "along each line that says so: of {}, the left edge, the upper edge, or both. "
            "{} is not trimmed. Right and lower edges stay: they lie beneath.",
            tiling_.columns > 1 && tiling_.rows > 1 ? "the other sheets" : "each other sheet",
            tiling_.tiles.front().name));
    say("4. Join",
        fmt::format("in the order of their names, {}. Each sheet goes over those before it. Put "
                    "glue or double-sided tape on the strip beyond the arrows, and lay the trimmed "
                    "edge of the next sheet along their tips.",
                    order_words()));
    say("5. Look",
        std::string(
            "at the ends of the seam, outside the mat: two half diamonds make a whole one.") +
            (tiling_.columns > 1 && tiling_.rows > 1
                 ? " Where four sheets meet, the corner goes into the printed corner."
                 : ""));
    say("6. Cut round it", "when all is dry, along the thin line, on the side of the mat.");
    runs.push_back({"Take care\n", true, false, nullptr});
    for (const std::string& line : making::blade_cautions()) {
      runs.push_back({line + " ", false, false, nullptr});
    }
    page_.own.items.push_back(mark(paragraphs(std::move(runs), box, type())));
  }

  [[nodiscard]] std::string order_words() const {
    const std::string last = tiling_.tiles.back().name;
    if (tiling_.tiles.size() == 2) return fmt::format("A1, then {}", last);
    return fmt::format("{}, {} … {}", tiling_.tiles[0].name, tiling_.tiles[1].name, last);
  }

  const game::Game& game_;
  const Tiling& tiling_;
  Page page_;
};

/// What a mat on one sheet has room for beneath it: how to print it, and the bar.
void add_foot(Page& page, const Tiling& tiling) {
  const Mm free = tiling.printable.bottom() - page.bleed.bottom();
  if (free < sheets::slug_row + Mm{1}) return;
  const sheets::SlugRow row{
      Affine::move({tiling.printable.left(), tiling.printable.bottom() - sheets::slug_row}),
      tiling.printable.size.width};
  for (Item& item : sheets::measuring_bar(row, house_family)) {
    page.own.items.push_back(std::move(item));
  }
}

}  // namespace

Document home_mat(const game::Game& game, const pieces::Mat& mat, const Tiling& tiling) {
  Document document;
  document.title = game.title;
  document.author = game.author;
  document.subject = "Mat";
  document.language = game.language;
  document.creator = "Quoin";
  if (!tiling.is_one_sheet()) document.pages.push_back(FirstPage(game, tiling).draw());
  for (const Tile& tile : tiling.tiles) document.pages.push_back(tile_page(mat, tiling, tile));
  if (tiling.is_one_sheet()) add_foot(document.pages.front(), tiling);
  return document;
}

}  // namespace quoin::pack
