#include "trace/photo/coarse.h"

#include <opencv2/imgproc.hpp>

#include "trace/pixels/matrix.h"

namespace quoin::trace {
namespace {

/// The picture at a glance.
struct Glance {
  cv::Mat lab;       // 8 bits each, freed of specks
  cv::Mat strength;  // how steep the colour is
  double scale = 1;  // view pixels to one of it
};

Glance glance_at(const View& view, int longest) {
  Glance glance;
  glance.scale = std::max(1.0, double(view.longer()) / longest);
  cv::Mat small;
  cv::resize(matrix(view.lifted), small, {}, 1 / glance.scale, 1 / glance.scale, cv::INTER_AREA);
  cv::cvtColor(small, glance.lab, cv::COLOR_RGB2Lab);
  cv::medianBlur(glance.lab, glance.lab, 5);
  glance.strength = cv::Mat::zeros(small.size(), CV_32F);
  std::vector<cv::Mat> channels;
  cv::split(glance.lab, channels);
  for (const cv::Mat& channel : channels) {
    cv::Mat across, down, steep;
    cv::Sobel(channel, across, CV_32F, 1, 0);
    cv::Sobel(channel, down, CV_32F, 0, 1);
    cv::magnitude(across, down, steep);
    glance.strength = cv::max(glance.strength, steep);
  }
  return glance;
}

void add_edges(const Glance& glance, std::vector<cv::Mat>& masks) {
  std::vector<cv::Mat> channels;
  cv::split(glance.lab, channels);
  for (const double high : {14.0, 30.0, 60.0, 110.0}) {
    cv::Mat edges = cv::Mat::zeros(glance.lab.size(), CV_8U);
    for (const cv::Mat& channel : channels) {
      cv::Mat one;
      cv::Canny(channel, one, high * 0.4, high, 3, true);
      edges |= one;
    }
    cv::Mat thick, closed;
    cv::dilate(edges, thick, cv::Mat::ones(3, 3, CV_8U));
    cv::morphologyEx(thick, closed, cv::MORPH_CLOSE, cv::Mat::ones(9, 9, CV_8U));
    masks.push_back(thick);
    masks.push_back(closed);
  }
}

/// Up to three colours that the rim of the picture has.
cv::Mat rim_colours(const cv::Mat& lab) {
  const int wide = std::max(2, lab.cols * 3 / 100);
  std::vector<cv::Vec3f> edge_colours;
  for (int y = 0; y < lab.rows; y += 2) {
    for (int x = 0; x < lab.cols; x += 2) {
      if (x < wide || y < wide || x >= lab.cols - wide || y >= lab.rows - wide) {
        edge_colours.emplace_back(lab.at<cv::Vec3b>(y, x));
      }
    }
  }
  if (edge_colours.size() < 3) return {};
  cv::Mat samples(static_cast<int>(edge_colours.size()), 3, CV_32F, edge_colours.data()), labels,
      centres;
  cv::theRNG().state = 1;
  cv::kmeans(samples, 3, labels, cv::TermCriteria(3, 20, 0.5), 2, cv::KMEANS_PP_CENTERS, centres);
  return centres;
}

void add_unlike_rim(const Glance& glance, std::vector<cv::Mat>& masks) {
  const cv::Mat centres = rim_colours(glance.lab);
  if (centres.empty()) return;
  cv::Mat off(glance.lab.size(), CV_8U);
  for (int y = 0; y < off.rows; ++y) {
    for (int x = 0; x < off.cols; ++x) {
      const cv::Vec3f colour(glance.lab.at<cv::Vec3b>(y, x));
      double nearest = 255;
      for (int i = 0; i < centres.rows; ++i) {
        const float* c = centres.ptr<float>(i);
        nearest = std::min(nearest, cv::norm(colour - cv::Vec3f(c[0], c[1], c[2])));
      }
      off.at<std::uint8_t>(y, x) = static_cast<std::uint8_t>(nearest);
    }
  }
  cv::GaussianBlur(off, off, {5, 5}, 0);
  cv::Mat ignored;
  const double between = cv::threshold(off, ignored, 0, 255, cv::THRESH_OTSU);
  for (const double part : {1.0, 0.6, 0.35}) {
    cv::Mat mask = off > std::max(4.0, between * part);
    cv::morphologyEx(mask, mask, cv::MORPH_CLOSE, cv::Mat::ones(11, 11, CV_8U));
    cv::morphologyEx(mask, mask, cv::MORPH_OPEN, cv::Mat::ones(7, 7, CV_8U));
    masks.push_back(mask);
  }
}

std::optional<Corners> four_corners(const std::vector<cv::Point>& hull) {
  const double around = cv::arcLength(hull, true);
  for (double slack = 0.01; slack < 0.12; slack += 0.008) {
    std::vector<cv::Point> few;
    cv::approxPolyDP(hull, few, slack * around, true);
    if (few.size() < 4) return std::nullopt;
    if (few.size() > 4) continue;
    Corners corners;
    for (std::size_t i = 0; i < 4; ++i) corners[i] = {few[i].x + 0.5, few[i].y + 0.5};
    return clockwise(corners);
  }
  return std::nullopt;
}

/// The share of the weakest side along which there is some edge.
double edge_along(const cv::Mat& strength, const Corners& c) {
  constexpr int looks = 40;
  double least = 1;
  for (std::size_t i = 0; i < 4; ++i) {
    int seen = 0;
    for (int k = 2; k < looks - 2; ++k) {
      const Spot p = c[i] + (c[(i + 1) % 4] - c[i]) * (double(k) / looks);
      float steepest = 0;
      for (int dy = -2; dy <= 2; ++dy) {
        for (int dx = -2; dx <= 2; ++dx) {
          const int x = static_cast<int>(p.x) + dx, y = static_cast<int>(p.y) + dy;
          if (x < 0 || y < 0 || x >= strength.cols || y >= strength.rows) continue;
          steepest = std::max(steepest, strength.at<float>(y, x));
        }
      }
      seen += steepest > 18 ? 1 : 0;
    }
    least = std::min(least, seen / double(looks - 4));
  }
  return least;
}

std::optional<Guess> judged(const std::vector<cv::Point>& contour, const Glance& glance,
                            double proportion, double least_share) {
  std::vector<cv::Point> hull;
  cv::convexHull(contour, hull);
  const auto corners = four_corners(hull);
  if (!corners || !is_convex(*corners)) return std::nullopt;
  const Corners& c = *corners;
  const double whole = double(glance.lab.total());
  const double area = area_of(c), filled = cv::contourArea(hull) / std::max(area, 1.0);
  if (area < least_share * whole || area > 0.97 * whole || filled < 0.86) return std::nullopt;
  std::array<double, 4> sides{};
  for (std::size_t i = 0; i < 4; ++i) sides[i] = size(c[(i + 1) % 4] - c[i]);
  for (std::size_t i = 0; i < 4; ++i) {
    const Spot u = unit(c[(i + 1) % 4] - c[i]), v = unit(c[(i + 3) % 4] - c[i]);
    if (std::abs(dot(u, v)) > 0.6) return std::nullopt;
    if (sides[i] < 0.5 * sides[(i + 2) % 4]) return std::nullopt;
  }
  double longer = (sides[0] + sides[2]) / (sides[1] + sides[3]);
  if (longer < 1) longer = 1 / longer;
  if (longer > 1.65 / proportion) return std::nullopt;
  const double edge = edge_along(glance.strength, c);
  const double off = (longer * proportion - 1) / 0.25;
  const double at_rim = std::any_of(c.begin(), c.end(),
                                    [&](Spot p) {
                                      return p.x < 2 || p.y < 2 || p.x > glance.lab.cols - 2 ||
                                             p.y > glance.lab.rows - 2;
                                    })
                            ? 0.5
                            : 1;
  Guess guess;
  for (std::size_t i = 0; i < 4; ++i) guess.corners[i] = c[i] * glance.scale;
  guess.score =
      at_rim * edge * edge * (0.4 + 0.6 * std::exp(-off * off)) * std::sqrt(area / whole) * filled;
  return guess;
}

}  // namespace

std::vector<Guess> coarse_guesses(const View& view, double proportion, double least_share,
                                  std::size_t most, int longest) {
  const Glance glance = glance_at(view, longest);
  std::vector<cv::Mat> masks;
  add_edges(glance, masks);
  add_unlike_rim(glance, masks);
  std::vector<Guess> all;
  for (const cv::Mat& mask : masks) {
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(mask, contours, cv::RETR_LIST, cv::CHAIN_APPROX_NONE);
    for (const auto& contour : contours) {
      if (contour.size() < 40) continue;
      if (const auto guess = judged(contour, glance, proportion, least_share)) {
        all.push_back(*guess);
      }
    }
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Guess& a, const Guess& b) { return a.score > b.score; });
  std::vector<Guess> unlike;
  for (const Guess& guess : all) {
    const double near = std::min(0.006 * view.longer(), 0.03 * std::sqrt(area_of(guess.corners)));
    const bool twice = std::any_of(unlike.begin(), unlike.end(), [&](const Guess& other) {
      return farthest_corner(guess.corners, other.corners) < near;
    });
    if (!twice) unlike.push_back(guess);
    if (unlike.size() == most) break;
  }
  return unlike;
}

}  // namespace quoin::trace
