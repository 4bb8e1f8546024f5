#include <fmt/format.h>

#include "pack/mat_files.h"
#include "sheets/wording.h"

namespace quoin::pack {
namespace {

using sheets::millimetres;

bool is_cloth(const game::Game& game) { return game.mat->material == game::MatMaterial::cloth; }

/// "A2, 594 x 420 mm", or the size alone.
std::string mat_size_words(const game::Game& game, const pieces::Mat& mat) {
  const std::string size = millimetres(mat.plan.size);
  return game.mat->size_name.empty() ? size : game.mat->size_name + ", " + size;
}

std::string shrinkage_words(const std::string& side, double lost, double factor) {
  return fmt::format("{} {:.4f} times ({} % lost)", side, factor, sheets::number(Mm{lost * 100}));
}

}  // namespace

ShopMat shop_mat_sizes(const game::Game& game, const pieces::Mat& mat) {
  ShopMat shop;
  shop.across = 1 / (1 - game.mat->shrink_across);
  shop.down = 1 / (1 - game.mat->shrink_down);
  shop.finished = {mat.plan.size.width * shop.across, mat.plan.size.height * shop.down};
  shop.cut = grown(Rect{{}, shop.finished}, mat.plan.hem).size;
  return shop;
}

std::vector<std::string> shop_mat_words(const game::Game& game, const pieces::Mat& mat) {
  const ShopMat shop = shop_mat_sizes(game, mat);
  std::vector<std::string> lines;
  lines.push_back(fmt::format("{}: mat of {}, finished {}", game.title,
                              is_cloth(game) ? "cloth" : "paper", mat_size_words(game, mat)));
  if (!is_cloth(game)) {
    lines.push_back(fmt::format("print at 100 %; trim to {}; bleed {} all round",
                                millimetres(shop.cut), millimetres(mat.plan.bleed)));
    return lines;
  }
  const bool shrinks = shop.across > 1 || shop.down > 1;
  lines.push_back(
      shrinks ? fmt::format("drawn larger for shrinkage: {}, {}; {} between the hem lines",
                            shrinkage_words("width", game.mat->shrink_across, shop.across),
                            shrinkage_words("height", game.mat->shrink_down, shop.down),
                            millimetres(shop.finished))
              : "no shrinkage allowed for: drawn at its finished size between the hem lines");
  lines.push_back(fmt::format(
      "hem {} on each side: cut at {}, fold to the back along the dashed line; bleed {} beyond",
      millimetres(mat.plan.hem), millimetres(shop.cut), millimetres(mat.plan.bleed)));
  return lines;
}

std::vector<std::string> mat_lines(const game::Game& game, const pieces::Mat& mat,
                                   const sheets::Tiling* tiling) {
  std::vector<std::string> lines;
  const int places = static_cast<int>(mat.places.size());
  lines.push_back(fmt::format(
      "{}, {}, {}", mat_size_words(game, mat), is_cloth(game) ? "cloth" : "paper",
      places == 0 ? "no places for cards" : sheets::counted(places, "place") + " for cards"));
  lines.push_back(tiling == nullptr ? "for your printer: none, the sheets are too small"
                                    : "for your printer: " +
                                          sheets::tiling_words(*tiling, game.sheets.paper_name));
  if (is_cloth(game)) {
    const ShopMat shop = shop_mat_sizes(game, mat);
    lines.push_back(fmt::format("for the shop: cut at {}, {} of it hem on each side",
                                millimetres(shop.cut), millimetres(mat.plan.hem)));
  }
  return lines;
}

}  // namespace quoin::pack
