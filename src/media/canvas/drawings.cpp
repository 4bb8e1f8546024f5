#include "media/canvas/drawings.h"

#include "media/text/thread_fonts.h"

namespace quoin {
namespace {

ObjectPtr<RsvgHandle> parsed(const Bytes& svg) {
  GError* fault = nullptr;
  ObjectPtr<RsvgHandle> handle{
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), &fault)};
  g_clear_error(&fault);
  if (handle) rsvg_handle_set_dpi(handle.get(), 96);  // CSS: 96 px an inch
  return handle;
}

}  // namespace

bool Drawings::draw(cairo_t* cr, const Picture& picture, Rect to) {
  const auto [known, is_new] = handles_.try_emplace(picture.key());
  if (is_new) known->second = parsed(picture.safe_svg());
  const PictureFacts& facts = picture.facts();
  if (!known->second || !(facts.width > 0) || !(facts.height > 0)) return false;
  use_thread_fonts();
  const Saved saved(cr);
  cairo_translate(cr, to.left().value, to.top().value);
  // The renderer keeps proportions; the stretch is ours.
  cairo_scale(cr, to.size.width.value / facts.width, to.size.height.value / facts.height);
  const RsvgRectangle whole{0, 0, facts.width, facts.height};
  GError* fault = nullptr;
  const bool done = rsvg_handle_render_document(known->second.get(), cr, &whole, &fault);
  g_clear_error(&fault);
  return done;
}

}  // namespace quoin
