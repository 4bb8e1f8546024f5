#include "trace/photo/view.h"

#include <opencv2/imgproc.hpp>

#include "trace/pixels/matrix.h"
#include "trace/pixels/source.h"

namespace quoin::trace {
namespace {

constexpr double lift = 0.6;

Grid<Rgb> lifted_of(Grid<Rgb> pixels) {
  std::array<std::uint8_t, 256> table{};
  for (std::size_t i = 0; i < table.size(); ++i) {
    table[i] = static_cast<std::uint8_t>(std::lround(255 * std::pow(double(i) / 255, lift)));
  }
  for (Rgb& p : pixels.cells()) p = {table[p.red], table[p.green], table[p.blue]};
  return pixels;
}

/// 1.4826 times the median of the differences, which is their standard deviation were they normal.
double grain_of(const Grid<Three>& lab) {
  std::vector<float> steps;
  for (int y = 1; y < lab.height(); y += 7) {
    for (int x = 2; x < lab.width(); x += 5) {
      steps.push_back(std::abs(lab.at(x, y).x - lab.at(x - 2, y).x));
    }
  }
  if (steps.empty()) return 0;
  const auto middle = steps.begin() + std::ptrdiff_t(steps.size() / 2);
  std::nth_element(steps.begin(), middle, steps.end());
  return 1.4826 * double(*middle);
}

}  // namespace

View view_of(const Raster& picture) {
  View view;
  Source source = source_of(picture, most_viewed_pixels);
  view.scale = std::max(double(picture.width) / source.width(), 1.0);
  if (source.halved) view.scale = std::exp2(std::round(std::log2(view.scale)));
  view.lifted = lifted_of(std::move(source.pixels));
  view.lab = Grid<Three>(view.lifted.width(), view.lifted.height());
  cv::Mat bytes;
  cv::cvtColor(matrix(view.lifted), bytes, cv::COLOR_RGB2Lab);
  cv::Mat lab = matrix(view.lab);
  bytes.convertTo(lab, CV_32FC3);
  cv::GaussianBlur(lab, lab, {}, 1.0);
  view.grain = grain_of(view.lab);
  return view;
}

}  // namespace quoin::trace
