#include "job/trace/trace_pictures.h"

#include <fmt/format.h>

#include <atomic>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <mutex>
#include <set>
#include <thread>

#include "formats/png/png.h"
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

Diagnostic not_written(const std::string& path, const std::string& why) {
  return Diagnostic(Id::trace_not_written, {FileName(path)},
                    fmt::format("cannot write {}: {}", path, why))
      .hint("make room on the disk, or name another folder with -o");
}

/// Writes beside the place and moves it there, so that the place holds all or what it held.
std::optional<Diagnostic> write_whole(const std::string& path, const Bytes& bytes) {
  std::error_code fault;
  const fs::path folder = fs::path(path).parent_path();
  if (!folder.empty()) fs::create_directories(folder, fault);
  if (fault) return not_written(path, fault.message());
  const std::string beside = path + ".part";
  {
    std::ofstream file(beside, std::ios::binary | std::ios::trunc);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.flush();
    if (!file) {
      const std::string why = std::strerror(errno);
      fs::remove(beside, fault);
      return not_written(path, why);
    }
  }
  fs::rename(beside, path, fault);
  if (!fault) return std::nullopt;
  const std::string why = fault.message();
  fs::remove(beside, fault);
  return not_written(path, why);
}

Diagnostic file_there(const std::string& path, const std::string& picture) {
  return Diagnostic(Id::trace_file_there, {FileName(picture)},
                    fmt::format("{} is there already, and was left as it is", path))
      .hint("name another place with -o, or move that file away");
}

bool is_file_name(const std::string& out) { return out.ends_with(".svg"); }

std::string drawing_for(const TraceOrder& order, const std::string& picture) {
  if (is_file_name(order.out)) return order.out;
  const fs::path name = fs::path(picture).filename().replace_extension(".svg");
  const fs::path folder = order.out.empty() ? fs::path(picture).parent_path() : fs::path(order.out);
  return (folder / name).string();
}

/// Whether a file is one of the pictures: those are never written over.
bool is_a_picture_of(const TraceOrder& order, const std::string& path) {
  std::error_code ignored;
  return std::any_of(order.pictures.begin(), order.pictures.end(), [&](const std::string& one) {
    return one == path || fs::equivalent(one, path, ignored);
  });
}

class Tracer {
 public:
  Tracer(const TraceOrder& order, Watcher& watcher) : order_(order), watcher_(watcher) {}

  std::vector<TracedPicture> run() {
    const int count = static_cast<int>(order_.pictures.size());
    traced_.resize(order_.pictures.size());
    std::set<std::string> claimed;
    for (int i = 0; i < count; ++i) plan(i, claimed);
    (void)watcher_.at("redrawing", 0, count);
    on_all_cores(count, [&](int i) { one(i); });
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
    if (stopped_.load()) {
      traced.found.push_back(
          Diagnostic(Id::pack_cancelled, {}, "the work was stopped before it was done"));
      return;
    }
    // Links are followed: what the maker names may be read wherever it lies.
    std::error_code fault;
    const fs::path real = fs::canonical(traced.picture, fault);
    const fs::path path = fault ? fs::path(traced.picture) : real;
    const auto world = real_world(path.parent_path().empty() ? "." : path.parent_path().string());
    Raster difference;
    Redrawn redrawn = redraw_file(*world, path.filename().string(), traced.picture, order_.wishes,
                                  order_.difference.empty() ? nullptr : &difference);
    redrawn.facts.picture = traced.picture;
    redrawn.facts.drawing = traced.drawing;
    traced = std::move(redrawn.facts);
    if (!redrawn.svg.empty() && !any_errors(traced.found)) write(traced, redrawn.svg, difference);
    const std::lock_guard lock(counting_);
    if (!watcher_.at("redrawing", ++done_, static_cast<int>(traced_.size()))) stopped_ = true;
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
  std::mutex counting_;
  int done_ = 0;
  std::atomic<bool> stopped_{false};
};

}  // namespace

Redrawn redraw_file(const World& world, const std::string& path, const std::string& shown,
                    const trace::TraceWishes& wishes, Raster* difference) {
  Redrawn redrawn;
  TracedPicture& facts = redrawn.facts;
  facts.picture = shown;
  const Origin origin{FileName(shown)};
  PictureShelf shelf(world);
  const auto picture = shelf.open(path, origin, facts.found).or_report(facts.found);
  if (!picture) return redrawn;
  if ((*picture)->facts().is_vector()) {
    facts.found.push_back(Diagnostic(Id::trace_already_vectors, origin,
                                     fmt::format("{} is drawn in vectors already", shown))
                              .hint("use it as it is"));
    return redrawn;
  }
  const auto pixels = shelf.pixels(*picture).or_report(facts.found);
  if (!pixels) return redrawn;
  auto traced = trace::redraw(**pixels, wishes, shown, origin).or_report(facts.found);
  if (!traced) return redrawn;
  for (Diagnostic& note : traced->found) facts.found.push_back(std::move(note));
  const trace::Tracing& tracing = traced->value;
  facts.noise = tracing.noise;
  facts.halved = tracing.halved;
  facts.small_text = tracing.small_text;
  for (const trace::Layer& layer : tracing.layers) facts.layers.push_back(layer.name);
  redrawn.svg = trace::write_svg(tracing, fs::path(shown).stem().string());
  facts.bytes = redrawn.svg.size();
  facts.judgement = trace::judge(**pixels, tracing, redrawn.svg);
  if (auto verdict = verdict_on(facts.judgement, shown)) facts.found.push_back(*verdict);
  if (difference != nullptr) {
    const auto again = trace::drawn(redrawn.svg, (*pixels)->width, (*pixels)->height);
    if (again) *difference = trace::difference_picture(**pixels, *again);
  }
  return redrawn;
}

std::vector<TracedPicture> trace_pictures(const TraceOrder& order, Watcher& watcher) {
  return Tracer(order, watcher).run();
}

void on_all_cores(int count, const std::function<void(int)>& work) {
  std::atomic<int> next{0};
  const auto some = [&] {
    for (int i = next++; i < count; i = next++) work(i);
  };
  const int cores = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
  std::vector<std::jthread> others;
  for (int i = 1; i < std::min(cores, count); ++i) others.emplace_back(some);
  some();
}

}  // namespace quoin::job
