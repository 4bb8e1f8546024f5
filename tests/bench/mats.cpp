// Draws the mat of a game and writes its tiled edition: `measured_mat FOLDER OUT.pdf [RUNS]`.
//
// Prints two numbers of seconds, each the least of the runs: for drawing the mat with all its
// checks, and for laying it on sheets and writing home/mat.pdf. Pictures are opened anew each time.
#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <fstream>
#include <string_view>

#include "base/world.h"
#include "formats/pdf/pdf.h"
#include "pack/mat_files.h"

namespace quoin::bench {
namespace {

using Clock = std::chrono::steady_clock;

double since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

struct Took {
  double drawing = 1e9, writing = 1e9;
};

std::vector<FontFile> fonts_of(const game::Game& game, const World& world) {
  std::vector<FontFile> fonts;
  for (const std::string& path : game.font_files) {
    fonts.push_back({path, world.read(path, largest_file).bytes});
  }
  return fonts;
}

bool run_once(const World& world, const char* out, Took& best) {
  const game::Game game = game::read_game(world).value;
  PictureShelf shelf(world);
  Typesetter typesetter(fonts_of(game, world));
  Diagnostics found;
  const pieces::Studio studio(game, shelf, found);
  const auto started = Clock::now();
  const auto mat = pieces::make_mat(studio, typesetter);
  if (!mat.value) return false;
  best.drawing = std::min(best.drawing, since(started));
  const auto drawn_at = Clock::now();
  const auto tiling =
      sheets::lay_tiles(game.mat->size, game.mat->overlap, game.sheets, game.mat->origin);
  if (!tiling) return false;
  Document home = pack::home_mat(game, *mat.value, *tiling);
  for (Page& page : home.pages) typeset(page.own, typesetter);
  const auto symbols = DrawnSymbols::draw(pack::mat_symbols(*mat.value), shelf, {});
  if (!symbols) return false;
  const Result<Bytes> pdf = write_pdf(std::move(home), *symbols, shelf);
  if (!pdf) return false;
  std::ofstream(out, std::ios::binary) << *pdf;
  best.writing = std::min(best.writing, since(drawn_at));
  return true;
}

}  // namespace
}  // namespace quoin::bench

int main(int argc, char** argv) {
  if (argc < 3) {
    fmt::print(stderr, "use: measured_mat FOLDER OUT.pdf [RUNS]\n");
    return 1;
  }
  int runs = 3;
  if (argc > 3) {
    const std::string_view text(argv[3]);
    std::from_chars(text.data(), text.data() + text.size(), runs);
  }
  const auto world = quoin::real_world(argv[1]);
  quoin::bench::Took best;
  for (int i = 0; i < runs; ++i) {
    if (quoin::bench::run_once(*world, argv[2], best)) continue;
    fmt::print(stderr, "measured_mat: {} gives no tiled mat\n", argv[1]);
    return 2;
  }
  fmt::print("{:.4f} {:.4f}\n", best.drawing, best.writing);
  return 0;
}
