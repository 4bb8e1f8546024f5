#include <algorithm>
#include <stdexcept>

#include "media/text/set_text.h"

namespace quoin {
namespace {

const SetText::State& state_of(const SetText& text) {
  if (!text.state()) throw std::logic_error("a text was taken apart before it was set");
  return *text.state();
}

}  // namespace

std::vector<PlaceInText> places_in(const SetText& text) {
  std::vector<PlaceInText> places;
  for (const PlacedSymbol& placed : state_of(text).symbols) {
    if (placed.symbol) places.push_back({placed.symbol, placed.to, placed.line});
  }
  return places;
}

SetText some_lines(const SetText& text, int first, int count) {
  const SetText::State& whole = state_of(text);
  const int all = static_cast<int>(whole.lines.size());
  first = std::clamp(first, 0, all);
  const int end = std::clamp(first + count, first, all);
  auto part = std::make_shared<SetText::State>();
  // The layout keeps the fonts alive; the lines are shared with the whole.
  if (whole.layout) {
    part->layout.reset(static_cast<PangoLayout*>(g_object_ref(whole.layout.get())));
  }
  part->fill = whole.fill;
  part->strokes = whole.strokes;
  part->lines.assign(whole.lines.begin() + first, whole.lines.begin() + end);
  for (const PlacedSymbol& placed : whole.symbols) {
    if (placed.line >= first && placed.line < end) part->symbols.push_back(placed);
  }
  TextFacts facts = text.facts();
  facts.lines = end - first;
  facts.line_ink.assign(text.facts().line_ink.begin() + first, text.facts().line_ink.begin() + end);
  facts.ink = {};
  for (const Rect& ink : facts.line_ink) {
    if (ink.size.width <= Mm{} || ink.size.height <= Mm{}) continue;
    facts.ink = facts.ink.size == Size{} ? ink : covering(facts.ink, ink);
  }
  return SetText(std::move(part), std::move(facts));
}

}  // namespace quoin
