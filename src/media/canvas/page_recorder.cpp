#include <cairo-pdf.h>
#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "media/canvas/page_ground.h"

namespace quoin {
namespace {

cairo_status_t append(void* to, const unsigned char* data, unsigned length) {
  static_cast<Bytes*>(to)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void check(cairo_status_t status) {
  if (status == CAIRO_STATUS_NO_MEMORY) throw std::bad_alloc();
  if (status != CAIRO_STATUS_SUCCESS)
    throw std::logic_error(fmt::format("recording pages: {}", cairo_status_to_string(status)));
}

}  // namespace

struct PageRecorder::State {
  explicit State(PictureShelf& shelf) : ground(shelf) {
    surface.reset(cairo_pdf_surface_create_for_stream(append, &recording.pdf, 1, 1));
    cairo_pdf_surface_restrict_to_version(surface.get(), CAIRO_PDF_VERSION_1_5);
    // Any fixed date: cairo would write today's, and the same pages must give the same bytes.
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE,
                                   "2000-01-01T00:00:00Z");
    // What must be rastered, in pixels to 72 page units: one pixel a unit, 600 an inch.
    cairo_surface_set_fallback_resolution(surface.get(), points_per_inch, points_per_inch);
    cr.reset(cairo_create(surface.get()));
  }

  Recording recording;
  PageGround ground;  // outlives the surface: cairo copies pixels of sources that die before it
  SurfacePtr surface;
  CairoPtr cr;
};

PageRecorder::PageRecorder(PictureShelf& shelf) : state_(std::make_unique<State>(shelf)) {}
PageRecorder::~PageRecorder() = default;

int PageRecorder::page(Size size, const std::function<void(Canvas&)>& draw) {
  State& s = *state_;
  cairo_pdf_surface_set_size(s.surface.get(), size.width.value * units_per_mm,
                             size.height.value * units_per_mm);
  cairo_t* const cr = s.cr.get();
  {
    const Saved saved(cr);
    cairo_scale(cr, units_per_mm, units_per_mm);
    Canvas canvas(std::make_unique<Canvas::State>(CairoPtr{cairo_reference(cr)}, s.ground));
    draw(canvas);
  }
  cairo_show_page(cr);
  check(cairo_status(cr));
  s.recording.sizes.push_back(size);
  return s.recording.pages++;
}

PageRecorder::Recording PageRecorder::finish() {
  State& s = *state_;
  s.cr.reset();
  cairo_surface_finish(s.surface.get());
  check(cairo_surface_status(s.surface.get()));
  s.recording.pictures = s.ground.take_pictures();
  s.recording.made = s.ground.take_made();
  s.recording.found = s.ground.found();
  return std::move(s.recording);
}

}  // namespace quoin
