#include "media/text/house.h"

#include <cstddef>

#define QUOIN_HOUSE_FILE(name)  \
  extern "C" const char name[]; \
  extern "C" const char name##_end[];

QUOIN_HOUSE_FILE(quoin_house_regular)
QUOIN_HOUSE_FILE(quoin_house_bold)
QUOIN_HOUSE_FILE(quoin_house_italic)
QUOIN_HOUSE_FILE(quoin_house_bold_italic)
QUOIN_HOUSE_FILE(quoin_house_patterns)
#undef QUOIN_HOUSE_FILE

namespace quoin {
namespace {

std::string_view between(const char* begin, const char* end) {
  return {begin, static_cast<std::size_t>(end - begin)};
}

}  // namespace

const std::vector<HouseFile>& house_fonts() {
  static const std::vector<HouseFile> fonts{
      {"NotoSans-Regular.ttf", between(quoin_house_regular, quoin_house_regular_end)},
      {"NotoSans-Bold.ttf", between(quoin_house_bold, quoin_house_bold_end)},
      {"NotoSans-Italic.ttf", between(quoin_house_italic, quoin_house_italic_end)},
      {"NotoSans-BoldItalic.ttf", between(quoin_house_bold_italic, quoin_house_bold_italic_end)},
  };
  return fonts;
}

const HouseFile& house_patterns() {
  static const HouseFile file{"hyph_en_US.dic",
                              between(quoin_house_patterns, quoin_house_patterns_end)};
  return file;
}

}  // namespace quoin
