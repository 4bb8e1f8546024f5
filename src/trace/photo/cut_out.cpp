#include "trace/photo/cut_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "trace/photo/cut_edge.h"

namespace quoin::trace {
namespace {

constexpr int smallest_thing = 12;   // pixels: smaller ones that are nearly the ground belong to it
constexpr double plain_rim = 0.6;    // of the rim that must be the ground
constexpr double coarse_ground = 9;  // noise, 0..255, over which a ground is not plain

/// Marks what is connected to the rim, or to a larger part of the ground, through its colour.
class Flood {
 public:
  Flood(int width, int height, const std::vector<float>& off, double reach)
      : width_(width), height_(height), off_(off), reach_(static_cast<float>(reach)) {
    marked_.assign(off.size(), 0);
  }
  void from_rim() {
    for (int x = 0; x < width_; ++x) {
      mark(x, 0);
      mark(x, height_ - 1);
    }
    for (int y = 0; y < height_; ++y) {
      mark(0, y);
      mark(width_ - 1, y);
    }
    spread(nullptr);
  }
  /// Parts that are not connected, of at least `least` pixels.
  void enclosed(std::size_t least) {
    for (int y = 0; y < height_; ++y) {
      for (int x = 0; x < width_; ++x) {
        const std::size_t i = index(x, y);
        if (marked_[i] != 0 || off_[i] > reach_ / 2) continue;
        std::vector<std::size_t> all;
        mark(x, y);
        spread(&all);
        all.push_back(i);
        if (all.size() >= least) continue;
        for (const std::size_t k : all) marked_[k] = 2;  // looked at, and too small
      }
    }
    for (std::uint8_t& mark : marked_) mark = mark == 1 ? 1 : 0;
  }
  [[nodiscard]] std::vector<std::uint8_t>& marked() { return marked_; }

 private:
  [[nodiscard]] std::size_t index(int x, int y) const {
    return std::size_t(y) * std::size_t(width_) + std::size_t(x);
  }
  void mark(int x, int y) {
    const std::size_t i = index(x, y);
    if (marked_[i] != 0 || off_[i] > reach_) return;
    marked_[i] = 1;
    open_.push_back(i);
  }
  void spread(std::vector<std::size_t>* all) {
    while (!open_.empty()) {
      const std::size_t i = open_.back();
      open_.pop_back();
      if (all != nullptr) all->push_back(i);
      const int x = int(i % std::size_t(width_)), y = int(i / std::size_t(width_));
      if (x > 0) mark(x - 1, y);
      if (y > 0) mark(x, y - 1);
      if (x + 1 < width_) mark(x + 1, y);
      if (y + 1 < height_) mark(x, y + 1);
    }
  }

  int width_, height_;
  const std::vector<float>& off_;
  float reach_;
  std::vector<std::uint8_t> marked_;
  std::vector<std::size_t> open_;
};

/// Gives specks to the ground: what JPEG leaves round an edge. Those far from its colour stay.
void drop_specks(std::vector<std::uint8_t>& marked, const std::vector<float>& off, int width,
                 int height, double reach) {
  cv::Mat things(height, width, CV_8U);
  for (std::size_t i = 0; i < marked.size(); ++i) things.data[i] = marked[i] != 0 ? 0 : 1;
  cv::Mat labels, facts, centres;
  const int count = cv::connectedComponentsWithStats(things, labels, facts, centres, 8);
  std::vector<float> strongest(std::size_t(count), 0);
  const int* label = labels.ptr<int>();
  for (std::size_t i = 0; i < marked.size(); ++i) {
    float& most = strongest[std::size_t(label[i])];
    most = std::max(most, off[i]);
  }
  for (std::size_t i = 0; i < marked.size(); ++i) {
    const int one = label[i];
    if (one == 0 || facts.at<int>(one, cv::CC_STAT_AREA) > smallest_thing) continue;
    if (strongest[std::size_t(one)] < 3 * reach) marked[i] = 1;
  }
}

/// Gives the outermost pixels of the thing to the ground that are nearly the ground's colour while
/// those a little deeper are far from it: the fringe that JPEG leaves beside an edge, whose colour
/// it keeps at half the sharpness. What of them is the thing's is found again as alpha.
void give_fringe(std::vector<std::uint8_t>& marked, const std::vector<float>& off, int width,
                 int height, double reach) {
  constexpr int rounds = 2, deep = 3;
  std::vector<std::size_t> given;
  for (int round = 0; round < rounds; ++round) {
    given.clear();
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        const std::size_t i = std::size_t(y) * std::size_t(width) + std::size_t(x);
        if (marked[i] != 0 || off[i] > 2.5 * reach) continue;
        bool outermost = false;
        float farthest = 0;
        for (int v = std::max(0, y - deep); v <= std::min(height - 1, y + deep); ++v) {
          for (int u = std::max(0, x - deep); u <= std::min(width - 1, x + deep); ++u) {
            const std::size_t k = std::size_t(v) * std::size_t(width) + std::size_t(u);
            if (marked[k] == 0) farthest = std::max(farthest, off[k]);
            outermost = outermost || (marked[k] != 0 && std::abs(u - x) + std::abs(v - y) == 1);
          }
        }
        if (outermost && off[i] < 0.4F * farthest) given.push_back(i);
      }
    }
    for (const std::size_t i : given) marked[i] = 1;
  }
}

