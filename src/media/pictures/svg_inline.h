#pragma once
#include <map>
#include <string>

#include "media/pictures/opening.h"

namespace quoin::pictures {

/// A picture brought into an SVG.
struct Inlined {
  std::string address = {};  ///< data:…; empty when it will not load
  std::string why_not = {};  ///< a clause for the message
  std::size_t bytes = 0;     ///< before they are written as base64
  std::int64_t pixels = 0;   ///< 0 for a drawing
  Diagnostics remarks = {};  ///< on the picture itself; what is wrong with it when it will not load
};

/// Brings pictures into one SVG, file by file.
class Inliner {
 public:
  Inliner(const SourceFile& file, const Surroundings& around, Nesting& nesting)
      : file_(file), around_(around), nesting_(nesting) {}

  /// The picture that `href` in `line` asks for, relative to the SVG's own folder or as data:.
  /// Fails where the whole SVG must be refused: a circle, or more than may be brought in.
  [[nodiscard]] Result<Inlined> inline_picture(const std::string& href, int line);

 private:
  [[nodiscard]] Result<Inlined> inline_file(const std::string& href);
  [[nodiscard]] Result<Inlined> inline_data(const std::string& href, int line);
  [[nodiscard]] Result<Inlined> inline_bytes(const SourceFile& picture);
  [[nodiscard]] Result<Bytes> safe_bytes(const SourceFile& picture, const FirstLook& look);
  [[nodiscard]] Outcome count(const Inlined& inlined);

  const SourceFile& file_;
  const Surroundings& around_;
  Nesting& nesting_;
  std::map<std::string, Inlined> known_;  // by path: a picture may be shown many times
};

}  // namespace quoin::pictures
