// The tracer against what it has no part in: vectors of others that it sees only as small pictures,
// libpotrace on the same areas of colour, an SSIM of others, other renderers and an XML parser.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "formats/png/png.h"
#include "known_pictures.h"
#include "potrace_layers.h"
#include "programs.h"
#include "scenes.h"
#include "trace/fidelity.h"
#include "trace/svg.h"

namespace quoin::outside {
namespace {

using trials::Half;
using trials::KnownPicture;

constexpr int times = 4;  // as large as the picture that is traced: where drawings are compared

/// Nothing of the page may show: eight bits leave a step or two of rounding.
constexpr int rounding = 3;

struct Seen {
  KnownPicture known;
  Raster truth, picture;
};

const std::vector<Seen>& pictures(Half half) {
  static std::map<Half, std::vector<Seen>> all;
  std::vector<Seen>& seen = all[half];
  if (!seen.empty()) return seen;
  for (KnownPicture& known : trials::icons(QUOIN_NODE_PACKAGES, half)) {
    Raster truth = trials::rendered(known, 300, times);
    Raster picture = trials::reduced(truth, times);
    seen.push_back({std::move(known), std::move(truth), std::move(picture)});
  }
  return seen;
}

trace::Tracing traced(const Raster& picture, trace::Closeness closeness) {
  trace::TraceWishes wishes;
  wishes.closeness = closeness;
  return trace::redraw(picture, wishes, "it", {})->value;
}

struct Means {
  double difference = 0, nodes = 0;
};

Means means_of(Half half, trace::Closeness closeness, int jpeg_quality = 0) {
  Means means;
  for (const Seen& seen : pictures(half)) {
    const Raster picture =
        jpeg_quality > 0 ? trials::through_jpeg(seen.picture, jpeg_quality) : seen.picture;
    const trace::Tracing tracing = traced(picture, closeness);
    const Bytes svg = trace::write_svg(tracing, "it");
    const Raster again = trials::rendered(svg, seen.truth.width, seen.truth.height);
    means.difference += trace::compare(seen.truth, again).mean;
    means.nodes += trace::node_count(tracing);
  }
  means.difference /= double(pictures(half).size());
  means.nodes /= double(pictures(half).size());
  return means;
}

// The pictures: @iconify-json/streamline-emojis 1.2.4 (CC BY 4.0), noto 1.2.9 (Apache 2.0),
// fluent-emoji-flat 1.2.6 (MIT), twemoji 1.2.5 (CC BY 4.0), from the npm registry. Parameters were
// chosen on the half called tuned.

TEST(TraceQuality, follows_known_drawings_of_300_px) {
  EXPECT_LE(means_of(Half::tuned, trace::Closeness::closest).difference, 0.16);
  EXPECT_LE(means_of(Half::held_out, trace::Closeness::closest).difference, 0.16);
}

TEST(TraceQuality, stays_near_with_the_fewest_nodes) {
  EXPECT_LE(means_of(Half::tuned, trace::Closeness::fewest_nodes).difference, 0.22);
  EXPECT_LE(means_of(Half::held_out, trace::Closeness::fewest_nodes).difference, 0.22);
}

TEST(TraceQuality, sees_through_the_noise_of_a_jpeg) {
  EXPECT_LE(means_of(Half::tuned, trace::Closeness::closest, 75).difference, 0.36);
  EXPECT_LE(means_of(Half::held_out, trace::Closeness::closest, 75).difference, 0.36);
}

TEST(TraceQuality, finds_gradients) {
  double sum = 0;
  for (const KnownPicture& scene : trials::gradient_scenes()) {
    const Raster truth = trials::rendered(scene, 300, times);
    const trace::Tracing tracing = traced(trials::reduced(truth, times), trace::Closeness::closest);
    const Bytes svg = trace::write_svg(tracing, scene.name);
    const double difference =
        trace::compare(truth, trials::rendered(svg, truth.width, truth.height)).mean;
    EXPECT_LE(difference, 0.4) << scene.name;
    sum += difference;
  }
  EXPECT_LE(sum / double(trials::gradient_scenes().size()), 0.3);
}

// Source: libpotrace 1.16 (Debian), layers that reach a pixel under their followers, on the same
// areas of colour at four cells a pixel.

TEST(BesidePotrace, needs_seven_tenths_of_the_segments_and_is_no_farther_off) {
  double ours = 0, theirs = 0, our_nodes = 0, their_nodes = 0;
  for (const Seen& seen : pictures(Half::held_out)) {
    const trace::Tracing tracing = traced(seen.picture, trace::Closeness::closest);
    const auto areas = trace::colour_areas(seen.picture, {}, 4, "it", {});
    const trials::PotraceDrawing layers = trials::potrace_layers(*areas);
    const auto off = [&](const Bytes& svg) {
      return trace::compare(seen.truth, trials::rendered(svg, seen.truth.width, seen.truth.height))
          .mean;
    };
    ours += off(trace::write_svg(tracing, "it"));
    theirs += off(layers.svg);
    our_nodes += trace::node_count(tracing);
    their_nodes += layers.segments;
  }
  EXPECT_LE(our_nodes, 0.7 * their_nodes);
  EXPECT_LE(ours, theirs);
}

/// Points on the curves of a path, close to each other.
std::vector<trace::Spot> points_on(const Path& path) {
  std::vector<trace::Spot> points;
  trace::Spot at;
  const auto spot = [](Point p) { return trace::Spot{p.x.value, p.y.value}; };
  for (const Path::Step& step : path.steps()) {
    if (step.verb == Path::Verb::close) continue;
    const bool curved = step.verb == Path::Verb::curve;
    const trace::Spot end = spot(step.p[curved ? 2 : 0]);
    const trace::Spot a = curved ? spot(step.p[0]) : at, b = curved ? spot(step.p[1]) : end;
    for (int i = 1; i <= 40 && step.verb != Path::Verb::move; ++i) {
      const double t = i / 40.0, s = 1 - t;
      points.push_back(at * (s * s * s) + a * (3 * s * s * t) + b * (3 * s * t * t) +
                       end * (t * t * t));
    }
    at = end;
  }
  return points;
}

TEST(BesidePotrace, draws_borders_where_it_does) {
  const KnownPicture shape{
      "shape",
      "<svg xmlns='http://www.w3.org/2000/svg' width='100' height='100'><path d='M15 60C15 10 60 5 "
      "80 30S95 90 50 88 15 85 15 60Z' fill='#102030'/></svg>",
      100, 100};
  const Raster picture = trials::reduced(trials::rendered(shape, 100, times), times);
  const auto areas = trace::colour_areas(picture, {}, 4, "it", {});
  int dark = 0;
  for (std::size_t i = 0; i < areas->colours.size(); ++i) {
    if (areas->colours[i].red < 0.5) dark = int(i);
  }
  const auto theirs = points_on(trials::potrace_outline(*areas, dark));
  double worst = 0, sum = 0;
  int count = 0;
  for (const trace::Border& border : traced(picture, trace::Closeness::closest).borders) {
    if (!border.closed) continue;
    for (const trace::Curve& curve : border.curves) {
      for (int i = 0; i < 20; ++i) {
        const double t = i / 20.0, s = 1 - t;
        const trace::Spot p = curve.p[0] * (s * s * s) + curve.p[1] * (3 * s * s * t) +
                              curve.p[2] * (3 * s * t * t) + curve.p[3] * (t * t * t);
        double near = 1e9;
        for (const trace::Spot& q : theirs) near = std::min(near, std::hypot(p.x - q.x, p.y - q.y));
        worst = std::max(worst, near);
        sum += near;
        ++count;
      }
    }
  }
  ASSERT_GT(count, 0);
  // Its own steps are a quarter of a pixel.
  EXPECT_LE(sum / count, 0.15);  // pixels
  EXPECT_LE(worst, 0.5);
}

// Source: ssim.js 3.5.0 of the npm registry, `ssim: "original"`, windowSize 11, k1 0.01, k2 0.03,
// bitDepth 8, no downsampling, grey by its "original" weights, which are those of BT.601 to five
// digits; it too takes windows that lie within the picture.
TEST(Ssim, is_that_of_another_program) {
  const Folder folder;
  const Seen& seen = pictures(Half::tuned).front();
  const Raster other = trials::through_jpeg(seen.picture, 40);
  const auto pixels = [](const Raster& raster) {
    std::string bytes;
    for (const std::uint32_t p : raster.pixels) {
      for (const int shift : {16, 8, 0, 24}) bytes += static_cast<char>(p >> shift & 255);
    }
    return bytes;
  };
  const std::string one = folder.put("one", pixels(seen.picture));
  const std::string two = folder.put("two", pixels(other));
  const std::string script = folder.put(
      "ssim.js", fmt::format("const {{ssim}} = require('{}/ssim.js');"
                             "const fs = require('fs');"
                             "const read = name => ({{data: new Uint8ClampedArray(fs.readFileSync("
                             "name)), width: {}, height: {}}});"
                             "console.log(ssim(read('{}'), read('{}'), {{ssim: 'original', "
                             "windowSize: 11, k1: 0.01, k2: 0.03, bitDepth: 8, downsample: false, "
                             "rgb2grayVersion: 'original'}}).mssim);",
                             QUOIN_NODE_PACKAGES, other.width, other.height, one, two));
  const Answer answer = run({"node", script});
  ASSERT_EQ(answer.exit_code, 0) << answer.words;
  EXPECT_NEAR(trace::compare(seen.picture, other).ssim, std::atof(answer.words.c_str()), 0.002);
}

/// Some drawings in one SVG, side by side, 300 px each.
struct Sheet {
  Bytes svg;
  int width = 0, height = 300;
};
Sheet sheet_of_drawings() {
  Sheet sheet;
  std::string body;
  int number = 0;
  for (const Seen& seen : pictures(Half::held_out)) {
    if (number == 5) break;
    Bytes svg = trace::write_svg(traced(seen.picture, trace::Closeness::closest), "it");
    // Names are unlike within a drawing; put together they need not be.
    for (std::size_t at = svg.find("paint-"); at != Bytes::npos; at = svg.find("paint-", at + 8)) {
      svg.insert(at, fmt::format("d{}-", number));
    }
    body += fmt::format("<svg x=\"{}\" y=\"0\"{}", 300 * number, svg.substr(4));
    ++number;
  }
  sheet.width = 300 * number;
  sheet.svg = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" "
      "height=\"300\" viewBox=\"0 0 {0} 300\">{1}</svg>",
      sheet.width, body);
  return sheet;
}

/// The pixels at which two renderings on different pages differ by more than rounding.
int showing_through(const Pixels& one, const Pixels& other) {
  EXPECT_EQ(one.rgb.size(), other.rgb.size());
  int count = 0;
  for (std::size_t i = 0; i < one.rgb.size(); i += 3) {
    int off = 0;
    for (std::size_t k = i; k < i + 3; ++k) {
      off = std::max(off, std::abs(int(one.rgb[k]) - int(other.rgb[k])));
    }
    count += off > rounding ? 1 : 0;
  }
  return count;
}

Pixels png_pixels(const Folder& folder, const std::string& name) {
  const Answer answer = run({"convert", folder.path(name), "-depth", "8", folder.path("x.ppm")});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  return read_ppm(folder.read("x.ppm"));
}

TEST(TracedSvg, shows_no_page_in_librsvg) {
  const Folder folder;
  const Sheet sheet = sheet_of_drawings();
  folder.put("sheet.svg", sheet.svg);
  for (const std::string zoom : {"1", "4"}) {
    std::vector<Pixels> seen;
    for (const std::string page : {"#ff00ff", "#00ff00"}) {
      ASSERT_EQ(run({"rsvg-convert", "-z", zoom, "-b", page, "-o", folder.path("r.png"),
                     folder.path("sheet.svg")})
                    .exit_code,
                0);
      seen.push_back(png_pixels(folder, "r.png"));
    }
    EXPECT_EQ(showing_through(seen[0], seen[1]), 0) << "zoom " << zoom;
  }
}

TEST(TracedSvg, shows_no_page_in_poppler) {
  const Folder folder;
  const Sheet sheet = sheet_of_drawings();
  std::vector<Pixels> seen;
  for (const std::string page : {"#ff00ff", "#00ff00"}) {
    folder.put("sheet.svg", sheet.svg);
    ASSERT_EQ(run({"rsvg-convert", "-f", "pdf", "-b", page, "-o", folder.path("s.pdf"),
                   folder.path("sheet.svg")})
                  .exit_code,
              0);
    // 288 ppi on 96: three pixels for each of the picture.
    ASSERT_EQ(run({"pdftoppm", "-r", "288", folder.path("s.pdf"), folder.path("p")}).exit_code, 0);
    seen.push_back(read_ppm(folder.read("p-1.ppm")));
  }
  EXPECT_EQ(showing_through(seen[0], seen[1]), 0);
}

Pixels in_chromium(const Folder& folder, const Sheet& sheet, const std::string& page) {
  folder.put("page.html",
             fmt::format("<!doctype html><body style=\"margin:0;background:{}\"><img "
                         "style=\"display:block\" src=\"sheet.svg\" width=\"{}\" height=\"{}\">",
                         page, sheet.width * 2, sheet.height * 2));
  const Answer answer =
      run({"chromium", "--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
           "--force-device-scale-factor=1", "--user-data-dir=" + folder.path("profile"),
           fmt::format("--window-size={},{}", sheet.width * 2, sheet.height * 2 + 200),
           "--screenshot=" + folder.path("c.png"), "file://" + folder.path("page.html")});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  EXPECT_EQ(run({"convert", folder.path("c.png"), "-crop",
                 fmt::format("{}x{}+0+0", sheet.width * 2, sheet.height * 2), "+repage",
                 folder.path("cut.png")})
                .exit_code,
            0);
  return png_pixels(folder, "cut.png");
}

TEST(TracedSvg, shows_no_page_in_chromium_and_looks_there_as_in_librsvg) {
  const Folder folder;
  const Sheet sheet = sheet_of_drawings();
  folder.put("sheet.svg", sheet.svg);
  const Pixels one = in_chromium(folder, sheet, "#ff00ff");
  const Pixels other = in_chromium(folder, sheet, "#00ff00");
  EXPECT_EQ(showing_through(one, other), 0);
  ASSERT_EQ(run({"rsvg-convert", "-z", "2", "-b", "#ff00ff", "-o", folder.path("r.png"),
                 folder.path("sheet.svg")})
                .exit_code,
            0);
  const Difference unlike = difference(one, png_pixels(folder, "r.png"));
  EXPECT_LT(unlike.mean, 0.6);
  EXPECT_LE(unlike.largest_on_flat, 4);
}

// Source: the XML parser of Python's standard library (expat).
TEST(TracedSvg, is_sound_xml_with_ids_that_are_unlike) {
  const Folder folder;
  int number = 0;
  std::vector<std::string> command{
      "python3", "-c",
      "import sys, xml.etree.ElementTree as E\n"
      "for f in sys.argv[1:]:\n"
      "    root = E.parse(f).getroot()\n"
      "    assert root.tag == '{http://www.w3.org/2000/svg}svg', root.tag\n"
      "    ids = [e.get('id') for e in root.iter() if e.get('id')]\n"
      "    assert ids and len(ids) == len(set(ids)), ids\n"
      "    known = {'svg','title','g','path','circle','defs','linearGradient','radialGradient',"
      "'stop'}\n"
      "    odd = {e.tag.split('}')[1] for e in root.iter()} - known\n"
      "    assert not odd, odd\n"
      "print('sound')"};
  for (const Seen& seen : pictures(Half::held_out)) {
    const Bytes svg = trace::write_svg(traced(seen.picture, trace::Closeness::closest), "a & <b>");
    command.push_back(folder.put(fmt::format("{}.svg", number++), svg));
  }
  const Answer answer = run(command);
  EXPECT_EQ(answer.words, "sound\n");
}

}  // namespace
}  // namespace quoin::outside
