#pragma once
#include <string>

#include "base/result.h"
#include "base/world.h"

namespace quoin::pack {

/// An archive in the making: it takes its place in one step, and until then an earlier one there
/// is as it was. One that is dropped without `publish` leaves nothing behind.
class Archive {
 public:
  /// Makes ready to publish at `target`. Fails with `share.target-not-a-share` when something else
  /// than the archive of a share is there.
  [[nodiscard]] static Result<Archive> begin(const std::string& target);
  ~Archive();
  Archive(Archive&& other) noexcept;
  Archive& operator=(Archive&&) = delete;

  /// Writes it beside its place. Fails with `share.not-written` and the system's words.
  [[nodiscard]] Outcome write(const Bytes& bytes);
  [[nodiscard]] Outcome publish();

 private:
  Archive(std::string target, std::string part);
  std::string target_, part_;
};

}  // namespace quoin::pack
