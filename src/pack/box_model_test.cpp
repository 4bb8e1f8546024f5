#include "pack/box_model.h"

#include <gtest/gtest.h>

#include <cmath>

#include "pieces/box/sample_box_fixture.h"

namespace quoin::pack {
namespace {

using fold::Vec3;
using gltf::Placing;
using gltf::Space;

/// A place turned by a unit quaternion and moved, by the textbook product q v q* (glTF 2.0, 3.5.3).
Vec3 placed(const Placing& placing, Vec3 v) {
  const Vec3 axis{placing.turn.x, placing.turn.y, placing.turn.z};
  const Vec3 twice = cross(axis, v) * 2;
  const Vec3 turned = v + twice * placing.turn.w + cross(axis, twice);
  return turned + Vec3{placing.move.x, placing.move.y, placing.move.z};
}

/// Where a place of a part lies in the model when the parts lie so.
Vec3 in_model(const gltf::Model& model, const std::vector<Placing>& placings, int part, Vec3 at) {
  for (std::optional<int> next = part; next; next = model.parts.at(*next).parent) {
    at = placed(placings.at(*next), at);
  }
  return at;
}

Placing halfway(const gltf::Keyframe& a, const gltf::Keyframe& b, double at) {
  const double share = (at - a.seconds) / (b.seconds - a.seconds);
  const gltf::Turn &p = a.placing.turn, &q = b.placing.turn;
  double cosine = p.x * q.x + p.y * q.y + p.z * q.z + p.w * q.w;
  const double sign = cosine < 0 ? -1 : 1;
  cosine = std::min(1.0, std::abs(cosine));
  const double angle = std::acos(cosine);
  const double k = angle < 1e-9 ? 1 - share : std::sin((1 - share) * angle) / std::sin(angle);
  const double l = sign * (angle < 1e-9 ? share : std::sin(share * angle) / std::sin(angle));
  const Space &m = a.placing.move, &n = b.placing.move;
  return {{k * p.x + l * q.x, k * p.y + l * q.y, k * p.z + l * q.z, k * p.w + l * q.w},
          {m.x + (n.x - m.x) * share, m.y + (n.y - m.y) * share, m.z + (n.z - m.z) * share}};
}

/// The placings of all parts at a time of an animation: turns along the shorter arc, moves evenly,
/// as the standard interpolates (glTF 2.0, Appendix C).
std::vector<Placing> at_time(const gltf::Model& model, const gltf::Animation& animation,
                             double seconds) {
  std::vector<Placing> placings;
  for (const gltf::Part& part : model.parts) placings.push_back(part.placing);
  for (const gltf::Motion& motion : animation.motions) {
    const auto& frames = motion.frames;
    std::size_t k = 0;
    while (k < frames.size() && frames[k].seconds < seconds) ++k;
    Placing& to = placings.at(static_cast<std::size_t>(motion.part));
    if (k == 0 || k == frames.size()) {
      to = frames[k == 0 ? 0 : k - 1].placing;
    } else {
      to = halfway(frames[k - 1], frames[k], seconds);
    }
  }
  return placings;
}

int part_named(const gltf::Model& model, const std::string& name) {
  for (int i = 0; i < std::ssize(model.parts); ++i) {
    if (model.parts[i].name == name) return i;
  }
  return -1;
}

gltf::Model model_of(const pieces::Box& box) {
  const MemoryWorld world;
  PictureShelf shelf(world);
  Diagnostics found;
  return box_model(box, {}, "Sample", shelf, found);
}

/// Compares where the corners of all panels lie with what `fold::pose` says of that moment; both
/// as distances from one corner of the first panel, since the model stands elsewhere.
double farthest_off(const pieces::Box& box, const gltf::Model& model,
                    const std::vector<Placing>& placings, double progress) {
  const auto places = fold::pose(box.model, progress);
  double farthest = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const fold::Net& net = box.model.parts[i].net;
    for (std::size_t k = 0; k < places[i].size(); ++k) {
      const int part = part_named(model, net.panels[k].name);
      // The middle of a crease is the origin of a panel; the mesh tells where its corners are.
      const auto& vertices = model.parts.at(part).meshes.at(0).vertices;
      for (std::size_t corner = 0; corner < vertices.size(); ++corner) {
        const Space& own = vertices[corner].at;
        const Vec3 found = in_model(model, placings, part, {own.x, own.y, own.z});
        // The printed face's vertices are the outline's corners in the triangles' order.
        double nearest = 1e9;
        for (const Point p : net.panels[k].outline) {
          const Vec3 folded = places[i][k](fold::lifted(p, -net.thickness.value / 2));
          const Placing& stand = placings.front();
          nearest = std::min(nearest, length(placed(stand, folded) - found));
        }
        farthest = std::max(farthest, nearest);
      }
    }
  }
  return farthest;
}

TEST(BoxModel, stands_closed_on_the_ground_where_the_folding_ends) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    const pieces::Box box = pieces::sample_box(kind.word, 72, {Mm{63}, Mm{88}});
    const gltf::Model model = model_of(box);
    std::vector<Placing> rest;
    for (const gltf::Part& part : model.parts) rest.push_back(part.placing);
    EXPECT_LT(farthest_off(box, model, rest, 99), 1e-6) << kind.word;
    double lowest = 1e9, highest = -1e9;
    for (int i = 0; i < std::ssize(model.parts); ++i) {
      for (const gltf::Mesh& mesh : model.parts[i].meshes) {
        for (const gltf::Vertex& v : mesh.vertices) {
          const double y = in_model(model, rest, i, {v.at.x, v.at.y, v.at.z}).y;
          lowest = std::min(lowest, y);
          highest = std::max(highest, y);
        }
      }
    }
    EXPECT_NEAR(lowest, 0, 1e-6) << kind.word;
    EXPECT_NEAR(highest, box.fit.outside.height.value, 0.5) << kind.word;
  }
}

