#include "trace/photo/cut_edge.h"

#include <opencv2/imgproc.hpp>

#include "trace/pixels/source.h"

namespace quoin::trace {
namespace {

constexpr double outer_band = 2.2;  // px of the ground beside an edge that may hold a little of it

/// The distance of each pixel for which `inside` is 1 from the nearest for which it is 0.
cv::Mat depth_of(const std::vector<std::uint8_t>& marked, int width, int height, int inside) {
  cv::Mat mask(height, width, CV_8U), depth;
  for (std::size_t i = 0; i < marked.size(); ++i) {
    mask.data[i] = (marked[i] != 0) == (inside != 0) ? 1 : 0;
  }
  cv::distanceTransform(mask, depth, cv::DIST_L2, cv::DIST_MASK_5);
  return depth;
}

class CutBand {
 public:
  CutBand(Raster& picture, const Ground& ground, const std::vector<std::uint8_t>& marked,
          const std::vector<float>& off, double reach)
      : picture_(picture),
        from_(picture),
        ground_(ground),
        marked_(marked),
        off_(off),
        reach_(reach),
        width_(picture.width),
        height_(picture.height),
        thing_(depth_of(marked, width_, height_, 0)),
        outside_(depth_of(marked, width_, height_, 1)) {
    band_ = band_width();
    noise_ = std::max(ground.noise(), noise_beside());
  }

  CutEdge cut() {
    std::size_t clear = 0, seam = 0, alike = 0;
    for (int y = 0; y < height_; ++y) {
      for (int x = 0; x < width_; ++x) {
        const std::size_t i = index(x, y);
        const bool ground = marked_[i] != 0;
        if (ground && outside_.at<float>(y, x) > outer_band) {
          picture_.pixels[i] = 0;
        } else if (ground || thing_.at<float>(y, x) <= band_ + 0.6F) {
          const double contrast = settle(x, y);
          if (!ground && thing_.at<float>(y, x) <= 1) {
            ++seam;
            alike += contrast < 1.5 * reach_ ? 1 : 0;
          }
        }
        clear += picture_.pixels[i] >> 24 == 0 ? 1 : 0;
      }
    }
    return {double(clear) / double(marked_.size()), seam == 0 ? 0 : double(alike) / double(seam)};
  }

 private:
  [[nodiscard]] std::size_t index(int x, int y) const {
    return std::size_t(y) * std::size_t(width_) + std::size_t(x);
  }
  [[nodiscard]] bool has(int x, int y) const {
    return x >= 0 && y >= 0 && x < width_ && y < height_;
  }
  /// How far inwards a pixel is: negative in the ground.
  [[nodiscard]] double depth(int x, int y) const {
    return marked_[index(x, y)] != 0 ? -double(outside_.at<float>(y, x))
                                     : double(thing_.at<float>(y, x));
  }

  /// The step inwards from a pixel.
  [[nodiscard]] std::pair<int, int> deeper(int x, int y) const {
    std::pair<int, int> best{x, y};
    double most = depth(x, y);
    for (int dy = -1; dy <= 1; ++dy) {
      for (int dx = -1; dx <= 1; ++dx) {
        if (!has(x + dx, y + dy) || depth(x + dx, y + dy) <= most) continue;
        most = depth(x + dx, y + dy);
        best = {x + dx, y + dy};
      }
    }
    return best;
  }

  /// How many pixels inwards the mixture with the ground goes on: walks in from places of the edge
  /// until the colour is nearly as far from the ground's as it gets.
  [[nodiscard]] double band_width() const {
    constexpr int steps = 6;
    std::vector<int> widths;
    for (int y = 1; y + 1 < height_; ++y) {
      for (int x = 1 + y % 3; x + 1 < width_; x += 3) {
        if (marked_[index(x, y)] != 0 || thing_.at<float>(y, x) > 1) continue;
        std::vector<float> along;
        std::pair<int, int> at{x, y};
        for (int k = 0; k < steps; ++k) {
          along.push_back(off_[index(at.first, at.second)]);
          const auto next = deeper(at.first, at.second);
          if (next == at) break;
          at = next;
        }
        if (int(along.size()) < steps) continue;
        const float most = *std::max_element(along.begin(), along.end());
        int width = 0;
        while (along[std::size_t(width)] < 0.93F * most) ++width;
        widths.push_back(width);
      }
    }
    if (widths.empty()) return 1;
    const auto middle = widths.begin() + std::ptrdiff_t(widths.size() / 2);
    std::nth_element(widths.begin(), middle, widths.end());
    return std::clamp(double(*middle), 1.0, 4.0);
  }

  /// Standard deviation of the ground near the edge, where JPEG leaves more of it.
  [[nodiscard]] double noise_beside() const {
    double sum = 0, count = 0;
    for (int y = 0; y < height_; y += 2) {
      for (int x = 0; x < width_; x += 2) {
        const float out = outside_.at<float>(y, x);
        if (marked_[index(x, y)] == 0 || out < outer_band + 0.5 || out > 8) continue;
        sum += double(squared(plain_colour(from_.pixels[index(x, y)]) - ground_.at(x, y))) / 3;
        ++count;
      }
    }
    return count == 0 ? 0 : std::sqrt(sum / count);
  }

  struct Mix {
    Three pure;
    double alpha = 1, cost = 1e9;
  };

