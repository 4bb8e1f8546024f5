#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/world.h"
#include "game/edit/edit.h"

namespace quoin::job {

/// How one file became another: one stretch of its bytes gave way to others. The stretch begins
/// and ends between letters.
struct FileSplice {
  std::string file;
  std::string before, after;  ///< SHA-256 of the whole texts
  std::size_t at = 0;
  std::string removed, inserted;
};

[[nodiscard]] FileSplice splice_between(std::string file, const Bytes& before, const Bytes& after);

/// The later text, made of the earlier; nothing when that is not the earlier one.
[[nodiscard]] std::optional<Bytes> forward(const FileSplice& splice, const Bytes& before);
[[nodiscard]] std::optional<Bytes> backward(const FileSplice& splice, const Bytes& after);

/// What was done in one go, and what takes it back.
struct Step {
  std::string label, group;
  std::vector<FileSplice> files;
  std::vector<game::Claim> done, back;  ///< in the order in which they are made
};

/// `later` as a part of the step `earlier`, which it follows in the same files: a drag of many
/// moves is one step. `whole` are the splices over both. Claims of the same values become one.
[[nodiscard]] Step joined(Step earlier, Step later, std::vector<FileSplice> whole);

}  // namespace quoin::job