TEST(BoxModel, plays_the_folding_as_the_folding_is) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    const pieces::Box box = pieces::sample_box(kind.word, 72, {Mm{63}, Mm{88}});
    const gltf::Model model = model_of(box);
    const auto steps = static_cast<double>(box.model.steps.size());
    for (double progress = 0.07; progress < steps; progress += 0.31) {
      const double pause = progress > box.model.deck_goes_in ? 1.5 : 0;
      const auto placings = at_time(model, model.animations.front(), progress * 2 + pause);
      EXPECT_LT(farthest_off(box, model, placings, progress), 1e-6)
          << kind.word << " at " << progress;
    }
  }
}

TEST(BoxModel, has_an_animation_for_all_and_one_for_each_step_by_its_words) {
  const pieces::Box box = pieces::sample_box("tuck", 72, {Mm{63}, Mm{88}});
  const gltf::Model model = model_of(box);
  ASSERT_EQ(model.animations.size(), box.model.steps.size() + 1);
  EXPECT_EQ(model.animations[0].name, "folding");
  EXPECT_EQ(model.animations[2].name, "2: fold the glue flap in and put glue on it");
  // Each step by itself shows what that part of the whole shows.
  for (std::size_t k = 0; k < box.model.steps.size(); ++k) {
    const auto step = static_cast<double>(k);
    const double waits = step >= box.model.deck_goes_in ? 1.5 : 0;
    const auto placings = at_time(model, model.animations[k + 1], 1.1 + (k == 5 ? waits : 0));
    EXPECT_LT(farthest_off(box, model, placings, step + 0.55), 1e-6) << k;
  }
}

TEST(BoxModel, shows_the_deck_only_once_it_goes_in) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    const pieces::Box box = pieces::sample_box(kind.word, 72, {Mm{63}, Mm{88}});
    const gltf::Model model = model_of(box);
    const gltf::Motion& deck = model.animations.front().motions.back();
    EXPECT_EQ(deck.part, part_named(model, "deck"));
    EXPECT_EQ(deck.frames.front().scale, 0);
    EXPECT_EQ(deck.frames.back().scale, 1);
    for (const gltf::Keyframe& frame : deck.frames) {
      EXPECT_EQ(frame.scale > 0, frame.seconds > box.model.deck_goes_in * 2) << kind.word;
    }
  }
}

}  // namespace
}  // namespace quoin::pack