  /// The mixture that a pixel is likeliest to be: of the ground and a colour deeper inside, near
  /// by, on whose line to the ground's it lies. Of several the purest is taken.
  [[nodiscard]] Mix likeliest(int x, int y, Three colour, Three ground) const {
    const int far = static_cast<int>(std::ceil(band_)) + 2;
    const double own = depth(x, y), spread = 4 + noise_;
    float farthest = 0;
    for (int dy = -far; dy <= far; ++dy) {
      for (int dx = -far; dx <= far; ++dx) {
        if (has(x + dx, y + dy) && depth(x + dx, y + dy) > 0) {
          farthest = std::max(farthest, off_[index(x + dx, y + dy)]);
        }
      }
    }
    Mix best;
    for (int dy = -far; dy <= far; ++dy) {
      for (int dx = -far; dx <= far; ++dx) {
        if (!has(x + dx, y + dy) || dx * dx + dy * dy > far * far + 1) continue;
        const double in = depth(x + dx, y + dy);
        if (in <= 0 || in < own + 0.5) continue;
        // Near the edge, and hardly unlike the ground beside what is: its fringe.
        if (in < band_ + 1.5 && off_[index(x + dx, y + dy)] < 0.4F * farthest) continue;
        const Three pure = plain_colour(from_.pixels[index(x + dx, y + dy)]);
        const Three line = pure - ground;
        const double length = double(squared(line));
        if (length < 36) continue;
        const double alpha = std::clamp(double(dot(colour - ground, line)) / length, 0.0, 1.0);
        const double miss = double(distance(colour, ground + line * static_cast<float>(alpha)));
        const double shallow = std::max(0.0, band_ - in);  // perhaps a mixture itself
        const double cost = miss * miss / (spread * spread) + 0.06 * (dx * dx + dy * dy) +
                            0.8 * alpha + 0.8 * shallow;
        if (cost < best.cost) best = {pure, alpha, cost};
      }
    }
    return best;
  }

  /// Finds alpha and colour of one pixel; returns how far its thing is from the ground's colour.
  double settle(int x, int y) {
    const std::size_t i = index(x, y);
    const std::uint32_t given = from_.pixels[i];
    const Three colour = plain_colour(given), ground = ground_.at(x, y);
    const bool in_ground = marked_[i] != 0;
    const Mix mix = likeliest(x, y, colour, ground);
    if (mix.cost > 1e8) {  // nothing deeper: a thin line's own middle, or lonely ground
      if (in_ground) picture_.pixels[i] = 0;
      return in_ground ? 1e9 : double(off_[i]);
    }
    const double contrast = double(distance(mix.pure, ground));
    double alpha = mix.alpha;
    const double floor = std::min(0.5, 1.5 * noise_ / contrast + 0.006);
    if (in_ground) alpha = alpha < floor ? 0 : alpha;
    // What differs from the ground but lies off the line is the thing's own, not a mixture.
    const double miss =
        double(distance(colour, ground + (mix.pure - ground) * static_cast<float>(mix.alpha)));
    const bool far_off = double(off_[i]) > 0.45 * 0.4 * contrast;
    if (!in_ground && miss > 20 + 3 * noise_ && far_off) alpha = 1;
    if (!in_ground && alpha > 0.985) alpha = 1;
    picture_.pixels[i] = packed(colour, ground, mix.pure, alpha, double(given >> 24) / 255);
    return contrast * 0.4;
  }

  static std::uint32_t packed(Three colour, Three ground, Three pure, double alpha, double given) {
    if (alpha <= 0) return 0;
    // Where little of the thing is in a pixel its own colour says little: that of its neighbour is
    // taken. Where much is, what the ground added is taken away.
    const double own = std::clamp((alpha - 0.6) / 0.4, 0.0, 1.0);
    const std::uint32_t opacity = static_cast<std::uint32_t>(std::lround(255 * alpha * given));
    std::uint32_t pixel = opacity << 24;
    const auto part = [&](float c, float g, float f, int shift) {
      const double unmixed = std::clamp((double(c) - (1 - alpha) * double(g)) / alpha, 0.0, 255.0);
      const double value = own * unmixed + (1 - own) * double(f);
      const auto whole = static_cast<std::uint32_t>(std::lround(value * opacity / 255));
      pixel |= std::min(whole, opacity) << shift;
    };
    part(colour.x, ground.x, pure.x, 16);
    part(colour.y, ground.y, pure.y, 8);
    part(colour.z, ground.z, pure.z, 0);
    return pixel;
  }

  Raster& picture_;
  const Raster from_;
  const Ground& ground_;
  const std::vector<std::uint8_t>& marked_;
  const std::vector<float>& off_;
  double reach_;
  int width_, height_;
  cv::Mat thing_, outside_;
  double band_ = 1, noise_ = 0;
};

}  // namespace

std::vector<float> off_ground(const Raster& picture, const Ground& ground) {
  std::vector<float> off;
  off.reserve(picture.pixels.size());
  cv::Mat3f own(1, picture.width), there(1, picture.width), own_lab, there_lab;
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      const Three c = plain_colour(
          picture.pixels[std::size_t(y) * std::size_t(picture.width) + std::size_t(x)]);
      const Three g = ground.at(x, y);
      own(0, x) = cv::Vec3f(c.x, c.y, c.z) / 255.0F;
      there(0, x) = cv::Vec3f(g.x, g.y, g.z) / 255.0F;
    }
    cv::cvtColor(own, own_lab, cv::COLOR_RGB2Lab);
    cv::cvtColor(there, there_lab, cv::COLOR_RGB2Lab);
    for (int x = 0; x < picture.width; ++x) {
      off.push_back(static_cast<float>(cv::norm(own_lab(0, x) - there_lab(0, x))));
    }
  }
  return off;
}

CutEdge cut_edges(Raster& picture, const Ground& ground, const std::vector<std::uint8_t>& marked,
                  const std::vector<float>& off, double reach) {
  return CutBand(picture, ground, marked, off, reach).cut();
}

}  // namespace quoin::trace
