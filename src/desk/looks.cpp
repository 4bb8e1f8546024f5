#include "desk/looks.h"

#include <bit>

#include "base/hash.h"
#include "base/packed.h"

namespace quoin::desk {
namespace {

/// Writes values one after another, each kind with its own mark, so that no two different scenes
/// read alike.
class LooksWriter {
 public:
  explicit LooksWriter(std::map<PicturePtr, std::string>& drawings) : drawings_(drawings) {}

  void items(const std::vector<Item>& all) {
    count(all.size());
    for (const Item& one : all) item(one);
  }
  [[nodiscard]] std::string take() { return out_.take(); }

 private:
  void count(std::size_t n) { out_.number(n); }
  void number(double v) { out_.number(std::bit_cast<std::uint64_t>(v + 0.0)); }
  template <typename E>
  void word(E e) {
    out_.number(static_cast<std::uint64_t>(e));
  }
  void point(Point p) { number(p.x.value), number(p.y.value); }
  void rect(Rect r) { point(r.at), number(r.size.width.value), number(r.size.height.value); }
  void colour(const Colour& c) { number(c.red), number(c.green), number(c.blue), number(c.alpha); }

  void path(const Path& path) {
    count(path.steps().size());
    for (const Path::Step& step : path.steps()) {
      word(step.verb);
      for (const Point& p : step.p) point(p);
    }
  }

  void stops(const std::vector<GradientStop>& stops) {
    count(stops.size());
    for (const GradientStop& stop : stops) colour(stop.colour), number(stop.offset);
  }

  void paint(const Paint& paint) {
    count(paint.index());
    if (const auto* flat = std::get_if<Colour>(&paint)) colour(*flat);
    if (const auto* linear = std::get_if<LinearGradient>(&paint)) {
      point(linear->from), point(linear->to), stops(linear->stops);
    }
    if (const auto* radial = std::get_if<RadialGradient>(&paint)) {
      point(radial->centre), number(radial->radius.value), stops(radial->stops);
    }
  }

  void stroke(const Stroke& stroke) {
    paint(stroke.paint), number(stroke.width.value);
    count(stroke.dash.size());
    for (const Mm length : stroke.dash) number(length.value);
    word(stroke.join), word(stroke.cap);
  }

  void picture(const PicturePtr& picture) {
    if (!picture->facts().is_vector()) return out_.string(picture->key());
    std::string& hash = drawings_[picture];
    if (hash.empty()) hash = sha256(picture->safe_svg());
    out_.string(hash);
  }

  void style(const TextStyle& style) {
    out_.string(style.family);
    word(style.weight), word(style.italic);
    number(style.type_size.value), number(style.smallest_size.value);
    paint(style.fill);
    count(style.strokes.size());
    for (const Stroke& one : style.strokes) stroke(one);
    word(style.align), word(style.vertical);
    number(style.leading), number(style.letter_spacing), number(style.paragraph_gap);
    word(style.hyphenate), word(style.letter_case), word(style.direction);
    out_.string(style.language);
  }

  void what(const PictureItem& shown) {
    picture(shown.picture);
    rect(shown.to), rect(shown.window), word(shown.crop);
  }
  void what(const TextItem& text) {
    point(text.at), number(text.block.box.width.value), number(text.block.box.height.value);
    style(text.block.style);
    count(text.block.runs.size());
    for (const TextRun& run : text.block.runs) {
      out_.string(run.text);
      word(run.bold), word(run.italic), word(run.symbol != nullptr);
      if (!run.symbol) continue;
      picture(run.symbol->picture);
      number(run.symbol->scale), number(run.symbol->drop);
    }
  }
  void what(const ShapeItem& shape) { path(shape.path), paint(shape.fill), stroke(shape.stroke); }
  void what(const GroupItem& group) { items(group.items); }

  void item(const Item& item) {
    word(item.layer), number(item.opacity);
    for (const double v :
         {item.map.a, item.map.b, item.map.c, item.map.d, item.map.e.value, item.map.f.value}) {
      number(v);
    }
    word(item.clip.has_value()), word(item.shadow.has_value()), word(item.outline.has_value());
    if (item.clip) path(*item.clip);
    if (item.shadow) {
      colour(item.shadow->colour), number(item.shadow->offset.x.value);
      number(item.shadow->offset.y.value), number(item.shadow->blur.value);
    }
    if (item.outline) colour(item.outline->colour), number(item.outline->width.value);
    count(item.what.index());
    std::visit([this](const auto& part) { what(part); }, item.what);
  }

  std::map<PicturePtr, std::string>& drawings_;
  PackedWriter out_;
};

}  // namespace

std::string Looks::of(const Scene& scene) {
  LooksWriter writer(drawings_);
  writer.items(scene.items);
  return sha256(writer.take());
}

}  // namespace quoin::desk
