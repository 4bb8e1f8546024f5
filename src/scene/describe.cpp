#include <fmt/format.h>

#include <cmath>
#include <iterator>

#include "scene/parts.h"

namespace quoin {
namespace {

/// Writes a description, part by part. Every part ends in a blank, and texts begin with their
/// length, so that no two different drawings read alike.
class Describer {
 public:
  explicit Describer(Point origin) : origin_(origin) {}

  void item(const Item& item) {
    if (item.clip) word("clip"), path(*item.clip);
    if (item.outline) {
      word("outline");
      number(item.outline->width.value);
      number(item.outline->colour.alpha);
    }
    std::visit([this](const auto& part) { what(part); }, item.what);
  }

  std::string take() { return std::move(text_); }

 private:
  void word(std::string_view w) { fmt::format_to(std::back_inserter(text_), "{} ", w); }
  void number(double v) {
    // Whole ten-thousandths: places that differ by the noise of a subtraction read alike.
    fmt::format_to(std::back_inserter(text_), "{} ", std::round(v * 1e4) + 0.0);
  }
  void exact(double v) { fmt::format_to(std::back_inserter(text_), "{} ", v); }
  void words(std::string_view w) {
    fmt::format_to(std::back_inserter(text_), "{}:{} ", w.size(), w);
  }
  void place(Point p) {
    number((p.x - origin_.x).value);
    number((p.y - origin_.y).value);
  }
  void rect(Rect r) {
    place(r.at);
    number(r.size.width.value);
    number(r.size.height.value);
  }

  void path(const Path& path) {
    for (const Path::Step& step : path.steps()) {
      number(static_cast<int>(step.verb));
      const int places = step.verb == Path::Verb::close   ? 0
                         : step.verb == Path::Verb::curve ? 3
                                                          : 1;
      for (int i = 0; i < places; ++i) place(step.p[i]);
    }
  }

  void stops(const std::vector<GradientStop>& stops) {
    for (const GradientStop& stop : stops) {
      exact(stop.offset);
      exact(stop.colour.alpha);
    }
  }

  /// Only opacity bears on a silhouette; gradients count when they have clear parts.
  void paint(const Paint& paint) {
    if (const auto* colour = std::get_if<Colour>(&paint)) {
      exact(colour->alpha);
    } else if (const auto* linear = std::get_if<LinearGradient>(&paint)) {
      word("linear");
      place(linear->from);
      place(linear->to);
      stops(linear->stops);
    } else if (const auto* radial = std::get_if<RadialGradient>(&paint)) {
      word("radial");
      place(radial->centre);
      number(radial->radius.value);
      stops(radial->stops);
    } else {
      word("none");
    }
  }

  void stroke(const Stroke& stroke) {
    word("stroke");
    paint(stroke.paint);
    number(stroke.width.value);
    for (const Mm dash : stroke.dash) number(dash.value);
    number(static_cast<int>(stroke.join));
    number(static_cast<int>(stroke.cap));
  }

  void style(const TextStyle& style) {
    words(style.family);
    words(style.language);
    for (const double v :
         {style.weight + (style.italic ? 0.5 : 0), style.type_size.value, style.smallest_size.value,
          style.leading, style.letter_spacing, style.paragraph_gap})
      exact(v);
    for (const int v : {static_cast<int>(style.align), static_cast<int>(style.vertical),
                        static_cast<int>(style.letter_case), static_cast<int>(style.direction),
                        style.hyphenate ? 1 : 0})
      number(v);
    paint(style.fill);
    for (const Stroke& each : style.strokes) stroke(each);
  }

  void what(const PictureItem& item) {
    word("picture");
    words(item.picture ? item.picture->key() : "");
    rect(item.to);
    if (item.crop) rect(item.window);
  }

  void what(const TextItem& item) {
    word("text");
    rect({item.at, item.block.box});
    style(item.block.style);
    for (const TextRun& run : item.block.runs) {
      words(run.text);
      number((run.bold ? 1 : 0) + (run.italic ? 2 : 0));
      if (!run.symbol) continue;
      words(run.symbol->picture ? run.symbol->picture->key() : "");
      exact(run.symbol->scale);
      exact(run.symbol->drop);
    }
  }

  void what(const ShapeItem& item) {
    word("shape");
    path(item.path);
    paint(item.fill);
    stroke(item.stroke);
  }

  void what(const GroupItem& group) {
    word("group");
    const Point outside = origin_;
    for (const Item& each : group.items) {
      word("item");
      exact(each.opacity);
      for (const double v : {each.map.a, each.map.b, each.map.c, each.map.d}) exact(v);
      place({each.map.e, each.map.f});
      origin_ = {};  // places inside are in the item's own frame
      item(each);
      origin_ = outside;
    }
    word("end");
  }

  Point origin_;
  std::string text_;
};

}  // namespace

std::string describe(const Item& item, Point origin) {
  Describer describer(origin);
  describer.item(item);
  return describer.take();
}

}  // namespace quoin
