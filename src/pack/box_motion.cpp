#include "pack/box_motion.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "fold/crease.h"

namespace quoin::pack {
namespace {

constexpr double step_seconds = 2, deck_seconds = 1.5;

using gltf::Keyframe;
using gltf::Motion;
using gltf::Placing;

/// The clock of the whole folding.
struct Clock {
  double deck_goes_in = 0;

  /// When a moment is reached.
  [[nodiscard]] double reaches(double progress) const {
    return progress * step_seconds + (progress > deck_goes_in ? deck_seconds : 0);
  }
  /// When the folding goes on from there.
  [[nodiscard]] double leaves(double progress) const {
    return progress * step_seconds + (progress >= deck_goes_in ? deck_seconds : 0);
  }
};

/// All moments at which something may begin or end to move: `own` and every whole step.
std::vector<double> moments(std::vector<double> own, const fold::Model& model) {
  for (std::size_t k = 0; k <= model.steps.size(); ++k) own.push_back(static_cast<double>(k));
  own.push_back(model.deck_goes_in);
  std::erase_if(own,
                [&](double at) { return at < 0 || at > static_cast<double>(model.steps.size()); });
  std::sort(own.begin(), own.end());
  const auto same = [](double a, double b) { return b - a < 1e-4; };
  own.erase(std::unique(own.begin(), own.end(), same), own.end());
  return own;
}

/// A motion through the whole folding; `at` gives the placing at a moment.
template <typename At>
Motion motion(int part, std::vector<double> own, const fold::Model& model, const At& at) {
  const Clock clock{model.deck_goes_in};
  Motion motion{part, {}};
  for (const double moment : moments(std::move(own), model)) {
    const Placing placing = at(moment);
    motion.frames.push_back({clock.reaches(moment), placing, 1});
    if (clock.leaves(moment) > clock.reaches(moment)) {
      motion.frames.push_back({clock.leaves(moment), placing, 1});
    }
  }
  return motion;
}

Motion panel_motion(const fold::Model& model, const fold::Net& net, const fold::Hinge& hinge,
                    int part) {
  std::vector<double> own;
  for (const fold::Turn& turn : hinge.turns) own.push_back(turn.progress);
  return motion(part, std::move(own), model, [&](double at) {
    return panel_placing(net, hinge.child, fold::angle_at(hinge, at));
  });
}

/// The deck: of no size until it goes in, then from its way to its place.
Motion deck_motion(const pieces::Box& box, int part) {
  constexpr double grows = 0.1;
  const fold::Model& model = box.model;
  const Clock clock{model.deck_goes_in};
  const DeckWay way = deck_way(box);
  Motion motion{part, {}};
  for (const double moment : moments({}, model)) {
    const double at = clock.reaches(moment);
    if (moment < model.deck_goes_in) {
      motion.frames.push_back({at, way.from, 0});
    } else if (moment == model.deck_goes_in) {
      motion.frames.push_back({at, way.from, 0});
      motion.frames.push_back({at + grows, way.from, 1});
      motion.frames.push_back({clock.leaves(moment), way.home, 1});
    } else {
      motion.frames.push_back({at, way.home, 1});
    }
  }
  return motion;
}

bool same(const Keyframe& a, const Keyframe& b) {
  return a.placing.turn == b.placing.turn && a.placing.move == b.placing.move && a.scale == b.scale;
}

/// Without frames in the middle of a rest; one frame for what never moves.
void drop_rests(std::vector<Keyframe>& frames) {
  std::vector<Keyframe> kept;
  for (std::size_t i = 0; i < frames.size(); ++i) {
    const bool rests = i > 0 && i + 1 < frames.size() && same(frames[i - 1], frames[i]) &&
                       same(frames[i], frames[i + 1]);
    if (!rests) kept.push_back(frames[i]);
  }
  if (kept.size() == 2 && same(kept[0], kept[1])) kept.pop_back();
  frames = std::move(kept);
}

/// What happens between two times, counted from the first.
gltf::Animation stretch(std::string name, const std::vector<Motion>& all, double from, double to) {
  constexpr double about = 1e-9;
  gltf::Animation animation{std::move(name), {}};
  for (const Motion& whole : all) {
    Motion part{whole.part, {}};
    for (Keyframe frame : whole.frames) {
      if (frame.seconds < from - about || frame.seconds > to + about) continue;
      frame.seconds = std::max(0.0, frame.seconds - from);
      part.frames.push_back(frame);
    }
    drop_rests(part.frames);
    animation.motions.push_back(std::move(part));
  }
  return animation;
}

std::vector<Motion> all_motions(const pieces::Box& box, const BoxParts& parts) {
  const fold::Model& model = box.model;
  std::vector<Motion> all;
  for (std::size_t i = 0; i < model.parts.size(); ++i) {
    const fold::Part& part = model.parts[i];
    all.push_back(motion(parts.nets[i], {part.arrives_from, part.arrives_by}, model,
                         [&](double at) { return placing_of(fold::place_of(part, at)); }));
    for (const fold::Hinge& hinge : part.net.hinges) {
      const int child = parts.panels[i][static_cast<std::size_t>(hinge.child)];
      all.push_back(panel_motion(model, part.net, hinge, child));
    }
  }
  all.push_back(deck_motion(box, parts.deck));
  return all;
}

}  // namespace

void add_folding(gltf::Model& model, const pieces::Box& box, const BoxParts& parts) {
  const std::vector<Motion> all = all_motions(box, parts);
  const Clock clock{box.model.deck_goes_in};
  const auto steps = static_cast<double>(box.model.steps.size());
  model.animations.push_back(stretch("folding", all, 0, clock.reaches(steps)));
  for (std::size_t k = 0; k < box.model.steps.size(); ++k) {
    const auto step = static_cast<double>(k);
    model.animations.push_back(stretch(fmt::format("{}: {}", k + 1, box.model.steps[k].words), all,
                                       clock.reaches(step), clock.reaches(step + 1)));
  }
}

}  // namespace quoin::pack
