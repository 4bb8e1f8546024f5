#include "trace/photo/outlines.h"

#include <algorithm>

#include "trace/photo/coarse.h"
#include "trace/photo/shadow.h"

namespace quoin::trace {
namespace {

constexpr double least_alone = 0.03;      // of the picture, for a card alone
constexpr std::size_t most_guesses = 32;  // followed along their sides
constexpr double beside_it = 6;           // px
constexpr std::size_t most_shaded = 3;    // whose sides are told from their shadows
constexpr std::size_t most_widened = 6;   // whose neighbours are looked at

/// Gathers outlines.
class Outlines {
 public:
  Outlines(const View& view, const CardShape& shape) : view_(view), shape_(shape) {}

  void look(const Corners& corners, const Lens& lens, double band) {
    auto outline = follow_sides(view_, corners, lens, band);
    if (!outline) return;
    const double closer = std::max(3.0, band / 3);
    if (auto again = follow_sides(view_, outline->corners, lens, closer)) outline = again;
    add(weigh(view_, std::move(*outline), shape_));
  }
  /// Looks at what lies beside the best ones.
  void widen() {
    std::vector<Corners> beside;
    for (std::size_t i = 0; i < std::min(most_widened, all_.size()); ++i) {
      for (const Corners& corners : neighbours(view_, all_[i], shape_, 3))
        beside.push_back(corners);
    }
    for (const Corners& corners : beside) look(corners, lens_, std::max(3.0, size_band() / 4));
  }
  /// Moves the best ones from the edges of shadows to those of cards.
  void leave_shadows() {
    for (std::size_t i = 0; i < std::min(most_shaded, all_.size()); ++i) {
      const Corners& c = all_[i].outline.corners;
      const double reach = 0.04 * std::min(size(c[1] - c[0]), size(c[2] - c[1]));
      all_[i] = weigh(view_, without_shadow(view_, std::move(all_[i].outline), reach), shape_);
    }
    sort();
  }
  /// Of outlines that differ by a few pixels only, as good as each other, the steepest goes first.
  void take_steepest() {
    if (all_.empty()) return;
    std::size_t steepest = 0;
    for (std::size_t i = 1; i < all_.size(); ++i) {
      const double off = farthest_corner(all_[i].outline.corners, all_[0].outline.corners);
      if (off > beside_it || all_[i].score < 0.9 * all_[0].score) continue;
      if (steepness(all_[i]) > steepness(all_[steepest])) steepest = i;
    }
    std::swap(all_[0], all_[steepest]);
  }
  void straighten_lens() {
    if (all_.empty()) return;
    lens_ = lens_of(view_, {&all_.front().outline});
    if (lens_.bow == 0) return;
    std::vector<Weighed> before;
    before.swap(all_);
    for (const Weighed& one : before) {
      Corners straight;
      for (std::size_t i = 0; i < 4; ++i) straight[i] = lens_.straightened(one.outline.corners[i]);
      look(straight, lens_, std::max(3.0, size_band() / 4));
    }
  }
  [[nodiscard]] double size_band() const { return 0.010 * view_.longer(); }
  void set_lens(const Lens& lens) { lens_ = lens; }
  [[nodiscard]] const std::vector<Weighed>& all() const { return all_; }

 private:
  static double steepness(const Weighed& one) {
    double product = 1;
    for (const Side& side : one.outline.sides) product *= std::max(side.steepness, 0.1);
    return product;
  }
  void add(Weighed one) {
    for (Weighed& other : all_) {
      if (farthest_corner(other.outline.corners, one.outline.corners) > 1.5) continue;
      if (one.score > other.score) other = std::move(one);
      sort();
      return;
    }
    all_.push_back(std::move(one));
    sort();
  }
  void sort() {
    std::stable_sort(all_.begin(), all_.end(),
                     [](const Weighed& a, const Weighed& b) { return a.score > b.score; });
  }

  const View& view_;
  const CardShape& shape_;
  Lens lens_;
  std::vector<Weighed> all_;
};

double upright_proportion(const CardShape& shape) {
  const double given = shape.size.width / shape.size.height;
  return std::min(given, 1 / given);
}

}  // namespace

std::vector<Weighed> outlines_in(const View& view, const CardShape& shape) {
  Outlines outlines(view, shape);
  const Lens plain{view.middle(), view.longer() / 2.0, 0};
  outlines.set_lens(plain);
  for (const Guess& guess :
       coarse_guesses(view, upright_proportion(shape), least_alone, most_guesses)) {
    outlines.look(guess.corners, plain, outlines.size_band());
  }
  outlines.widen();
  outlines.widen();
  outlines.straighten_lens();
  outlines.widen();
  outlines.leave_shadows();
  outlines.take_steepest();
  return outlines.all();
}

}  // namespace quoin::trace
