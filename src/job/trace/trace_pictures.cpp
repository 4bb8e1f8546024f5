#include "job/trace/trace_pictures.h"

#include <fmt/format.h>

#include <filesystem>
#include <set>

#include "formats/png/png.h"
#include "job/trace/picture_files.h"
#include "trace/svg.h"

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

/// What the verdict is worth as a finding; nothing for a good drawing.
std::optional<Diagnostic> verdict_on(const trace::Judgement& judgement, const std::string& shown) {
  using trace::Verdict;
  const auto finding = [&](Id id, std::string_view what) {
    Diagnostic found(id, {FileName(shown)}, fmt::format("{} {}", shown, what));
    for (const std::string& reason : judgement.reasons) found.detail(reason);
    return found;
  };
  switch (judgement.verdict) {
    case Verdict::good:
      return std::nullopt;
    case Verdict::look_closely:
      if (judgement.only_text) return std::nullopt;  // said with its places already
      return finding(Id::trace_look_closely, "came out well but for some places")
          .hint("look at the drawing beside the picture, or write --difference FILE.png");
    case Verdict::better_as_picture:
      return finding(Id::trace_better_as_picture, "is better kept as a picture")
          .hint("find it with more pixels, or name a few colours with --colours 6");
    case Verdict::cannot_be_helped:
      return finding(Id::trace_too_small, "has too few pixels to be redrawn")
          .hint("find a copy of at least 200 px along its shorter side");
  }
  return std::nullopt;
}

bool is_file_name(const std::string& out) { return out.ends_with(".svg"); }

std::string drawing_for(const TraceOrder& order, const std::string& picture) {
  if (is_file_name(order.out)) return order.out;
  const fs::path name = fs::path(picture).filename().replace_extension(".svg");
  const fs::path folder = order.out.empty() ? fs::path(picture).parent_path() : fs::path(order.out);
  return (folder / name).string();
}

bool is_a_picture_of(const TraceOrder& order, const std::string& path) {
  return is_one_of(order.pictures, path);
}

class Tracer {
 public:
  Tracer(const TraceOrder& order, Watcher& watcher) : order_(order), watcher_(watcher) {}

  std::vector<TracedPicture> run() {
    const int count = static_cast<int>(order_.pictures.size());
    traced_.resize(order_.pictures.size());
    std::set<std::string> claimed;
    for (int i = 0; i < count; ++i) plan(i, claimed);
    work_through(
        count, "redrawing", watcher_, [&](int i) { one(i); },
        [&](int i) { traced_[std::size_t(i)].found.push_back(stopped_before_done()); });
    return std::move(traced_);
  }

 private:
  void plan(int i, std::set<std::string>& claimed) {
    TracedPicture& traced = traced_[std::size_t(i)];
    traced.picture = order_.pictures[std::size_t(i)];
    traced.drawing = drawing_for(order_, traced.picture);
    std::error_code ignored;
    const bool there = fs::exists(traced.drawing, ignored);
    // Where the place is a picture itself, it is first seen whether that is one of pixels.
    const bool may_replace = is_file_name(order_.out) || is_a_picture_of(order_, traced.drawing);
    if ((there && !may_replace) || !claimed.insert(traced.drawing).second) {
      traced.found.push_back(file_there(traced.drawing, traced.picture));
    }
  }

  void one(int i) {
    TracedPicture& traced = traced_[std::size_t(i)];
    if (!traced.found.empty()) return;
    const PictureOnDisk file(traced.picture);
    Raster difference;
    Redrawn redrawn = redraw_file(file.world(), file.name(), traced.picture, order_.wishes,
                                  order_.difference.empty() ? nullptr : &difference);
    redrawn.facts.picture = traced.picture;
    redrawn.facts.drawing = traced.drawing;
    traced = std::move(redrawn.facts);
    if (!redrawn.svg.empty() && !any_errors(traced.found)) write(traced, redrawn.svg, difference);
  }

  void write(TracedPicture& traced, const Bytes& svg, const Raster& difference) {
    if (is_a_picture_of(order_, traced.drawing)) {
      traced.found.push_back(file_there(traced.drawing, traced.picture));
      return;
    }
    if (auto fault = write_whole(traced.drawing, svg)) {
      traced.found.push_back(std::move(*fault));
      return;
    }
    traced.written = true;
    if (order_.difference.empty() || difference.pixels.empty()) return;
    if (is_a_picture_of(order_, order_.difference)) {
      traced.found.push_back(file_there(order_.difference, traced.picture));
      return;
    }
    if (auto fault = write_whole(order_.difference, write_png(difference, 96))) {
      traced.found.push_back(std::move(*fault));
    }
  }

  const TraceOrder& order_;
  Watcher& watcher_;
  std::vector<TracedPicture> traced_;
};

}  // namespace

Redrawn redraw_file(const World& world, const std::string& path, const std::string& shown,
                    const trace::TraceWishes& wishes, Raster* difference) {
  Redrawn redrawn;
  TracedPicture& facts = redrawn.facts;
  facts.picture = shown;
  const Origin origin{FileName(shown)};
  const auto pixels = pixels_of(world, path, shown, facts.found);
  if (!pixels) return redrawn;
  auto traced = trace::redraw(*pixels, wishes, shown, origin).or_report(facts.found);
  if (!traced) return redrawn;
  for (Diagnostic& note : traced->found) facts.found.push_back(std::move(note));
  const trace::Tracing& tracing = traced->value;
  facts.noise = tracing.noise;
  facts.halved = tracing.halved;
  facts.small_text = tracing.small_text;
  for (const trace::Layer& layer : tracing.layers) facts.layers.push_back(layer.name);
  redrawn.svg = trace::write_svg(tracing, fs::path(shown).stem().string());
  facts.bytes = redrawn.svg.size();
  facts.judgement = trace::judge(*pixels, tracing, redrawn.svg);
  if (auto verdict = verdict_on(facts.judgement, shown)) facts.found.push_back(*verdict);
  if (difference != nullptr) {
    const auto again = trace::drawn(redrawn.svg, pixels->width, pixels->height);
    if (again) *difference = trace::difference_picture(*pixels, *again);
  }
  return redrawn;
}

std::vector<TracedPicture> trace_pictures(const TraceOrder& order, Watcher& watcher) {
  return Tracer(order, watcher).run();
}

}  // namespace quoin::job
