#include "desk/art_view.h"

#include <algorithm>
#include <cmath>

#include "desk/views.h"
#include "formats/png/png.h"
#include "media/canvas.h"

namespace quoin::desk {
namespace {

/// Pixels along a side that are shown at the most.
constexpr double most_shown = 4096;
constexpr double screen_ppi = 96;

Json print_sizes(const job::ListedPicture& picture) {
  Json sizes = Json::array();
  for (const job::PrintSize& one : picture.sizes) {
    sizes.push_back(
        {{"ppi", one.ppi}, {"width", one.size.width.value}, {"height", one.size.height.value}});
  }
  return sizes;
}

std::string_view kind_of(const job::ListedPicture& picture) {
  if (!picture.readable) return "unreadable";
  return picture.facts.is_vector() ? "vectors" : "pixels";
}

Json picture_view(const job::ListedPicture& picture) {
  Json view{{"file", picture.file},
            {"stamp", stamp_of(picture.key)},
            {"kind", kind_of(picture)},
            {"width", picture.facts.width},
            {"height", picture.facts.height},
            {"bytes", picture.bytes},
            {"alpha", picture.facts.has_alpha},
            {"profile", picture.facts.profile},
            {"ppi", picture.ppi ? Json(*picture.ppi) : Json(nullptr)},
            {"printed", nullptr},
            {"pieces", picture.pieces},
            {"state", job::to_string(picture.state)},
            {"words", picture.words},
            {"sizes", print_sizes(picture)},
            {"made", picture.made}};
  if (picture.printed) {
    view["printed"] = {{"width", picture.printed->width.value},
                       {"height", picture.printed->height.value}};
  }
  return view;
}

std::string_view verdict_word(job::Verdict verdict) {
  switch (verdict) {
    case job::Verdict::good:
      return "good";
    case job::Verdict::look_closely:
      return "look";
    case job::Verdict::better_as_picture:
      return "keep";
    case job::Verdict::cannot_be_helped:
      break;
  }
  return "hopeless";
}

}  // namespace

Json colours_view(const std::vector<job::PaletteColour>& colours) {
  Json view = Json::array();
  for (const job::PaletteColour& one : colours) {
    view.push_back({{"name", one.name}, {"colour", to_string(one.colour)}, {"share", one.share}});
  }
  return view;
}

std::string stamp_of(const std::string& key) { return key.substr(0, 16); }

Json pictures_view(const Snapshot& shown, const job::PictureList& list) {
  Json pictures = Json::array();
  for (const job::ListedPicture& one : list.pictures) pictures.push_back(picture_view(one));
  return {{"revision", shown.revision},
          {"goodPpi", list.good_ppi},
          {"leastPpi", list.least_ppi},
          {"pictures", std::move(pictures)},
          {"colours", colours_view(job::colours_of(shown.game))},
          {"brief", list.brief}};
}

Json redrawing_view(const job::Redrawn& redrawn, int width, int height, const std::string& name,
                    const World& world) {
  const auto& judgement = redrawn.facts.judgement;
  Json colours = Json::array(), small = Json::array();
  for (const auto& one : judgement.plain_colours) {
    colours.push_back(
        {{"colour", to_string(one.colour)}, {"name", one.name}, {"share", one.share}});
  }
  for (const auto& one : redrawn.facts.small_text) {
    small.push_back(
        {{"x", one.at.x}, {"y", one.at.y}, {"width", one.width}, {"height", one.height}});
  }
  return {{"id", name},
          {"width", width},
          {"height", height},
          {"verdict", verdict_word(judgement.verdict)},
          {"reasons", judgement.reasons},
          {"mean", judgement.comparison.mean},
          {"worst", judgement.comparison.worst},
          {"ssim", judgement.comparison.ssim},
          {"nodes", judgement.nodes},
          {"bytes", redrawn.svg.size()},
          {"colours", std::move(colours)},
          {"smallText", std::move(small)},
          {"findings", findings_view(redrawn.facts.found, world)}};
}

Json cards_view(const job::PicturedCards& cards) {
  Json found = Json::array();
  for (const job::PicturedCard& card : cards.cards) {
    Json corners = Json::array();
    for (const job::PicturePoint& at : card.corners) corners.push_back({{"x", at.x}, {"y", at.y}});
    found.push_back({{"corners", std::move(corners)}, {"doubts", card.doubts}});
  }
  return {{"width", cards.width},
          {"height", cards.height},
          {"cards", std::move(found)},
          {"grid", cards.grid}};
}

Json made_view(const job::NewPictures& made) {
  Json pictures = Json::array();
  for (const job::NewPicture& one : made.pictures) {
    pictures.push_back({{"width", one.width}, {"height", one.height}, {"doubts", one.doubts}});
  }
  return {{"pictures", std::move(pictures)}, {"words", made.words}};
}

Bytes draw_picture(PictureShelf& shelf, const PicturePtr& picture, int width) {
  const PictureFacts& facts = picture->facts();
  const double own = std::max(1.0, facts.is_vector() ? std::ceil(facts.width) : facts.width);
  // A drawing in vectors has as many pixels as are asked for.
  const double asked = width == 0          ? own
                       : facts.is_vector() ? double(width)
                                           : std::min(double(width), own);
  const double scale =
      std::min({asked / facts.width, most_shown / facts.width, most_shown / facts.height});
  if (!facts.is_vector() && scale >= 1) {
    const auto pixels = shelf.pixels(picture);
    return pixels ? write_png(**pixels, screen_ppi) : Bytes{};
  }
  const double wide = std::max(1.0, std::round(facts.width * scale));
  const double high = std::max(1.0, std::round(facts.height * scale));
  const Size size{Mm{wide}, Mm{high}};  // a pixel to a millimetre
  ImageCanvas image(shelf, size, mm_per_inch, ImageCanvas::Background::transparent);
  image.canvas().picture(picture, {{}, size});
  return image.found().empty() ? write_png(image.raster(), screen_ppi) : Bytes{};
}

}  // namespace quoin::desk
