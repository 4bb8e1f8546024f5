#include "media/text/thread_fonts.h"

#include <pango/pangocairo.h>

#include "media/text/font_map.h"

namespace quoin {
namespace {

ObjectPtr<PangoFontMap>& fonts_of_this_thread() {
  thread_local ObjectPtr<PangoFontMap> fonts;
  return fonts;
}

}  // namespace

void offer_thread_fonts(PangoFontMap* fonts) {
  fonts_of_this_thread().reset(PANGO_FONT_MAP(g_object_ref(fonts)));
}

void use_thread_fonts() {
  ObjectPtr<PangoFontMap>& ours = fonts_of_this_thread();
  if (!ours) ours = make_font_map(FontStock({}));  // the map keeps the configuration alive
  pango_cairo_font_map_set_default(PANGO_CAIRO_FONT_MAP(ours.get()));
}

}  // namespace quoin
