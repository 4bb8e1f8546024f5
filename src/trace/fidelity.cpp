#include "trace/fidelity.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "media/canvas.h"
#include "trace/drawing/colour_words.h"
#include "trace/pixels/matrix.h"
#include "trace/pixels/source.h"

namespace quoin::trace {
namespace {

constexpr int most_compared_pixels = 4'000'000;
constexpr int most_edited = 5'000;  // nodes

Rgb on_white(std::uint32_t pixel) {
  const std::uint32_t clear = 255 - (pixel >> 24);
  const auto part = [&](int shift) {
    return static_cast<std::uint8_t>(std::min(255U, (pixel >> shift & 255) + clear));
  };
  return {part(16), part(8), part(0)};
}

Lab lab_of_pixel(Rgb c) { return to_lab({c.red / 255.0, c.green / 255.0, c.blue / 255.0, 1}); }

/// CIEDE2000 of pixels; most pairs of a drawing are met many times.
class Differences {
 public:
  double of(Rgb a, Rgb b) {
    if (a == b) return 0;
    const std::uint64_t key = std::uint64_t(packed(a)) << 24 | packed(b);
    Known& known = known_[(key * 0x9E3779B97F4A7C15U) >> 48];
    if (known.key != key) known = {key, ciede2000(lab_of_pixel(a), lab_of_pixel(b))};
    return known.value;
  }

 private:
  struct Known {
    std::uint64_t key = ~std::uint64_t{0};
    double value = 0;
  };
  static std::uint32_t packed(Rgb c) {
    return std::uint32_t(c.red) << 16 | std::uint32_t(c.green) << 8 | c.blue;
  }
  std::vector<Known> known_ = std::vector<Known>(1 << 16);
};

std::vector<float> differences(const Raster& one, const Raster& other) {
  if (one.width != other.width || one.height != other.height) {
    throw std::logic_error("pictures of two sizes cannot be compared");
  }
  Differences known;
  std::vector<float> all(one.pixels.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    all[i] = static_cast<float>(known.of(on_white(one.pixels[i]), on_white(other.pixels[i])));
  }
  return all;
}

cv::Mat grey_of(const Raster& raster) {
  Grid<float> grey(raster.width, raster.height);
  for (std::size_t i = 0; i < raster.pixels.size(); ++i) {
    const Rgb c = on_white(raster.pixels[i]);
    grey.cells()[i] = 0.299F * c.red + 0.587F * c.green + 0.114F * c.blue;
  }
  return matrix(grey).clone();
}

double structural_similarity(const Raster& one, const Raster& other) {
  constexpr double c1 = 0.01 * 255 * 0.01 * 255, c2 = 0.03 * 255 * 0.03 * 255;
  const cv::Mat x = grey_of(one), y = grey_of(other);
  const auto windowed = [](const cv::Mat& values) {
    cv::Mat out;
    cv::GaussianBlur(values, out, {11, 11}, 1.5);
    return out;
  };
  const cv::Mat mx = windowed(x), my = windowed(y);
  const cv::Mat xx = windowed(x.mul(x)) - mx.mul(mx), yy = windowed(y.mul(y)) - my.mul(my);
  const cv::Mat xy = windowed(x.mul(y)) - mx.mul(my);
  const cv::Mat above = (2 * mx.mul(my) + c1).mul(2 * xy + c2);
  const cv::Mat below = (mx.mul(mx) + my.mul(my) + c1).mul(xx + yy + c2);
  cv::Mat ratio;
  cv::divide(above, below, ratio);
  constexpr int half_window = 5;
  const cv::Rect within(half_window, half_window, x.cols - 2 * half_window,
                        x.rows - 2 * half_window);
  return within.width > 0 && within.height > 0 ? cv::mean(ratio(within))[0] : cv::mean(ratio)[0];
}

/// Puts the picture's own pixels where lettering was left out.
void forgive_lettering(Raster& drawn_again, const Raster& picture, const Tracing& tracing) {
  const double scale = double(picture.width) / tracing.width;
  for (const SmallText& text : tracing.small_text) {
    const int left = std::max(0, int((text.at.x - 2) * scale));
    const int top = std::max(0, int((text.at.y - 2) * scale));
    const int right = std::min(picture.width, int((text.at.x + text.width + 3) * scale));
    const int bottom = std::min(picture.height, int((text.at.y + text.height + 3) * scale));
    for (int y = top; y < bottom; ++y) {
      for (int x = left; x < right; ++x) {
        const std::size_t i = std::size_t(y) * std::size_t(picture.width) + std::size_t(x);
        drawn_again.pixels[i] = picture.pixels[i];
      }
    }
  }
}

/// What the numbers say, the worst first.
void decide(Judgement& judgement, const Raster& picture, const Tracing& tracing) {
  const Comparison& c = judgement.comparison;
  const double megapixels = double(picture.width) * picture.height / 1e6;
  const double density = judgement.faces / std::max(0.01, megapixels);
  const auto say = [&](Verdict verdict, std::string why) {
    judgement.verdict = std::max(judgement.verdict, verdict);
    judgement.reasons.push_back(std::move(why));
  };
  if (std::min(picture.width, picture.height) < 24) {
    say(Verdict::cannot_be_helped,
        fmt::format("it has {} x {} px; a drawing needs 24 along its shorter side", picture.width,
                    picture.height));
    return;
  }
  if (c.mean > 4 || density > 20'000) {
    say(Verdict::better_as_picture,
        fmt::format(
            "it is full of shades and texture: redrawn in {} parts it still differs by {:.1f} "
            "in colour on the average (under 1 is hard to see)",
            judgement.faces, c.mean));
  } else if (judgement.nodes > most_edited && (c.worst > 4 || c.mean > 1)) {
    say(Verdict::better_as_picture,
        fmt::format("the drawing has {} nodes, more than anybody would want to edit, and still "
                    "differs by {:.1f} on the average (under 1 is hard to see)",
                    judgement.nodes, c.mean));
  } else if (c.mean > 1.6 || c.worst > 4.5 || c.ssim < 0.96) {
    say(tracing.noise > 2.5 && c.mean > 1.6 ? Verdict::better_as_picture : Verdict::look_closely,
        fmt::format("fine detail has another colour or outline than it had: by {:.1f} in one pixel "
                    "in twenty (under 1 is hard to see)",
                    c.worst));
  }
  if (tracing.noise > 1.5 && judgement.verdict == Verdict::good) {
    say(Verdict::look_closely,
        fmt::format("the picture is noisy (by {:.1f} of 255 steps), and fine detail went with the "
                    "noise",
                    tracing.noise));
  }
  if (!tracing.small_text.empty()) {
    judgement.only_text = judgement.verdict == Verdict::good;
    say(Verdict::look_closely, "small lettering was left out; retype it as text");
  }
  if (judgement.reasons.empty()) {
    judgement.reasons.push_back(fmt::format(
        "it differs by {:.2f} in colour on the average (under 1 is hard to see)", c.mean));
  }
}

}  // namespace

std::string_view to_string(Verdict verdict) {
  switch (verdict) {
    case Verdict::good:
      return "good";
    case Verdict::look_closely:
      return "look at it";
    case Verdict::better_as_picture:
      return "better kept as a picture";
    case Verdict::cannot_be_helped:
      return "cannot be helped";
  }
  return "";
}

Comparison compare(const Raster& one, const Raster& other) {
  std::vector<float> all = differences(one, other);
  Comparison found;
  double sum = 0;
  for (const float d : all) sum += d;
  found.mean = sum / static_cast<double>(all.size());
  const auto at = all.begin() + static_cast<std::ptrdiff_t>(all.size() * 95 / 100);
  std::nth_element(all.begin(), at, all.end());
  found.worst = *at;
  found.ssim = structural_similarity(one, other);
  return found;
}

Raster difference_picture(const Raster& one, const Raster& other) {
  const std::vector<float> all = differences(one, other);
  Raster out{one.width, one.height, std::vector<std::uint32_t>(all.size())};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Rgb c = on_white(one.pixels[i]);
    const double grey = 0.299 * c.red + 0.587 * c.green + 0.114 * c.blue;
    const double faint = 200 + grey * 55 / 255;
    const double glow = std::clamp(all[i] / 10.0, 0.0, 1.0);
    const auto mixed = [&](double to) {
      return static_cast<std::uint32_t>(std::lround(faint + (to - faint) * glow));
    };
    out.pixels[i] = 0xFF000000U | mixed(205) << 16 | mixed(20) << 8 | mixed(30);
  }
  return out;
}

