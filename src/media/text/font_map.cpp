#include "media/text/font_map.h"

#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include <stdexcept>

namespace quoin {

ObjectPtr<PangoFontMap> make_font_map(const FontStock& stock) {
  ObjectPtr<PangoFontMap> fonts{pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT)};
  if (!fonts) throw std::runtime_error("pango was built without FreeType");
  pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(fonts.get()), points_per_inch);
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(fonts.get()), stock.config());
  return fonts;
}

}  // namespace quoin
