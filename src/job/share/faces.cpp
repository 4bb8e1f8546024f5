#include "job/share/faces.h"

#include <algorithm>

#include "base/hash.h"
#include "formats/png/png.h"
#include "job/ahead.h"
#include "job/copies.h"
#include "job/guide_shown.h"
#include "pack/kept_bytes.h"
#include "pieces/card/face.h"
#include "pieces/card/measure_face.h"

namespace quoin::job {
namespace {

/// Enough to tell how much ink there is: 51 ppi.
constexpr double ink_pixels_per_mm = 2;
constexpr std::size_t most_samples = 3;

std::string digest(const Raster& raster) {
  const std::string_view pixels(reinterpret_cast<const char*>(raster.pixels.data()),
                                raster.pixels.size() * sizeof(std::uint32_t));
  return sha256(std::to_string(raster.width) + " " + sha256(pixels));
}

/// Fronts spread over the deck, for the page.
std::set<std::size_t> sample_fronts(const Workshop& shop) {
  const auto fronts = static_cast<std::size_t>(shop.fronts());
  const std::size_t count = std::min(most_samples, fronts);
  std::set<std::size_t> samples;
  for (std::size_t i = 0; i < count; ++i) samples.insert((2 * i + 1) * fronts / (2 * count));
  return samples;
}

/// The way through all faces.
class Pass {
 public:
  Pass(Workshop& shop, const game::Game& game, LowInk& low_ink, ImageCache* cache,
       Diagnostics& found)
      : shop_(shop),
        game_(game),
        low_ink_(low_ink),
        cache_(cache),
        found_(found),
        ahead_(shop),
        contact_(game.card.size, shop.shelf(), shop.typesetter(), cache),
        for_guide_(faces_for_guide(shop)),
        samples_(sample_fronts(shop)) {}

  Scene full(std::size_t i) {
    Scene scene = ahead_.next();
    shop_.finish(i, scene);
    const std::string looks = shop_.name(i, scene);
    show(i, scene, looks);
    if (for_guide_.contains(i)) faces.for_guide[i] = scene;
    if (i == top_card_of(shop_)) faces.top_card = TopCard{scene, looks};
    return scene;
  }

  Scene low(std::size_t i, const Scene& scene) {
    Scene changed = low_ink_(scene, Rect{{}, game_.card.size});
    typeset(changed, shop_.typesetter());
    const Rect bounds = bounds_of(i);
    ImageCanvas image(shop_.shelf(), bounds.size, ink_pixels_per_mm * mm_per_inch,
                      ImageCanvas::Background::paper);
    image.canvas().transform(Affine::move(Point{} - bounds.at));
    draw(changed, image.canvas());
    faces.low_ink.push_back(pieces::ink_on(image.raster()));
    if (!for_guide_.empty() && i == *for_guide_.begin()) faces.first_low = changed;
    if (samples_.contains(i)) {
      Diagnostics told_elsewhere;  // with the same picture in full colour
      const Raster small =
          pack::preview(changed, game_.card.size, game_.card.corner, shop_.shelf(), told_elsewhere);
      faces.samples_low.push_back({shop_.drawings()[i].piece, write_png(small, pack::preview_ppi)});
    }
    return changed;
  }

  [[nodiscard]] Rect bounds_of(std::size_t i) const {
    const Mm bleed = shop_.drawings()[i].is_back ? pieces::back_bleed(game_) : game_.card.bleed;
    return grown(Rect{{}, game_.card.size}, bleed);
  }

  void finish() {
    if (auto last = contact_.finish({})) faces.contact_sheets.push_back(std::move(*last));
  }

  DrawnFaces faces;

 private:
  /// On the contact sheet, among the samples, and as a digest.
  void show(std::size_t i, const Scene& scene, const std::string& looks) {
    std::optional<Bytes> png = pack::kept(cache_, "preview", looks);
    std::optional<Raster> pixels = png ? read_png(*png) : std::nullopt;
    pack::PreviewFace face{shop_.drawings()[i].file, shop_.drawings()[i].piece, looks};
    if (!pixels) {
      Diagnostics undrawn;
      pixels = pack::preview(scene, game_.card.size, game_.card.corner, shop_.shelf(), undrawn);
      png = write_png(*pixels, pack::preview_ppi);
      if (undrawn.empty()) {
        pack::keep(cache_, "preview", looks, *png);
      } else {
        face.looks.clear();
      }
      for (Diagnostic& one : undrawn) found_.push_back(std::move(one));
    }
    faces.digests.push_back(digest(*pixels));
    if (samples_.contains(i)) faces.samples_full.push_back({shop_.drawings()[i].piece, *png});
    if (auto sheet = contact_.add(face, std::move(*png))) {
      faces.contact_sheets.push_back(std::move(*sheet));
    }
  }

  Workshop& shop_;
  const game::Game& game_;
  LowInk& low_ink_;
  ImageCache* cache_;
  Diagnostics& found_;
  Ahead ahead_;
  pack::ContactSheets contact_;
  std::set<std::size_t> for_guide_, samples_;
};

}  // namespace

DrawnFaces draw_faces_twice(Workshop& shop, const game::Game& game, LowInk& low_ink,
                            ImageCache* cache, Watcher& watcher, Diagnostics& found) {
  Pass pass(shop, game, low_ink, cache, found);
  std::vector<Symbol> symbols;
  for (std::size_t i = 0; i < shop.drawings().size(); ++i) {
    symbols.push_back({pass.bounds_of(i), [&pass, i] { return pass.full(i); }});
  }
  const int count = static_cast<int>(symbols.size());
  auto both = DrawnSymbols::draw_both(
                  symbols, [&](std::size_t i, const Scene& scene) { return pass.low(i, scene); },
                  shop.shelf(), [&](int done) { return watcher.at("drawing cards", done, count); })
                  .or_report(found);
  if (!both) return std::move(pass.faces);
  pass.finish();
  pass.faces.full.emplace(std::move(both->as_they_are));
  pass.faces.low.emplace(std::move(both->changed));
  return std::move(pass.faces);
}

}  // namespace quoin::job
