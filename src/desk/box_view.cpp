#include <fmt/format.h>

#include <algorithm>

#include "base/hash.h"
#include "desk/box_art.h"
#include "desk/looks.h"
#include "desk/views.h"
#include "fold/mesh.h"
#include "geometry/polygon.h"
#include "pack/box_files.h"

namespace quoin::desk {
namespace {

/// Moments a step: dense enough for the eye when matrices are taken evenly between them (a panel
/// turns 7.5 degrees at most from one to the next).
constexpr int moments_a_step = 24;

Json solid(const fold::Block& block) {
  return {
      {"width", block.width.value}, {"height", block.height.value}, {"depth", block.depth.value}};
}

Json range(Mm low, Mm high) { return {{"low", low.value}, {"high", high.value}}; }

/// Rounded to a ten-thousandth of a millimetre: shorter, and far below what is seen.
double rounded(double value) { return std::round(value * 1e4) / 1e4 + 0.0; }

void add(Json& list, const fold::Vec3& v) {
  for (const double value : {v.x, v.y, v.z}) list.push_back(rounded(value));
}

Json list_of(const fold::Vec3& v) {
  Json list = Json::array();
  add(list, v);
  return list;
}

Json panel_view(const fold::Panel& panel, Mm thickness, Rect net) {
  const fold::Mesh mesh = fold::mesh(panel, thickness);
  Json outline = Json::array(), positions = Json::array(), normals = Json::array(),
       uvs = Json::array();
  for (const Point& corner : panel.outline) {
    outline.push_back({rounded(corner.x.value), rounded(corner.y.value)});
  }
  for (const fold::Corner& corner : mesh.corners) {
    add(positions, corner.at);
    add(normals, corner.normal);
    uvs.push_back(rounded((corner.net.x - net.left()) / net.size.width));
    uvs.push_back(rounded((corner.net.y - net.top()) / net.size.height));
  }
  return {{"name", panel.name},
          {"seen", panel.seen == fold::Seen::outside},
          {"upright", panel.upright.in_degrees()},
          {"outline", std::move(outline)},
          {"positions", std::move(positions)},
          {"normals", std::move(normals)},
          {"uvs", std::move(uvs)},
          {"printed", mesh.printed},
          {"inside", mesh.inside},
          {"edge", mesh.edge}};
}

/// Grows as places are added to it.
struct Extent3 {
  fold::Vec3 low{1e9, 1e9, 1e9}, high{-1e9, -1e9, -1e9};
  void add(const fold::Vec3& p) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
  }
};

Json frame_view(const fold::Model& model, double progress, Extent3& extent) {
  const std::vector<std::vector<fold::Rigid>> poses = fold::pose(model, progress);
  Json parts = Json::array();
  for (std::size_t part = 0; part < poses.size(); ++part) {
    Json panels = Json::array();
    for (std::size_t i = 0; i < poses[part].size(); ++i) {
      const fold::Rigid& pose = poses[part][i];
      Json numbers = Json::array();
      const double move[3] = {pose.move.x, pose.move.y, pose.move.z};
      for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
          // A millionth of a turn's matrix is a ten-thousandth of a millimetre at the far edge.
          numbers.push_back(std::round(pose.turn[row * 3 + column] * 1e6) / 1e6 + 0.0);
        }
        numbers.push_back(rounded(move[row]));
      }
      panels.push_back(std::move(numbers));
      for (const Point& corner : model.parts[part].net.panels[i].outline) {
        extent.add(pose(fold::lifted(corner)));
      }
    }
    parts.push_back(std::move(panels));
  }
  return {{"progress", progress}, {"poses", std::move(parts)}};
}

std::string stamp_of(const job::Outcome& outcome) {
  const pieces::Box& box = *outcome.box;
  std::string all = pack::box_words(box) + std::string(box.kind->word);
  Looks looks;
  for (std::size_t net = 0; net < box.model.parts.size(); ++net) {
    for (const fold::Panel& panel : box.model.parts[net].net.panels) {
      all += panel.name;
      for (const Point& corner : panel.outline) {
        all += fmt::format(" {:.4f} {:.4f}", corner.x.value, corner.y.value);
      }
    }
    if (const pieces::NetArt* art = art_of_net(outcome, net)) all += looks.of(art->printed);
  }
  return sha256(all).substr(0, 20);
}

