#pragma once
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "job/job.h"
#include "media/picture.h"

namespace quoin::job {

// What redrawing, straightening and cutting out have in common: pictures named on disk go in, new
// files come out.

/// A picture that was named on disk. Links are followed: what the maker names may be read wherever
/// it lies.
class PictureOnDisk {
 public:
  explicit PictureOnDisk(const std::string& path);
  [[nodiscard]] const World& world() const { return *world_; }  ///< the folder it lies in
  [[nodiscard]] const std::string& name() const { return name_; }

 private:
  std::unique_ptr<World> world_;
  std::string name_;
};

/// The pixels of a file that `world` has, named `shown` in what is found. Nothing when there are
/// none: `found` has what PictureShelf finds, and `trace.already-vectors`.
[[nodiscard]] std::shared_ptr<const Raster> pixels_of(const World& world, const std::string& path,
                                                      const std::string& shown, Diagnostics& found);

/// Writes beside the place and moves it there, so that the place holds all or what it held. Fails
/// with `trace.not-written`.
[[nodiscard]] std::optional<Diagnostic> write_whole(const std::string& path, const Bytes& bytes);

/// `trace.file-there`: the file at `path` was left as it is.
[[nodiscard]] Diagnostic file_there(const std::string& path, const std::string& picture);
/// `pack.cancelled`.
[[nodiscard]] Diagnostic stopped_before_done();

/// Whether a file is one of the pictures, by whatever name: those are never written over.
[[nodiscard]] bool is_one_of(const std::vector<std::string>& pictures, const std::string& path);

/// Calls `one` with 0 to `count` - 1 on all cores and tells the watcher; once that says stop,
/// `stopped` is called for the rest.
void work_through(int count, std::string_view work, Watcher& watcher,
                  const std::function<void(int)>& one, const std::function<void(int)>& stopped);

/// Calls `work` with 0 to `count` - 1 on as many threads as the machine has cores.
void on_all_cores(int count, const std::function<void(int)>& work);

}  // namespace quoin::job
