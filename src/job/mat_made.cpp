#include "job/mat_made.h"

#include "base/build_id.h"
#include "base/hash.h"
#include "formats/png/png.h"
#include "job/printer/known_printer.h"
#include "job/scene_name.h"
#include "pack/kept_bytes.h"
#include "pack/mat_files.h"

namespace quoin::job {

void draw_mat(const Wishes& wishes, Workshop& shop, Outcome& outcome, Diagnostics& found) {
  if (!outcome.game.mat || !wishes.only.empty()) return;
  Checked<std::optional<pieces::Mat>> made = pieces::make_mat(shop.studio(), shop.typesetter());
  outcome.mat = std::move(made.value);
  for (Diagnostic& problem : made.found) found.push_back(std::move(problem));
  if (!outcome.mat) return;
  const game::MatWishes& mat = *outcome.game.mat;
  // The guide tells of the sheets too; what is wrong with them only matters where they are printed.
  Diagnostics elsewhere;
  Diagnostics& told = wishes.parts.contains(Part::home) ? found : elsewhere;
  outcome.mat_tiling =
      sheets::lay_tiles(mat.size, mat.overlap, outcome.game.sheets, mat.place("size"))
          .or_report(told);
  print_mat_for_printer(outcome, told);
}

std::optional<Bytes> mat_png(const Outcome& outcome, const std::string& game_hash,
                             ImageCache* cache, PictureShelf& shelf, Diagnostics& found) {
  const pieces::Mat& mat = *outcome.mat;
  std::string name;
  if (!game_hash.empty()) {
    PackedWriter out;
    out.string(build_id());
    out.string(game_hash);
    write_contents(out, mat.scene);
    name = sha256(out.take());
  }
  if (std::optional<Bytes> known = pack::kept(cache, "mat", name)) return known;
  Diagnostics undrawn;
  const Raster picture = pack::mat_picture(mat, pack::mat_picture_pixels, shelf, undrawn);
  Bytes png = write_png(picture, pack::mat_picture_ppi(mat, pack::mat_picture_pixels));
  if (undrawn.empty()) pack::keep(cache, "mat", name, png);
  for (Diagnostic& one : undrawn) found.push_back(std::move(one));
  return png;
}

}  // namespace quoin::job