/// The thickest pile in the middle of the room it has.
Json deck_view(const pieces::Box& box) {
  const fold::Block deck = pieces::thickest(box.deck);
  const fold::Clear& clear = box.fit.clear;
  const auto middle = [](double at, Mm room, Mm size) {
    return at + (room.value - size.value) / 2;
  };
  const fold::Vec3 at{middle(clear.at.x, clear.size.width, deck.width),
                      middle(clear.at.y, clear.size.height, deck.height),
                      middle(clear.at.z, clear.size.depth, deck.depth)};
  return {{"at", list_of(at)},
          {"size", list_of({deck.width.value, deck.height.value, deck.depth.value})}};
}

Json steps_view(const fold::Model& model) {
  Json steps = Json::array();
  for (const fold::Step& step : model.steps) steps.push_back(step.words);
  return steps;
}

}  // namespace

Rect bounds_of_net(const fold::Net& net) {
  Rect all = bounds(net.panels.front().outline);
  for (const fold::Panel& panel : net.panels) all = covering(all, bounds(panel.outline));
  return all;
}

Json box_view(const job::Outcome& outcome) {
  const pieces::Box& box = *outcome.box;
  const fold::Block thin = pieces::thinnest(box.deck), thick = pieces::thickest(box.deck);
  const fold::Block& clear = box.fit.clear.size;
  Json nets = Json::array();
  for (const fold::Part& part : box.model.parts) {
    const Rect around = bounds_of_net(part.net);
    nets.push_back({{"name", part.net.name},
                    {"width", around.size.width.value},
                    {"height", around.size.height.value}});
  }
  return {{"kind", box.kind->word},
          {"title", box.kind->title},
          {"words", pack::box_words(box)},
          {"pile", range(box.deck.pile.low, box.deck.pile.high)},
          {"board", box.plan.board.value},
          {"clear", solid(clear)},
          {"outside", solid(box.fit.outside)},
          {"deck",
           {{"width", thick.width.value},
            {"height", thick.height.value},
            {"depth", range(thin.depth, thick.depth)}}},
          {"room",
           {{"width", range(clear.width - thick.width, clear.width - thin.width)},
            {"height", range(clear.height - thick.height, clear.height - thin.height)},
            {"depth", range(clear.depth - thick.depth, clear.depth - thin.depth)}}},
          {"steps", steps_view(box.model)},
          {"nets", std::move(nets)},
          {"stamp", stamp_of(outcome)}};
}

Json box_model_view(const job::Outcome& outcome) {
  const pieces::Box& box = *outcome.box;
  Json parts = Json::array();
  for (std::size_t i = 0; i < box.model.parts.size(); ++i) {
    const fold::Net& net = box.model.parts[i].net;
    Json panels = Json::array();
    for (const fold::Panel& panel : net.panels) {
      panels.push_back(panel_view(panel, net.thickness, bounds_of_net(net)));
    }
    Json part{{"name", net.name}, {"panels", std::move(panels)}};
    part["texture"] = art_of_net(outcome, i) == nullptr
                          ? Json(nullptr)
                          : Json(fmt::format("/api/box/texture/{}.png", i));
    part["inside"] = nullptr;
    parts.push_back(std::move(part));
  }
  Extent3 extent;
  Json frames = Json::array();
  const int moments = static_cast<int>(box.model.steps.size()) * moments_a_step;
  for (int i = 0; i <= moments; ++i) {
    frames.push_back(frame_view(box.model, double(i) / moments_a_step, extent));
  }
  return {{"stamp", stamp_of(outcome)},
          {"thickness", box.plan.board.value},
          {"parts", std::move(parts)},
          {"bounds", {{"low", list_of(extent.low)}, {"high", list_of(extent.high)}}},
          {"frames", std::move(frames)},
          {"deckGoesIn", box.model.deck_goes_in},
          {"deck", deck_view(box)},
          {"steps", steps_view(box.model)}};
}

}  // namespace quoin::desk