std::optional<Raster> drawn(const Bytes& svg, int width, int height) {
  const MemoryWorld world({{"drawing.svg", svg}});
  PictureShelf shelf(world);
  Diagnostics found;
  const auto picture = shelf.open("drawing.svg", Origin{}, found);
  if (!picture) return std::nullopt;
  // One millimetre for each pixel.
  const Size size{Mm(width), Mm(height)};
  ImageCanvas canvas(shelf, size, mm_per_inch, ImageCanvas::Background::transparent);
  canvas.canvas().picture(*picture, Rect{{}, size});
  if (!canvas.found().empty()) return std::nullopt;
  Raster raster = canvas.raster();
  if (raster.width != width || raster.height != height) return std::nullopt;
  return raster;
}

std::vector<DrawingColour> drawing_colours(const Tracing& tracing) {
  std::vector<DrawingColour> all;
  const double whole = std::max(1.0, double(tracing.width) * tracing.height);
  for (const Layer& layer : tracing.layers) {
    const auto* colour = std::get_if<Colour>(&layer.fill);
    if (colour == nullptr || colour->alpha <= 0) continue;
    double area = 0;
    for (const int face : layer.faces) area += tracing.faces[std::size_t(face)].area;
    for (const StrokeLine& line : layer.lines) {
      for (const Curve& curve : line.curves) {
        area += line.width * std::hypot(curve.p[3].x - curve.p[0].x, curve.p[3].y - curve.p[0].y);
      }
    }
    const auto known = std::find_if(all.begin(), all.end(), [&](const DrawingColour& one) {
      return to_string(one.colour) == to_string(*colour);
    });
    if (known != all.end()) {
      known->share += area / whole;
    } else {
      all.push_back({*colour, colour_words(*colour), area / whole});
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const DrawingColour& a, const DrawingColour& b) {
    return a.share > b.share;
  });
  return all;
}

Judgement judge(const Raster& picture, const Tracing& tracing, const Bytes& svg) {
  Judgement judgement;
  judgement.nodes = node_count(tracing);
  judgement.colours = static_cast<int>(tracing.layers.size());
  judgement.faces = static_cast<int>(tracing.faces.size());
  judgement.plain_colours = drawing_colours(tracing);
  Raster smaller;
  const Raster* compared = &picture;
  while (std::int64_t(compared->width) * compared->height > most_compared_pixels) {
    smaller = half_size(*compared);
    compared = &smaller;
  }
  auto again = drawn(svg, compared->width, compared->height);
  if (again) forgive_lettering(*again, *compared, tracing);
  if (!again) {
    judgement.verdict = Verdict::better_as_picture;
    judgement.reasons.push_back(
        fmt::format("redrawn in {} parts it is too much for the renderer", judgement.faces));
    return judgement;
  }
  judgement.comparison = compare(*compared, *again);
  judgement.is_compared = true;
  decide(judgement, picture, tracing);
  return judgement;
}

}  // namespace quoin::trace
