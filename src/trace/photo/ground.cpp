#include "trace/photo/ground.h"

#include <opencv2/core.hpp>

namespace quoin::trace {
namespace {

constexpr double least_rim_share = 0.3;
constexpr double near_enough = 36;  // 0..255: what may still be the ground before it is known well

}  // namespace

Three plain_colour(std::uint32_t pixel) {
  const float alpha = static_cast<float>(pixel >> 24);
  if (alpha == 0) return {};
  const auto part = [&](int shift) {
    return static_cast<float>(pixel >> shift & 255) * 255 / alpha;
  };
  return {part(16), part(8), part(0)};
}

std::array<double, 6> Ground::terms(int x, int y) const {
  const double u = 2.0 * x / width_ - 1, v = 2.0 * y / height_ - 1;
  return {1, u, v, u * u, u * v, v * v};
}

Three Ground::at(int x, int y) const {
  const auto t = terms(x, y);
  std::array<float, 3> sum{};
  for (std::size_t c = 0; c < 3; ++c) {
    double value = 0;
    for (std::size_t k = 0; k < 6; ++k) value += parts_[c][k] * t[k];
    sum[c] = static_cast<float>(std::clamp(value, 0.0, 255.0));
  }
  return {sum[0], sum[1], sum[2]};
}

double Ground::fit(const std::vector<Sample>& samples, int count, double reach) {
  cv::Mat normal = cv::Mat::zeros(count, count, CV_64F), right = cv::Mat::zeros(count, 3, CV_64F);
  double near = 0;
  for (const Sample& sample : samples) {
    if (off(sample) > reach) continue;
    ++near;
    const auto t = terms(sample.x, sample.y);
    const double colour[3] = {sample.colour.x, sample.colour.y, sample.colour.z};
    for (int i = 0; i < count; ++i) {
      for (int j = 0; j < count; ++j) {
        normal.at<double>(i, j) += t[std::size_t(i)] * t[std::size_t(j)];
      }
      for (int c = 0; c < 3; ++c) right.at<double>(i, c) += t[std::size_t(i)] * colour[c];
    }
  }
  if (near < 4 * count) return samples.empty() ? 0 : near / double(samples.size());
  // Where the rim says little of a term, it stays small.
  for (int i = 1; i < count; ++i) normal.at<double>(i, i) += 1e-3 * near;
  cv::Mat solved;
  if (cv::solve(normal, right, solved, cv::DECOMP_CHOLESKY)) {
    for (std::size_t c = 0; c < 3; ++c) {
      parts_[c].fill(0);
      for (int k = 0; k < count; ++k) parts_[c][std::size_t(k)] = solved.at<double>(k, int(c));
    }
  }
  return near / double(samples.size());
}

std::optional<Ground> Ground::at_rim_of(const Raster& picture) {
  Ground ground(picture.width, picture.height);
  const int wide = std::clamp(std::min(picture.width, picture.height) / 40, 1, 12);
  const int stride = std::max(1, (picture.width + picture.height) / 2000);
  std::vector<Sample> rim;
  std::vector<int> bins(8 * 8 * 8, 0);
  for (int y = 0; y < picture.height; ++y) {
    const bool outer = y < wide || y >= picture.height - wide;
    for (int x = 0; x < picture.width;
         x += outer || x < wide || x >= picture.width - wide ? stride : picture.width - wide - x) {
      const std::uint32_t p = picture.pixels[std::size_t(y) * std::size_t(picture.width) + x];
      if (p >> 24 < 128) continue;
      const Three c = plain_colour(p);
      rim.push_back({x, y, c});
      ++bins[std::size_t(int(c.x) / 32 * 64 + int(c.y) / 32 * 8 + int(c.z) / 32)];
    }
  }
  if (rim.size() < 12) return std::nullopt;
  const int most = int(std::max_element(bins.begin(), bins.end()) - bins.begin());
  std::array<std::vector<float>, 3> parts;
  for (const Sample& sample : rim) {
    const Three c = sample.colour;
    if (int(c.x) / 32 * 64 + int(c.y) / 32 * 8 + int(c.z) / 32 != most) continue;
    parts[0].push_back(c.x);
    parts[1].push_back(c.y);
    parts[2].push_back(c.z);
  }
  for (std::size_t c = 0; c < 3; ++c) {
    const auto middle = parts[c].begin() + std::ptrdiff_t(parts[c].size() / 2);
    std::nth_element(parts[c].begin(), middle, parts[c].end());
    ground.parts_[c][0] = double(*middle);
  }
  // A shade is followed further and further from where it began.
  for (const int count : {1, 3, 3, 3, 3, 6, 6, 6}) ground.fit(rim, count, near_enough);
  std::vector<double> offs;
  for (const Sample& sample : rim) {
    if (const double d = ground.off(sample); d <= near_enough) offs.push_back(d);
  }
  if (offs.size() < 8) return std::nullopt;
  const auto middle = offs.begin() + std::ptrdiff_t(offs.size() / 2);
  std::nth_element(offs.begin(), middle, offs.end());
  const double tight = std::max(6.0, 3.5 * *middle);
  ground.rim_share_ = ground.fit(rim, 6, tight);
  // Of three parts' distances half lie under 1.54 standard deviations of one part.
  ground.noise_ = *middle / 1.54;
  if (ground.rim_share_ < least_rim_share) return std::nullopt;
  return ground;
}

void Ground::refine(const Raster& picture, const std::vector<std::uint8_t>& is_ground) {
  std::vector<Sample> samples;
  const std::size_t stride = std::max<std::size_t>(1, is_ground.size() / 40'000) | 1;
  for (std::size_t i = 0; i < is_ground.size(); i += stride) {
    if (is_ground[i] == 0) continue;
    samples.push_back({int(i % std::size_t(width_)), int(i / std::size_t(width_)),
                       plain_colour(picture.pixels[i])});
  }
  fit(samples, 6, near_enough);
  fit(samples, 6, std::max(6.0, 5 * noise_));
}

}  // namespace quoin::trace
