#pragma once
#include <string>
#include <variant>

#include "base/world.h"
#include "desk/http/guard.h"

namespace quoin::desk {

/// A name for a file that a page gave: its last part alone, without what a file system or a person
/// would stumble over, "picture" when nothing is left; the ending is left out. 80 bytes at most.
[[nodiscard]] std::string safe_stem(std::string_view name);

/// The name of the file, or why it was not put there.
using Uploaded = std::variant<std::string, Refusal>;

/// Puts a picture into `folder` (a folder inside `inside`, made when missing), under `name` or the
/// next free one; never over a file that is there, never through a link to elsewhere. The ending
/// follows from the bytes. What is no picture that Quoin can show is refused with 415.
[[nodiscard]] Uploaded put_picture(const std::string& inside, const std::string& folder,
                                   std::string_view name, const Bytes& bytes);

/// Pictures for a new game, before it has a folder: in a folder of their own in the system's place
/// for such, which goes when this does.
class PictureTray {
 public:
  PictureTray() = default;
  ~PictureTray();
  PictureTray(const PictureTray&) = delete;
  PictureTray& operator=(const PictureTray&) = delete;

  /// Refused with 413 over 2,000 pictures or 1 GB.
  [[nodiscard]] Uploaded put(std::string_view name, const Bytes& bytes);
  /// "" when there are none.
  [[nodiscard]] const std::string& folder() const { return folder_; }
  void clear();

 private:
  std::string folder_;
  std::size_t bytes_ = 0, count_ = 0;
};

}  // namespace quoin::desk
