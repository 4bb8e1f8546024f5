#include "formats/pdf/spot_colours.h"

#include <fmt/format.h>

#include "formats/line_work.h"
#include "formats/pdf/layers.h"
#include "formats/pdf/numbers.h"

namespace quoin::pdf {
namespace {

/// What a screen shows for a layer's full tint; common practice, no source.
Colour shown_as(Layer layer) {
  switch (layer) {
    case Layer::cut:
      return {0.85, 0.05, 0.35};
    case Layer::crease:
      return {0.05, 0.4, 0.85};
    case Layer::glue:
      return {0.1, 0.65, 0.3};
    case Layer::bleed:
      return {0.95, 0.55, 0.05};
    case Layer::safe:
      return {0.45, 0.3, 0.75};
    default:
      return {0.35, 0.35, 0.35};
  }
}

/// Writes path operators: points, y up from the bottom of a page of that height.
class PathWriter {
 public:
  PathWriter(std::string& to, Mm page_height) : to_(to), height_(page_height) {}

  void write(const Path& path) {
    bool started = false;  // a path may only begin with a move (ISO 32000-1, 8.5.2)
    for (const Path::Step& step : path.steps()) {
      started = started || step.verb == Path::Verb::move;
      if (started) write(step);
    }
  }

 private:
  void write(const Path::Step& step) {
    switch (step.verb) {
      case Path::Verb::move:
        return put({step.p[0]}, "m");
      case Path::Verb::line:
        return put({step.p[0]}, "l");
      case Path::Verb::curve:
        return put({step.p[0], step.p[1], step.p[2]}, "c");
      case Path::Verb::close:
        return put({}, "h");
    }
  }

  void put(std::initializer_list<Point> points, const char* verb) {
    for (const Point p : points) {
      to_ += length_text(in_points(p.x)) + " " + length_text(in_points(height_ - p.y)) + " ";
    }
    to_ += verb;
    to_ += '\n';
  }

  std::string& to_;
  Mm height_;
};

int number_of(LineCap cap) { return cap == LineCap::butt ? 0 : cap == LineCap::round ? 1 : 2; }
int number_of(LineJoin join) {
  return join == LineJoin::mitre ? 0 : join == LineJoin::round ? 1 : 2;
}

std::string dashes(const std::vector<Mm>& dash) {
  std::string text = "[";
  for (const Mm part : dash) text += length_text(in_points(part)) + " ";
  return text + "] 0 d";
}

/// One shape: tints, pen, path, and the operator that paints it.
std::string operators(const DrawnLine& line, Mm page_height) {
  std::string text;
  if (line.fill) text += length_text(line.fill->alpha) + " scn\n";
  if (line.line) {
    text += fmt::format("{} SCN {} w {} J {} j {}\n", length_text(line.line->alpha),
                        length_text(in_points(line.width)), number_of(line.cap),
                        number_of(line.join), dashes(line.dash));
  }
  PathWriter(text, page_height).write(line.path);
  return text + (line.fill && line.line ? "B\n" : line.fill ? "f\n" : "S\n");
}

}  // namespace

/// [/Separation name alternate tint]: paper at tint 0, the layer's colour at tint 1, in sRGB.
Object SpotColours::separation(Layer layer) {
  const Colour full = shown_as(layer);
  Object tint = Object::parse("<< /FunctionType 2 /Domain [0 1] /N 1 /C0 [1 1 1] >>");
  Object colour = Object::newArray();
  for (const double part : {full.red, full.green, full.blue}) {
    colour.appendItem(Object::newReal(length_text(part)));
  }
  tint.replaceKey("/C1", colour);
  Object space = Object::newArray();
  for (const Object& part :
       {name("Separation"), name(Layers::title(layer)), spaces_.srgb(), tint}) {
    space.appendItem(part);
  }
  return space;
}

Object SpotColours::overprint() {
  if (!overprint_) {
    overprint_ = file_.makeIndirectObject(
        Object::parse("<< /Type /ExtGState /OP true /op true /OPM 1 /SA true >>"));
  }
  return *overprint_;
}

Object SpotColours::resources(Layer layer) {
  const auto known = resources_.find(layer);
  if (known != resources_.end()) return known->second;
  Object colours = Object::newDictionary(), states = Object::newDictionary(),
         all = Object::newDictionary();
  colours.replaceKey("/Spot", separation(layer));
  states.replaceKey("/Over", overprint());
  all.replaceKey("/ColorSpace", colours);
  all.replaceKey("/ExtGState", states);
  return resources_.emplace(layer, file_.makeIndirectObject(all)).first->second;
}

Form SpotColours::form(std::span<const Item> items, Size page) {
  std::string content = "/Over gs /Spot cs /Spot CS\n";
  for (const Item& item : items) {
    for (const DrawnLine& line : line_work(item)) content += operators(line, page.height);
  }
  Object stream = file_.newStream(content);
  Object facts = stream.getDict();
  Object box = Object::newArray();
  for (const Mm length : {Mm{0}, Mm{0}, page.width, page.height}) {
    box.appendItem(Object::newReal(length_text(in_points(length))));
  }
  facts.replaceKey("/Type", name("XObject"));
  facts.replaceKey("/Subtype", name("Form"));
  facts.replaceKey("/BBox", box);
  facts.replaceKey("/Resources", resources(items.front().layer));
  return {stream, false};
}

}  // namespace quoin::pdf
