#include "guide/look.h"

#include <cmath>

namespace quoin::guide {
namespace {

constexpr Mm points(double size) { return Mm{size * mm_per_inch / points_per_inch}; }

TextStyle styled(double size, int weight, Colour colour, double leading) {
  TextStyle style;
  style.family = house_family;
  style.weight = weight;
  style.type_size = style.smallest_size = points(size);
  style.fill = colour;
  style.leading = leading;
  return style;
}

/// Whether a length is a whole number of eighths of an inch, as American papers are.
bool is_in_eighths(Mm length) {
  const double eighths = length.value / mm_per_inch * 8;
  return std::abs(eighths - std::round(eighths)) < 0.02;
}

}  // namespace

Look look_for(Size page) {
  // Three parts of the width go to the margins of an A4: 22 mm on the left, 20 on the right.
  const double scale = std::min(1.0, page.width.value / 210);
  const Insets margins{Mm{20} * scale, Mm{20} * scale, Mm{22} * scale, Mm{22} * scale};
  return {
      page,
      {{margins.left, margins.top},
       {page.width - margins.left - margins.right, page.height - margins.top - margins.bottom}}};
}

Size page_for(Size sheet) {
  constexpr Size a4{Mm{210}, Mm{297}}, letter{Mm{215.9}, Mm{279.4}};
  const Size upright{std::min(sheet.width, sheet.height), std::max(sheet.width, sheet.height)};
  const bool is_page = upright.width >= Mm{180} && upright.width <= Mm{230} &&
                       upright.height >= Mm{250} && upright.height <= Mm{320};
  if (is_page) return upright;
  return is_in_eighths(sheet.width) && is_in_eighths(sheet.height) ? letter : a4;
}

TextStyle style_of(Voice voice) {
  switch (voice) {
    case Voice::title: {
      TextStyle style = styled(40, 700, type_ink, 1.08);
      style.smallest_size = points(18);
      return style;
    }
    case Voice::subtitle:
      return styled(14, 400, quiet, 1.3);
    case Voice::chapter:
      return styled(21, 700, type_ink, 1.12);
    case Voice::heading:
      return styled(11.5, 700, accent, 1.25);
    case Voice::body:
      break;
    case Voice::caption:
      return styled(8.5, 400, quiet, 1.35);
    case Voice::table_head:
      return styled(8.5, 700, accent, 1.35);
    case Voice::foot:
      return styled(8, 400, quiet, 1.2);
    case Voice::number:
      return styled(10.5, 700, white, 1);
  }
  return styled(10, 400, type_ink, 1.39);
}

Mm on_grid(Mm height) { return grid_step * std::ceil(height / grid_step - 1e-6); }

}  // namespace quoin::guide
