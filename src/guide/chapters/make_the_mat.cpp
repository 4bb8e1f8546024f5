#include <fmt/format.h>

#include "guide/chapters/wording.h"
#include "guide/figures/figures.h"
#include "making/hand_work.h"
#include "pack/mat_files.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

bool is_cloth(const Making& making) {
  return making.game.mat->material == game::MatMaterial::cloth;
}

const sheets::Tiling& tiling_of(const Making& making) { return *making.mat.tiling; }

int sheet_count(const Making& making) { return static_cast<int>(tiling_of(making).tiles.size()); }

void add_one_sheet(Chapter& chapter, const Making& making) {
  chapter.blocks.push_back(Heading{"From your own printer"});
  TickList list;
  list.items.push_back(fmt::format("Print **{}** at **100 %**, one side only: {} of {}.",
                                   as_words(making.files.mat), sheets::counted(1, "sheet"),
                                   as_words(making.plan.wishes.paper_name)));
  list.items.push_back("Cut it out along the thin line, on the side of the mat.");
  chapter.blocks.push_back(std::move(list));
}

/// "the left edge", as the picture of the first seam shows it.
std::string edge_words(const Making& making) {
  return tiling_of(making).columns > 1 ? "left" : "upper";
}

void add_joining(Chapter& chapter, const Making& making) {
  const sheets::Tiling& tiling = tiling_of(making);
  chapter.blocks.push_back(Heading{"From your own printer"});
  TickList list;
  list.items.push_back(fmt::format(
      "Print **{}** at **100 %**, one side only: the first page says how it is done, {} "
      "of {} are the mat. Measure the bar on the first page.",
      as_words(making.files.mat), sheets::counted(sheet_count(making), "sheet"),
      as_words(making.plan.wishes.paper_name)));
  list.items.push_back(
      "Lay the sheets out as in the picture. Letters are rows; numbers go from left to right.");
  list.items.push_back(fmt::format(
      "Trim along each line that says so: the left edge of a sheet that has a neighbour on its "
      "left, the upper edge of one that has a neighbour above it. **{}** is not trimmed. Right and "
      "lower edges stay as they are: they lie beneath.",
      tiling.tiles.front().name));
  list.items.push_back(
      "Join them in the order of their names. Put tape or glue on the strip beyond the arrows, lay "
      "the trimmed edge of the next sheet along their tips, and rub it down from the middle "
      "outwards.");
  list.items.push_back(
      "Look at the ends of each seam, outside the mat: two half diamonds make a whole one.");
  list.items.push_back("When all is dry, cut round the mat along the thin line, on its own side.");
  chapter.blocks.push_back(Picture{mat_whole(making, MatShows::sheets),
                                   "The sheets as they lie together. Each goes over those to its "
                                   "left and above it."});
  chapter.blocks.push_back(std::move(list));
  Steps seam;
  seam.across = 3;
  const sheets::Tile& next =
      tiling.tiles[tiling.columns > 1 ? 1 : static_cast<std::size_t>(tiling.columns)];
  seam.steps.push_back({fmt::format("**{}** stays as it is. The arrows show how far the next sheet "
                                    "goes.",
                                    tiling.tiles.front().name),
                        mat_seam(making, MatSeam::lower)});
  seam.steps.push_back(
      {fmt::format("**{}**: trim the {} edge along the line.", next.name, edge_words(making)),
       mat_seam(making, MatSeam::upper)});
  seam.steps.push_back(
      {"Joined: the drawing goes on, and no mark is left but those outside the "
       "mat.",
       mat_seam(making, MatSeam::joined)});
  chapter.blocks.push_back(std::move(seam));
  chapter.blocks.push_back(Paragraph{
      "Paper of 100 to 160 g/m² lies flat and is not too thick where four sheets meet. On the back "
      "of the mat, strips of paper tape over the seams keep it together for years of play."});
}

void add_blade(Chapter& chapter) {
  chapter.blocks.push_back(Caution{"Blades", making::blade_cautions()});
}

