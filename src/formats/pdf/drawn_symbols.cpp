#include "formats/pdf/drawn_symbols.h"

#include <fmt/format.h>

#include "scene/scene.h"

namespace quoin {

DrawnSymbols::DrawnSymbols(std::unique_ptr<State> state) : state_(std::move(state)) {}
DrawnSymbols::~DrawnSymbols() = default;
DrawnSymbols::DrawnSymbols(DrawnSymbols&&) noexcept = default;

Result<DrawnSymbols> DrawnSymbols::draw(const std::vector<Symbol>& symbols, PictureShelf& shelf,
                                        const std::function<bool(int)>& progress) {
  auto state = std::make_unique<State>();
  PageRecorder recorder(shelf);
  for (const Symbol& symbol : symbols) {
    recorder.page(symbol.bounds.size, [&](Canvas& canvas) {
      canvas.transform(Affine::move(Point{} - symbol.bounds.at));
      quoin::draw(symbol.make(), canvas);
    });
    state->bounds.push_back(symbol.bounds);
    const std::size_t done = state->bounds.size();
    if (progress && !progress(static_cast<int>(done))) {
      return Diagnostic(
          Id::pdf_cancelled, {},
          fmt::format("the drawing was stopped after {} of {} drawings", done, symbols.size()));
    }
  }
  if (!symbols.empty()) state->recording = recorder.finish();
  if (any_errors(state->recording.found)) return std::move(state->recording.found);
  return DrawnSymbols(std::move(state));
}

}  // namespace quoin
