#include "trace/pixels/noise.h"

#include <opencv2/imgproc.hpp>

#include "trace/pixels/matrix.h"

namespace quoin::trace {
namespace {

/// How often each size of Laplacian was met.
class LaplacianTally {
 public:
  void add(int size) {
    ++counts_[std::size_t(size)];
    ++total_;
  }
  [[nodiscard]] std::size_t total() const { return total_; }
  /// The size that `share` of all do not exceed.
  [[nodiscard]] int quantile(double share) const {
    std::size_t below = 0;
    for (std::size_t i = 0; i < counts_.size(); ++i) {
      below += counts_[i];
      if (double(below) >= share * double(total_)) return int(i);
    }
    return int(counts_.size());
  }
  /// The standard deviation of the pixels that the calmest nine tenths tell of.
  [[nodiscard]] double sigma() const {
    if (total_ < 200 || quantile(0.7) == 0) return 0;
    const std::size_t wanted = total_ * 9 / 10;
    double sum = 0;
    std::size_t taken = 0;
    for (std::size_t i = 0; i < counts_.size() && taken < wanted; ++i) {
      const std::size_t n = std::min(counts_[i], wanted - taken);
      sum += double(n) * double(i) * double(i);
      taken += n;
    }
    constexpr double weights = 20;  // 4*4 + 4*1*1: variance of the Laplacian of independent pixels
    const double variance = sum / double(wanted) / weights - 1.0 / 12;
    return variance <= 0 ? 0 : 1.25 * std::sqrt(variance);  // 1.25: the tenth that was left out
  }

 private:
  std::vector<std::size_t> counts_ = std::vector<std::size_t>(8 * 255 + 1, 0);
  std::size_t total_ = 0;
};

}  // namespace

Noise measure_noise(const Grid<Rgb>& pixels) {
  if (pixels.width() < 5 || pixels.height() < 5) return {};
  cv::Mat grey, real, across, down, edge_distance;
  cv::cvtColor(matrix(pixels), grey, cv::COLOR_RGB2GRAY);
  grey.convertTo(real, CV_32F);
  cv::Sobel(real, across, CV_32F, 1, 0);
  cv::Sobel(real, down, CV_32F, 0, 1);
  const cv::Mat strong = (cv::abs(across) + cv::abs(down)) > 100;
  cv::distanceTransform(~strong, edge_distance, cv::DIST_L2, 5);
  LaplacianTally near, far;
  for (int y = 2; y < grey.rows - 2; ++y) {
    const auto* up = grey.ptr<std::uint8_t>(y - 1);
    const auto* row = grey.ptr<std::uint8_t>(y);
    const auto* down_row = grey.ptr<std::uint8_t>(y + 1);
    const auto* away = edge_distance.ptr<float>(y);
    for (int x = 2; x < grey.cols - 2; ++x) {
      if (away[x] < 3) continue;
      const int size = std::abs(4 * row[x] - up[x] - down_row[x] - row[x - 1] - row[x + 1]);
      if (away[x] <= 8) near.add(size);
      if (away[x] > 12) far.add(size);
    }
  }
  const double ringing = near.sigma(), everywhere = far.sigma();
  Noise noise;
  noise.sigma = near.total() < 200 ? everywhere : ringing;
  if (noise.sigma < 0.3) return {};
  noise.all_over = everywhere >= 1.5 && everywhere >= 0.5 * noise.sigma;
  return noise;
}

Grid<Rgb> without(const Noise& noise, const Grid<Rgb>& pixels) {
  if (noise.sigma <= 0) return pixels;
  Grid<Rgb> out(pixels.width(), pixels.height());
  cv::Mat to = matrix(out);
  if (noise.all_over) {
    cv::Mat shifted;
    const double range = std::clamp(4 * noise.sigma, 12.0, 60.0);
    cv::pyrMeanShiftFiltering(matrix(pixels), shifted, 3, range, 0);
    shifted.copyTo(to);
    return out;
  }
  const double range = std::clamp(6 * noise.sigma, 15.0, 60.0);
  cv::Mat once;
  cv::bilateralFilter(matrix(pixels), once, 5, 2 * range, 1.5);
  cv::bilateralFilter(once, to, 5, 1.5 * range, 1.5);
  return out;
}

}  // namespace quoin::trace
