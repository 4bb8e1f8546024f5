// Opens bytes as a picture, as whatever kind they turn out to be, and asks for everything a
// picture can give.
#include <cstdint>
#include <optional>
#include <string>

#include "media/picture.h"

namespace {

/// Says of every heavy SVG that it was tried and found too heavy: a process for each input would be
/// slow, and drawing is not what is looked at here.
class TriedAlready : public quoin::ImageCache {
 public:
  [[nodiscard]] std::optional<quoin::Bytes> get(const std::string& key) const override {
    if (key.starts_with("svg-trial-")) return "gives up";
    return std::nullopt;
  }
  void put(const std::string& /*key*/, const quoin::Bytes& /*bytes*/) override {}
};

/// Pixels of more than a megapixel are sound but slow to read a million times.
bool is_small(const quoin::PictureFacts& facts) { return facts.width * facts.height <= 1'000'000; }

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const quoin::Bytes bytes(reinterpret_cast<const char*>(data), size);
  quoin::MemoryWorld world;
  world.put("art/picture.png", bytes);
  world.put("art/other.svg", "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 1 1'/>");
  TriedAlready cache;
  quoin::PictureShelf shelf(world, &cache);
  quoin::Diagnostics found;
  const auto picture = shelf.open("art/picture.png", quoin::Origin{}, found);
  if (!picture) return picture.why().empty() ? __builtin_trap(), 0 : 0;
  const quoin::PictureFacts& facts = (*picture)->facts();
  if (facts.is_vector() || !is_small(facts)) return 0;
  const auto pixels = shelf.pixels(*picture);
  if (pixels && ((*pixels)->width != facts.width || (*pixels)->height != facts.height)) {
    __builtin_trap();
  }
  (void)shelf.pixels(*picture, 3);
  (void)shelf.prepared(*picture);
  return 0;
}
