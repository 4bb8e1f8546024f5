#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "trace/fidelity.h"
#include "trace/redraw.h"

namespace quoin::job {

// For who may not know the tracer.
using RedrawWishes = trace::TraceWishes;
using Closeness = trace::Closeness;
using Verdict = trace::Verdict;

/// What `quoin trace` is asked for; paths are on disk.
struct TraceOrder {
  std::vector<std::string> pictures;
  /// A name that ends in .svg: the drawing of the one picture, which may take an earlier drawing's
  /// place. Else a folder, made when it is not there; "" puts each drawing beside its picture.
  std::string out;
  std::string difference;  ///< for one picture: where the picture of the difference goes; "": none
  trace::TraceWishes wishes;
};

/// What became of one picture.
struct TracedPicture {
  std::string picture, drawing;  ///< on disk
  trace::Judgement judgement;
  double noise = 0;
  bool halved = false;
  std::vector<trace::SmallText> small_text;
  std::vector<std::string> layers;  ///< their names, in the order in which they are painted
  std::size_t bytes = 0;
  bool written = false;
  Diagnostics found;
};

/// One picture redrawn and judged, in memory. Nothing in `svg` when it could not be.
struct Redrawn {
  TracedPicture facts;
  Bytes svg;
};

/// Redraws a file that `world` has, named `shown` in what is found.
///
/// `found` has what PictureShelf and trace::redraw find, and `trace.already-vectors`,
/// `trace.look-closely`, `trace.better-as-picture`, `trace.too-small`.
[[nodiscard]] Redrawn redraw_file(const World& world, const std::string& path,
                                  const std::string& shown, const trace::TraceWishes& wishes,
                                  Raster* difference = nullptr);

/// Redraws pictures, as many at a time as the machine has cores, and writes the drawings: whole or
/// not at all, and never over a file that was not named in the order.
///
/// Beside what redraw_file finds: `trace.file-there`, `trace.not-written`, `pack.cancelled`.
[[nodiscard]] std::vector<TracedPicture> trace_pictures(const TraceOrder& order, Watcher& watcher);

}  // namespace quoin::job
