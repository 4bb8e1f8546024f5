#include "sheets/mark_lines.h"
#include "sheets/printable.h"
#include "sheets/slug.h"

namespace quoin::sheets {
namespace {

Item hairlines(std::string element, Path path) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.stroke.paint = black;
  shape.stroke.width = mark_width;
  Item item;
  item.element = std::move(element);
  item.layer = Layer::mark;
  item.what = std::move(shape);
  return item;
}

Path drawn(const std::vector<MarkLine>& lines) {
  Path path;
  for (const MarkLine& line : lines) path.move_to(line.from).line_to(line.to);
  return path;
}

Item crops(const std::vector<MarkLine>& lines) { return hairlines("crop-marks", drawn(lines)); }

Item fold_lines(const std::vector<MarkLine>& lines) {
  Item item = hairlines("fold-marks", drawn(lines));
  std::get<ShapeItem>(item.what).stroke.dash = {Mm{0.8}, Mm{0.5}};
  return item;
}

/// A circle and a cross: whatever is off between front and back is seen against the light.
Item targets(const std::vector<Point>& places) {
  const Mm radius = target_size * 0.3;
  const Mm arm = target_size / 2;
  Path path;
  for (const Point p : places) {
    path.append(Path::ellipse(grown(Rect{p, {}}, radius)));
    path.move_to({p.x - arm, p.y}).line_to({p.x + arm, p.y});
    path.move_to({p.x, p.y - arm}).line_to({p.x, p.y + arm});
  }
  return hairlines("register-targets", std::move(path));
}

bool has_any_back(const Plan& plan) {
  return std::any_of(plan.sheets.begin(), plan.sheets.end(),
                     [](const Sheet& sheet) { return !sheet.back.placed.empty(); });
}

}  // namespace

Scene marks(const Plan& plan, Side side, const Slug& slug, const std::string& family) {
  if (side == Side::back && !has_back_forms(plan.wishes)) return {};
  const PageFrame frame = page_frame(plan, side);
  const std::vector<MarkLine> cuts = crop_marks(frame), folds = fold_marks(frame);
  Scene scene;
  if (!cuts.empty()) scene.items.push_back(crops(cuts));
  if (!folds.empty()) scene.items.push_back(fold_lines(folds));
  std::vector<Point> places;
  if (has_any_back(plan)) places = target_places(frame, cuts);
  if (!places.empty()) scene.items.push_back(targets(places));
  if (const std::optional<SlugRows> rows = slug_rows(frame, places)) {
    if (std::optional<Item> line = slug_line(slug, rows->words, family)) {
      scene.items.push_back(*std::move(line));
    }
    for (Item& item : measuring_bar(rows->bar, family)) scene.items.push_back(std::move(item));
  }
  for (Item& item : scene.items) item.origin = plan.wishes.origin;
  return scene;
}

}  // namespace quoin::sheets