bool clear_rim(const Raster& picture) {
  std::size_t clear = 0, all = 0;
  for (int y = 0; y < picture.height; ++y) {
    const bool edge = y == 0 || y == picture.height - 1;
    for (int x = 0; x < picture.width; x += edge ? 1 : std::max(1, picture.width - 1)) {
      ++all;
      clear += picture.pixels[std::size_t(y) * std::size_t(picture.width) + x] >> 24 < 8 ? 1 : 0;
    }
  }
  return clear * 2 > all;
}

double share_marked(const std::vector<std::uint8_t>& marked) {
  const auto count = std::count_if(marked.begin(), marked.end(), [](auto m) { return m != 0; });
  return double(count) / double(marked.size());
}

Diagnostic not_plain(const Ground& ground, const std::string& name, const Origin& origin) {
  Diagnostic found(Id::cut_out_not_plain, origin,
                   fmt::format("{} has no plain ground: {:.0f} % of its rim is of one colour", name,
                               100 * ground.rim_share()));
  if (ground.noise() > coarse_ground) {
    found.detail(fmt::format("the ground's colour varies by {:.0f} of 255 from pixel to pixel",
                             ground.noise()));
  }
  return found.hint("look at the result; another --reach, up to 1, takes more of the ground away");
}

}  // namespace

Result<CutOut> cut_out(const Raster& picture, const CutOutWishes& wishes, const std::string& name,
                       const Origin& origin) {
  if (std::min(picture.width, picture.height) < least_cut_out_side) {
    return Diagnostic(Id::cut_out_too_small, origin,
                      fmt::format("{} has {} x {} px; nothing can be cut out of fewer than {}",
                                  name, picture.width, picture.height, least_cut_out_side))
        .hint("find a larger copy");
  }
  CutOut out{picture, {}, 0};
  if (clear_rim(picture)) {
    out.doubts.push_back(Diagnostic(Id::cut_out_transparent, origin,
                                    fmt::format("{} has a transparent ground already", name)));
    return out;
  }
  const auto nothing_cut = [&](const std::string& why) {
    out.doubts.push_back(
        Diagnostic(Id::cut_out_nothing_cut, origin, fmt::format("{} {}", name, why))
            .hint("use a picture on a plain ground, or take more for the ground with --reach 0.8"));
    return out;
  };
  std::optional<Ground> ground = Ground::at_rim_of(picture);
  if (!ground) return nothing_cut("has no colour that three tenths of its rim share");
  const double r = std::clamp(wishes.reach, 0.0, 1.0);
  std::vector<std::uint8_t> marked;
  std::vector<float> off;
  double reach = 0;
  for (int round = 0; round < 2; ++round) {
    off = off_ground(picture, *ground);
    // One part of sRGB off by one is about 0.4 of L*a*b*.
    reach = 1 + 10 * r + 19 * r * r + 2.5 * 0.4 * std::min(ground->noise(), 12.0) * (r > 0 ? 1 : 0);
    Flood flood(picture.width, picture.height, off, reach);
    flood.from_rim();
    if (round == 1 && wishes.enclosed == EnclosedGround::cut_out) flood.enclosed(smallest_thing);
    marked = std::move(flood.marked());
    if (round == 0) ground->refine(picture, marked);
  }
  drop_specks(marked, off, picture.width, picture.height, reach);
  give_fringe(marked, off, picture.width, picture.height, reach);
  const double share = share_marked(marked);
  if (share < 0.002) return nothing_cut("has hardly any ground that reaches its rim");
  if (share > 0.9995) {
    return Diagnostic(Id::cut_out_nothing_left, origin,
                      fmt::format(
                          "nothing would be left of {}: all of it has the colour of its rim", name))
        .hint("take less for the ground with --reach 0.2");
  }
  const CutEdge edge = cut_edges(out.picture, *ground, marked, off, reach);
  out.cut = edge.cut;
  if (ground->rim_share() < plain_rim || ground->noise() > coarse_ground) {
    out.doubts.push_back(not_plain(*ground, name, origin));
  }
  if (edge.alike > 0.08) {
    out.doubts.push_back(
        Diagnostic(Id::cut_out_alike, origin,
                   fmt::format("along {:.0f} % of its edge {} is hardly unlike its ground",
                               100 * edge.alike, name))
            .hint("look at that edge; a smaller --reach keeps more of the thing"));
  }
  return out;
}

}  // namespace quoin::trace
