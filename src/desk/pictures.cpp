#include "desk/pictures.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "desk/box_art.h"
#include "desk/session.h"
#include "formats/png/png.h"
#include "formats/svg/svg.h"
#include "media/canvas.h"
#include "pack/box_files.h"
#include "pack/card_files.h"
#include "pieces/card/face.h"
#include "sheets/sheets.h"

namespace quoin::desk {
namespace {

constexpr double texture_pixels_per_mm = 8;
constexpr double largest_texture = 2048;  // pixels; what every 3D view takes
constexpr Size font_sample{90_mm, 12_mm};
constexpr double font_sample_ppi = 160;
/// How much of the back's ink is seen through the paper held against the light (a choice of ours).
constexpr double shining_through = 0.4;

/// Pixels an inch that make `length` just `pixels` wide, whatever is rounded up.
double ppi_for(Mm length, int pixels) { return (pixels - 0.001) / length.value * mm_per_inch; }

Mm bleed_of(const game::Game& game, const Face& face) {
  return face.is_back ? pieces::back_bleed(game) : game.card.bleed;
}

Scene set(Scene scene, Typesetter& typesetter) {
  typeset(scene, typesetter);
  return scene;
}

pack::CardWork card_work(const Checkup& checkup) {
  const game::Game& game = checkup.outcome.game;
  const Rect trim{{}, game.card.size};
  return {game, *checkup.outcome.plan, checkup.printed.fronts, grown(trim, game.card.bleed),
          grown(trim, pieces::back_bleed(game))};
}

/// The page of a sheet's side, as the pack has it; nothing when that side is not printed.
std::optional<Page> page_of(const Checkup& checkup, std::size_t sheet, SheetSide side) {
  const pack::CardWork work = card_work(checkup);
  const std::vector<pack::CardFile> files = pack::card_files(work, {}, {});
  Document document = files.front().make();  // home/cards.pdf: all sheets, sides in turn
  const std::size_t sides = document.pages.size() / work.plan.sheets.size();
  if (side == SheetSide::back && sides < 2) return std::nullopt;
  return std::move(document.pages[sheet * sides + (side == SheetSide::back ? 1 : 0)]);
}

/// The face that a placed drawing of the plan shows, as it looks now.
const Face* face_of(const Snapshot& shown, int drawing) {
  const job::Drawing& what = shown.checkup->printed.drawings[static_cast<std::size_t>(drawing)];
  const auto card = static_cast<std::size_t>(what.card);
  if (card >= shown.faces.front_of.size()) return nullptr;
  const int face = what.is_back ? shown.faces.back_of[card] : shown.faces.front_of[card];
  return face < 0 ? nullptr : &shown.faces.all[static_cast<std::size_t>(face)];
}

/// `landing` is where the printer puts what lies on the page.
Raster draw_page(const Tools& tools, const Snapshot& shown, Page page, int width,
                 const Affine& landing = {}) {
  ImageCanvas image(tools.shelf, page.media, ppi_for(page.media.width, width),
                    ImageCanvas::Background::paper);
  Canvas& canvas = image.canvas();
  if (!(landing == Affine{})) canvas.transform(landing);
  // Cards that touch would show a hair of paper where their edges share a pixel.
  const Mm half_a_pixel = page.media.width / (2.0 * width);
  std::map<int, Scene> scenes;
  for (const Placement& placement : page.placements) {
    const Face* face = face_of(shown, placement.symbol);
    if (face == nullptr) continue;
    auto scene = scenes.find(placement.symbol);
    if (scene == scenes.end()) {
      scene = scenes.emplace(placement.symbol, set(*face->scene, tools.typesetter)).first;
    }
    canvas.save();
    canvas.clip(Path::rectangle(grown(placement.window, half_a_pixel)));
    canvas.transform(placement.map);
    draw(scene->second, canvas);
    canvas.restore();
  }
  typeset(page.own, tools.typesetter);
  draw(page.own, canvas);
  return image.raster();
}

std::uint32_t seen_through(std::uint32_t front, std::uint32_t back) {
  std::uint32_t pixel = 0xFF000000;
  for (int shift = 0; shift < 24; shift += 8) {
    const double paper = 1 - shining_through * (1 - ((back >> shift) & 255) / 255.0);
    pixel |= static_cast<std::uint32_t>(std::lround(((front >> shift) & 255) * paper)) << shift;
  }
  return pixel;
}

/// Where both sides come to lie, drawn under the correction or not. A printer that was not
/// measured, or otherwise than these sheets are printed, is taken to put them where they are meant.
press::Landing landing_of(const job::Outcome& outcome, SheetSide side) {
  const sheets::Plan& plan = *outcome.plan;
  if (!outcome.printer || !plan.correction) return {};
  const press::Landing lands = press::landing(*outcome.printer, plan.grid.paper,
                                              sheets::behind(plan.grid.paper, plan.wishes.flip));
  if (side == SheetSide::uncorrected) return lands;
  return {then(plan.correction->front, lands.front), then(plan.correction->back, lands.back)};
}

/// Lays `back` behind `front` as the sheet is turned.
void shine_through(Raster& front, const Raster& back, const Affine& behind) {
  for (int y = 0; y < front.height; ++y) {
    for (int x = 0; x < front.width; ++x) {
      const int from_x = behind.a < 0 ? front.width - 1 - x : x;
      const int from_y = behind.d < 0 ? front.height - 1 - y : y;
      std::uint32_t& pixel = front.pixels[static_cast<std::size_t>(y * front.width + x)];
      pixel =
          seen_through(pixel, back.pixels[static_cast<std::size_t>(from_y * back.width + from_x)]);
    }
  }
}

}  // namespace

std::string name_of_picture(const Face& face, int width, Extent extent) {
  return fmt::format("face {} {} {}", face.stamp, width,
                     extent == Extent::bleed ? "bleed" : "trim");
}

Bytes draw_face(const Tools& tools, const game::Game& game, const Face& face, int width,
                Extent extent) {
  const Rect trim{{}, game.card.size};
  const Rect shown = extent == Extent::bleed ? grown(trim, bleed_of(game, face)) : trim;
  const double ppi = ppi_for(shown.size.width, width);
  ImageCanvas image(tools.shelf, shown.size, ppi, ImageCanvas::Background::transparent);
  Canvas& canvas = image.canvas();
  canvas.transform(Affine::move(Point{} - shown.at));
  canvas.clip(extent == Extent::trim ? Path::rounded_rectangle(trim, game.card.corner)
                                     : Path::rectangle(shown));
  canvas.fill(Path::rectangle(shown), white);
  draw(set(*face.scene, tools.typesetter), canvas);
  return write_png(image.raster(), ppi);
}

Bytes face_drawing(const Tools& tools, const game::Game& game, const Face& face,
                   Diagnostics& found) {
  const Rect shown = grown(Rect{{}, game.card.size}, bleed_of(game, face));
  const Drawing drawing{face.piece, shown, set(*face.scene, tools.typesetter)};
  return write_svg(drawing, {Layer::art}, tools.shelf).or_report(found).value_or("");
}

Bytes draw_sheet(const Tools& tools, const Snapshot& shown, std::size_t sheet, SheetSide side,
                 int width) {
  const Checkup& checkup = *shown.checkup;
  const sheets::Plan& plan = *checkup.outcome.plan;
  const double ppi = ppi_for(plan.grid.paper.width, width);
  Page blank;
  blank.media = plan.grid.paper;
  if (side == SheetSide::front || side == SheetSide::back) {
    return write_png(draw_page(tools, shown, page_of(checkup, sheet, side).value_or(blank), width),
                     ppi);
  }
  const press::Landing lands = landing_of(checkup.outcome, side);
  Raster raster = draw_page(tools, shown, page_of(checkup, sheet, SheetSide::front).value_or(blank),
                            width, lands.front);
  if (auto back = page_of(checkup, sheet, SheetSide::back)) {
    shine_through(raster, draw_page(tools, shown, std::move(*back), width, lands.back),
                  sheets::behind(plan.grid.paper, plan.wishes.flip));
  }
  return write_png(raster, ppi);
}

Bytes draw_net(const Tools& tools, const Snapshot& shown, std::size_t net, int width) {
  const job::Outcome& outcome = shown.checkup->outcome;
  pack::BoxNet lines = std::move(pack::box_nets(*outcome.box, outcome.game.title)[net]);
  const double ppi = ppi_for(lines.drawing.bounds.size.width, width);
  ImageCanvas image(tools.shelf, lines.drawing.bounds.size, ppi,
                    ImageCanvas::Background::transparent);
  Canvas& canvas = image.canvas();
  canvas.transform(Affine::move(Point{} - lines.drawing.bounds.at));
  const fold::Net& board = outcome.box->model.parts[net].net;
  for (const fold::Panel& panel : board.panels) {
    canvas.fill(Path::polygon(panel.outline), white);
  }
  if (const pieces::NetArt* art = art_of_net(outcome, net)) draw(art->printed, canvas);
  draw(set(std::move(lines.drawing.scene), tools.typesetter), canvas);
  return write_png(image.raster(), ppi);
}

Bytes draw_texture(const Tools& tools, const Snapshot& shown, std::size_t net) {
  const job::Outcome& outcome = shown.checkup->outcome;
  const Rect bounds = bounds_of_net(outcome.box->model.parts[net].net);
  const double longest = std::max(bounds.size.width, bounds.size.height).value;
  const double ppi = std::min(texture_pixels_per_mm, largest_texture / (longest + 1)) * mm_per_inch;
  ImageCanvas image(tools.shelf, bounds.size, ppi, ImageCanvas::Background::paper);
  image.canvas().transform(Affine::move(Point{} - bounds.at));
  if (const pieces::NetArt* art = art_of_net(outcome, net)) draw(art->printed, image.canvas());
  return write_png(image.raster(), ppi);
}

Bytes draw_font_sample(const Tools& tools, const std::string& family) {
  TextItem words;
  words.block.style.family = family;
  words.block.style.type_size = 6.5_mm;
  words.block.style.smallest_size = 3_mm;
  words.block.style.vertical = VerticalAlign::middle;
  words.block.runs = {TextRun{family, false, false, nullptr}};
  words.block.box = font_sample;
  Item item;
  item.what = std::move(words);
  Scene scene;
  scene.items.push_back(std::move(item));
  typeset(scene, tools.typesetter);
  ImageCanvas image(tools.shelf, font_sample, font_sample_ppi,
                    ImageCanvas::Background::transparent);
  draw(scene, image.canvas());
  return write_png(image.raster(), font_sample_ppi);
}

}  // namespace quoin::desk
