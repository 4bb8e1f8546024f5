#pragma once
#include <map>
#include <set>
#include <string>
#include <vector>

#include "base/world.h"

namespace quoin::pdf {

/// Left, bottom, right and top in points from the bottom left of the sheet.
struct Box {
  double left = 0, bottom = 0, right = 0, top = 0;
};

struct PageFacts {
  Box media, crop, bleed, trim;
  std::string label;  ///< "" without one
  bool has_group = false;
};

struct FontFacts {
  std::string name;  ///< with its subset's mark, "ABCDEF+Face-Regular"
  std::string kind;  ///< "Type0", "TrueType", "Type1" ...
  bool embedded = false;
};

struct ImageFacts {
  int width = 0, height = 0, bits = 0;
  std::string space;     ///< "ICCBased 3", "DeviceGray", "Indexed ICCBased 3" ...
  std::string filter;    ///< "DCTDecode", "FlateDecode"
  bool is_mask = false;  ///< the soft mask of another image
};

/// What a PDF file holds, as another program would find it, and what a print shop would find
/// fault with. Nothing here knows how Quoin writes: it reads the bytes.
struct Inspection {
  std::string version;
  std::vector<PageFacts> pages;
  std::vector<FontFacts> fonts;
  std::vector<ImageFacts> images;  ///< each embedded image once, soft masks too
  int forms = 0;                   ///< form XObjects
  std::vector<std::string> layers;
  std::map<std::string, std::string> steps;  ///< "Cut" -> "Structural Cutting" (ISO 19593-1)
  std::set<std::string> spot_colours;        ///< names of separations
  std::map<std::string, std::string> viewer_preferences;
  std::map<std::string, std::string> information;
  std::string language;
  /// A sentence each: fonts not embedded or drawn as Type 3, device RGB that nothing ties to
  /// sRGB (colours, images, shadings, groups), boxes that do not lie in each other, LZW,
  /// encryption, actions, and everything the reading library warns of.
  /// Sources: ISO 32000-1; ISO 15930-7 for what a shop's standard forbids.
  std::vector<std::string> faults;
};

/// Never fails: a file that cannot be read has that as its fault.
[[nodiscard]] Inspection inspect(const Bytes& file);

}  // namespace quoin::pdf
