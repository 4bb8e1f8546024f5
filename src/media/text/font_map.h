#pragma once
#include "media/text/font_stock.h"
#include "media/text/handles.h"

namespace quoin {

/// A font map that knows the fonts of `stock` and no others, at 72 units an inch, so that absolute
/// font sizes are in layout units. Call `pango_fc_font_map_config_changed` when the stock grows.
[[nodiscard]] ObjectPtr<PangoFontMap> make_font_map(const FontStock& stock);

}  // namespace quoin
