#include "pieces/card/check_parts.h"

#include <fmt/format.h>

#include <algorithm>

namespace quoin::pieces {

Diagnostic& Inspection::report(Id id, const Leaf& leaf, std::string message) const {
  found.emplace_back(id, leaf.origin(face.row), std::move(message));
  return found.back().on(face.piece, leaf.element());
}

const Ground* Inspection::beneath(const Leaf& leaf) const {
  const auto place = static_cast<std::size_t>(&leaf - leaves.data());
  const auto ground = std::lower_bound(look.grounds.begin(), look.grounds.end(), place,
                                       [](const Ground& g, std::size_t i) { return g.leaf < i; });
  if (ground == look.grounds.end() || ground->leaf != place) return nullptr;
  return &*ground;
}

std::optional<std::uint32_t> Inspection::typical_ground(const Leaf& leaf) const {
  const Ground* ground = beneath(leaf);
  if (ground == nullptr) return std::nullopt;
  std::vector<std::uint32_t> all;
  for (const auto& stretch : ground->stretches) {
    all.insert(all.end(), stretch.begin(), stretch.end());
  }
  if (all.empty()) return std::nullopt;
  return median_pixel(std::move(all));
}

std::vector<Colour> colours_of(const Paint& paint) {
  if (const Colour* colour = std::get_if<Colour>(&paint)) return {*colour};
  const std::vector<GradientStop>* stops = nullptr;
  if (const auto* linear = std::get_if<LinearGradient>(&paint)) stops = &linear->stops;
  if (const auto* radial = std::get_if<RadialGradient>(&paint)) stops = &radial->stops;
  std::vector<Colour> colours;
  if (stops == nullptr) return colours;
  for (const GradientStop& stop : *stops) colours.push_back(stop.colour);
  return colours;
}

std::vector<Colour> letter_colours(const TextStyle& style) {
  std::vector<Colour> colours = colours_of(style.fill);
  if (colours.empty() && !style.strokes.empty()) colours = colours_of(style.strokes.back().paint);
  return colours;
}

std::string plain(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string in_mm(Mm length) {
  const double shown = length.value > -0.05 && length.value <= 0 ? 0 : length.value;
  return fmt::format("{:.1f} mm", shown);
}

double points(Mm size) { return size.value / mm_per_inch * points_per_inch; }

std::string in_points(Mm size) { return fmt::format("{:.1f} pt", points(size)); }

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " and " : ", ";
    text += words[i];
  }
  return text;
}

}  // namespace quoin::pieces