void add_shop(Chapter& chapter, const Making& making) {
  chapter.blocks.push_back(Heading{"From a shop"});
  TickList list;
  std::string facts;
  for (const std::string& line : pack::shop_mat_words(making.game, *making.mat.mat)) {
    facts += (facts.empty() ? "" : "; ") + as_words(line, 240);
  }
  list.items.push_back(
      fmt::format("Hand over **{}**: one page with trim and bleed boxes. At its foot it says what "
                  "the shop has to know: *{}*.",
                  as_words(making.files.shop_mat), facts));
  list.items.push_back(is_cloth(making)
                           ? "Ask which cloth they print and what it loses when it is fixed and "
                             "washed, put that into *shrinkage* under *mat*, and make the file "
                             "anew. Ask for a sample first."
                           : "Poster paper of 170 g/m² and more, or a film that does not tear; "
                             "dull rather than shiny, so that lamps are not mirrored.");
  chapter.blocks.push_back(std::move(list));
}

void add_hem(Chapter& chapter, const Making& making) {
  chapter.blocks.push_back(Heading{"The hem"});
  Steps beside;
  beside.across = 1;
  beside.numbers = Steps::Numbers::plain;
  beside.steps.push_back(
      {fmt::format("Cut along the outer line. Fold {} to the back along the dashed one, and press "
                   "it. For a neat edge fold it in twice, half of it each time. At the corners cut "
                   "off a triangle first, so that the folds lie flat. Then sew it down, or use a "
                   "tape that is ironed on.",
                   sheets::millimetres(making.mat.mat->plan.hem)),
       mat_hem(making)});
  chapter.blocks.push_back(std::move(beside));
}

void add_iron(Chapter& chapter, const Making& making) {
  chapter.blocks.push_back(Heading{"Ironed on at home"});
  chapter.blocks.push_back(Paragraph{fmt::format(
      "A mat of cloth can also be ironed on from film for your own printer: {} Most films are "
      "printed mirrored and laid face down; what the maker of the film says about printing, heat "
      "and time comes first. Wash and iron the cloth before, and try it on a corner.",
      making.mat.tiling != nullptr
          ? fmt::format("print {} on it instead of paper, and let the edges meet instead of lying "
                        "over each other.",
                        as_words(making.files.mat))
          : std::string("the sheets of this game are too small for that."))});
  chapter.blocks.push_back(Caution{
      "Iron and needle",
      {"An iron burns, and film holds its heat: let it cool before you peel it. Keep the cord and "
       "small children apart, and never leave a hot iron.",
       "Work on a firm pad without steam, unless the maker of the film says otherwise.",
       "Count needles and pins before and after. What the makers of iron, film and machine say "
       "comes first."}});
}

}  // namespace

Chapter make_the_mat(const Making& making) {
  Chapter chapter;
  if (making.mat.mat == nullptr) return chapter;
  const pieces::Mat& mat = *making.mat.mat;
  chapter.title = "Make the mat";
  chapter.opening = Chapter::Opening::new_page;
  const int places = static_cast<int>(mat.places.size());
  chapter.blocks.push_back(Paragraph{fmt::format(
      "The mat is {} when it is finished{}.", sheets::millimetres(mat.plan.size),
      places == 0 ? std::string()
                  : fmt::format(", with {} for cards, each as large as a card and a little more",
                                sheets::counted(places, "place")))});
  if (making.mat.tiling == nullptr || tiling_of(making).is_one_sheet()) {
    chapter.blocks.push_back(Picture{mat_whole(making, MatShows::finished), "The finished mat."});
  }
  if (making.mat.tiling != nullptr) {
    if (tiling_of(making).is_one_sheet())
      add_one_sheet(chapter, making);
    else
      add_joining(chapter, making);
    add_blade(chapter);
  }
  add_shop(chapter, making);
  if (is_cloth(making)) {
    add_hem(chapter, making);
    add_iron(chapter, making);
  }
  return chapter;
}

}  // namespace quoin::guide
