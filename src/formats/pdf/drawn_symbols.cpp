#include "formats/pdf/drawn_symbols.h"

#include <fmt/format.h>

#include "scene/scene.h"

namespace quoin {

DrawnSymbols::DrawnSymbols(std::unique_ptr<State> state) : state_(std::move(state)) {}
DrawnSymbols::~DrawnSymbols() = default;
DrawnSymbols::DrawnSymbols(DrawnSymbols&&) noexcept = default;

namespace {

void record(PageRecorder& recorder, const Symbol& symbol, const Scene& scene) {
  recorder.page(symbol.bounds.size, [&](Canvas& canvas) {
    canvas.transform(Affine::move(Point{} - symbol.bounds.at));
    quoin::draw(scene, canvas);
  });
}

/// Each symbol in turn, until `progress` says no.
Outcome for_each(const std::vector<Symbol>& symbols, const std::function<bool(int)>& progress,
                 const std::function<void(std::size_t)>& draw_one) {
  for (std::size_t i = 0; i < symbols.size(); ++i) {
    draw_one(i);
    if (progress && !progress(static_cast<int>(i) + 1)) {
      return Diagnostic(
          Id::pdf_cancelled, {},
          fmt::format("the drawing was stopped after {} of {} drawings", i + 1, symbols.size()));
    }
  }
  return Done{};
}

/// What was recorded, with the symbols' bounds; nothing recorded when there are none.
Result<std::unique_ptr<DrawnSymbols::State>> finished(PageRecorder& recorder,
                                                      const std::vector<Symbol>& symbols) {
  auto state = std::make_unique<DrawnSymbols::State>();
  for (const Symbol& symbol : symbols) state->bounds.push_back(symbol.bounds);
  if (!symbols.empty()) state->recording = recorder.finish();
  if (any_errors(state->recording.found)) return std::move(state->recording.found);
  return state;
}

}  // namespace

Result<DrawnSymbols> DrawnSymbols::draw(const std::vector<Symbol>& symbols, PictureShelf& shelf,
                                        const std::function<bool(int)>& progress) {
  PageRecorder recorder(shelf);
  const Outcome all = for_each(
      symbols, progress, [&](std::size_t i) { record(recorder, symbols[i], symbols[i].make()); });
  if (!all) return all.why();
  auto state = finished(recorder, symbols);
  if (!state) return std::move(state).why();
  return DrawnSymbols(std::move(*state));
}

Result<DrawnSymbols::Both> DrawnSymbols::draw_both(
    const std::vector<Symbol>& symbols,
    const std::function<Scene(std::size_t, const Scene&)>& other, PictureShelf& shelf,
    const std::function<bool(int)>& progress) {
  PageRecorder first(shelf), second(shelf);
  const Outcome all = for_each(symbols, progress, [&](std::size_t i) {
    const Scene scene = symbols[i].make();
    record(first, symbols[i], scene);
    record(second, symbols[i], other(i, scene));
  });
  if (!all) return all.why();
  auto as_they_are = finished(first, symbols), changed = finished(second, symbols);
  if (!as_they_are) return std::move(as_they_are).why();
  if (!changed) return std::move(changed).why();
  return Both{DrawnSymbols(std::move(*as_they_are)), DrawnSymbols(std::move(*changed))};
}

}  // namespace quoin
