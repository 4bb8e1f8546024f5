// Redraws pictures whose vectors are known and says how true the drawings are, beside layers of
// libpotrace: `measured_tracing NODE_MODULES tuned|held-out|gradients SIZE clean|q75|q50|photo
// closest|fewest-nodes [FOLDER]`. With FOLDER the pictures and drawings are left there.
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <string_view>

#include "formats/png/png.h"
#include "potrace_layers.h"
#include "scenes.h"
#include "trace/fidelity.h"
#include "trace/svg.h"

namespace quoin::trials {
namespace {

constexpr int times = 4;  // as large as the picture: where drawings are compared

struct Sum {
  double mean = 0, worst = 0, ssim = 0, through = 0, nodes = 0, written = 0, bytes = 0, seconds = 0;
};

/// The share of pixels that change with the page behind, in percent.
double shows_through(const Bytes& svg, int width, int height) {
  const auto drawn = trace::drawn(svg, width, height);
  std::size_t count = 0;
  const Raster a = laid_on(*drawn, 0xFF00FF), b = laid_on(*drawn, 0x00FF00);
  for (std::size_t i = 0; i < a.pixels.size(); ++i) {
    for (const int shift : {0, 8, 16}) {
      const int d = int(a.pixels[i] >> shift & 255) - int(b.pixels[i] >> shift & 255);
      if (std::abs(d) > 5) {
        ++count;
        break;
      }
    }
  }
  return 100.0 * double(count) / double(a.pixels.size());
}

int written_segments(const Bytes& svg) {
  int count = 0;
  for (std::size_t at = svg.find(" d=\""); at != Bytes::npos; at = svg.find(" d=\"", at + 1)) {
    for (std::size_t i = at + 4; svg[i] != '"'; ++i) {
      count += std::string_view("lhvcLC").find(svg[i]) != std::string_view::npos ? 1 : 0;
    }
  }
  for (std::size_t at = svg.find("<circle"); at != Bytes::npos; at = svg.find("<circle", at + 1)) {
    count += 4;
  }
  return count;
}

void add(Sum& sum, const Raster& truth, const Bytes& svg, int nodes, double seconds) {
  const Raster again = rendered(svg, truth.width, truth.height);
  const trace::Comparison c = trace::compare(truth, again);
  sum.mean += c.mean;
  sum.worst += c.worst;
  sum.ssim += c.ssim;
  sum.through += shows_through(svg, truth.width, truth.height);
  sum.nodes += nodes;
  sum.written += written_segments(svg);
  sum.bytes += double(svg.size());
  sum.seconds += seconds;
}

void put(const std::string& path, const Bytes& bytes) {
  std::ofstream(path, std::ios::binary) << bytes;
}

void print(const char* name, const Sum& s, double n) {
  fmt::print(
      "{:<14} dE {:.3f}  p95 {:.2f}  SSIM {:.4f}  through {:.3f} %  nodes {:.0f}  written "
      "{:.0f}  bytes {:.0f}  {:.3f} s\n",
      name, s.mean / n, s.worst / n, s.ssim / n, s.through / n, s.nodes / n, s.written / n,
      s.bytes / n, s.seconds / n);
}

Raster disturbed(const Raster& clean, std::string_view how) {
  if (how == "q75") return through_jpeg(clean, 75);
  if (how == "q50") return through_jpeg(clean, 50);
  if (how == "photo") return photographed(clean, 7);
  return clean;
}

int run(const std::vector<std::string>& words) {
  const std::string set = words[1], how = words[3], folder = words.size() > 5 ? words[5] : "";
  const int size = std::atoi(words[2].c_str());
  trace::TraceWishes wishes;
  wishes.closeness =
      words[4] == "fewest-nodes" ? trace::Closeness::fewest_nodes : trace::Closeness::closest;
  const std::vector<KnownPicture> all =
      set == "gradients" ? gradient_scenes()
                         : icons(words[0], set == "tuned" ? Half::tuned : Half::held_out);
  Sum ours, theirs;
  for (const KnownPicture& known : all) {
    const Raster truth = rendered(known, size, times);
    const Raster picture = disturbed(reduced(truth, times), how);
    const auto start = std::chrono::steady_clock::now();
    const auto made = trace::redraw(picture, wishes, known.name, {});
    const Bytes svg = trace::write_svg(made->value, known.name);
    const auto end = std::chrono::steady_clock::now();
    const auto areas = trace::colour_areas(picture, wishes, 4, known.name, {});
    const PotraceDrawing layers = potrace_layers(*areas);
    const auto last = std::chrono::steady_clock::now();
    Sum one, other;
    add(one, truth, svg, trace::node_count(made->value),
        std::chrono::duration<double>(end - start).count());
    add(other, truth, layers.svg, layers.segments,
        std::chrono::duration<double>(last - end).count());
    fmt::print(
        "{:<28} noise {:.2f}{} layers {} faces {} | ours {:.3f} {:.0f} | potrace {:.3f} "
        "{:.0f}\n",
        known.name, made->value.noise, made->value.smoothed ? "*" : " ", made->value.layers.size(),
        made->value.faces.size(), one.mean, one.nodes, other.mean, other.nodes);
    for (const auto& [sum, add_to] : {std::pair{&one, &ours}, {&other, &theirs}}) {
      add_to->mean += sum->mean;
      add_to->worst += sum->worst;
      add_to->ssim += sum->ssim;
      add_to->through += sum->through;
      add_to->nodes += sum->nodes;
      add_to->written += sum->written;
      add_to->bytes += sum->bytes;
      add_to->seconds += sum->seconds;
    }
    if (folder.empty()) continue;
    put(folder + "/" + known.name + ".svg", svg);
    put(folder + "/" + known.name + "-potrace.svg", layers.svg);
    put(folder + "/" + known.name + "-in.png", write_png(picture, 96));
    put(folder + "/" + known.name + "-truth.png", write_png(truth, 96));
  }
  print("ours", ours, double(all.size()));
  print("potrace layers", theirs, double(all.size()));
  fmt::print("nodes, ours over theirs: {:.2f}\n", ours.nodes / theirs.nodes);
  return 0;
}

}  // namespace
}  // namespace quoin::trials

int main(int argc, char** argv) {
  const std::vector<std::string> words(argv + 1, argv + argc);
  if (words.size() < 5) {
    fmt::print(stderr,
               "use: measured_tracing NODE_MODULES tuned|held-out|gradients SIZE "
               "clean|q75|q50|photo closest|fewest-nodes [FOLDER]\n");
    return 1;
  }
  return quoin::trials::run(words);
}
