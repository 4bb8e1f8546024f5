#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/decimal.h"
#include "formats/dxf/dxf.h"
#include "formats/dxf/outline.h"
#include "formats/line_work.h"

namespace quoin {
namespace dxf {
namespace {

constexpr Mm curve_tolerance{0.01};

std::string layer_name(Layer layer) {
  std::string name(to_string(layer));
  for (char& c : name) c = static_cast<char>(c - 'a' + 'A');
  return name;
}

/// Numbers of the standard palette: 1 red, 2 yellow, 3 green, 4 cyan, 5 blue, 6 magenta, 7 black or
/// white, 8 grey.
int colour_number(Layer layer) {
  switch (layer) {
    case Layer::cut:
      return 1;
    case Layer::crease:
      return 5;
    case Layer::glue:
      return 3;
    case Layer::bleed:
      return 4;
    case Layer::safe:
      return 2;
    case Layer::dimension:
      return 8;
    case Layer::art:
      return 6;
    default:
      return 7;
  }
}

/// Writes group codes and values, a line each.
class Groups {
 public:
  void put(int code, std::string_view value) {
    text_ += fmt::format("{:>3}\r\n{}\r\n", code, value);
  }
  void put(int code, int value) { text_ += fmt::format("{:>3}\r\n{:>6}\r\n", code, value); }
  void put_length(int code, Mm length) { put(code, decimal(length.value, 4)); }
  void put_point(Point p) {
    put_length(10, p.x);
    put_length(20, p.y);
    put_length(30, 0_mm);
  }
  [[nodiscard]] Bytes text() { return std::move(text_); }

 private:
  Bytes text_;
};

/// One file while it is written.
class Writer {
 public:
  explicit Writer(const Drawing& drawing)
      : to_file_{1, 0, 0, -1, -drawing.bounds.left(), drawing.bounds.bottom()},
        size_(drawing.bounds.size) {}

  void header() {
    groups_.put(999, "All lengths are millimetres: one drawing unit is 1 mm.");
    section("HEADER");
    variable("$ACADVER");
    groups_.put(1, "AC1009");
    variable("$INSBASE");
    groups_.put_point({});
    for (const char* least : {"$EXTMIN", "$LIMMIN"}) corner(least, {});
    for (const char* most : {"$EXTMAX", "$LIMMAX"}) corner(most, {size_.width, size_.height});
    variable("$LUNITS");  // decimal
    groups_.put(70, 2);
    variable("$LUPREC");
    groups_.put(70, 4);
    end_section();
  }

  void tables(const std::vector<Layer>& layers) {
    section("TABLES");
    table("LTYPE", 1);
    groups_.put(0, "LTYPE");
    groups_.put(2, "CONTINUOUS");
    groups_.put(70, 0);
    groups_.put(3, "Solid line");
    groups_.put(72, 65);
    groups_.put(73, 0);
    groups_.put_length(40, 0_mm);
    groups_.put(0, "ENDTAB");
    table("LAYER", static_cast<int>(layers.size()) + 1);
    layer("0", 7);
    for (const Layer each : layers) layer(layer_name(each), colour_number(each));
    groups_.put(0, "ENDTAB");
    end_section();
  }

  void begin_entities() { section("ENTITIES"); }

  void entity(Layer layer, const Outline& outline) {
    if (outline.closed || outline.corners.size() > 2) {
      polyline(layer, outline);
    } else if (outline.corners[0].bulge != 0) {
      arc(layer, outline.corners[0], outline.corners[1].at);
    } else {
      line(layer, outline.corners[0].at, outline.corners[1].at);
    }
  }

  [[nodiscard]] Bytes finished() {
    end_section();
    groups_.put(0, "EOF");
    return groups_.text();
  }

 private:
  void section(std::string_view name) {
    groups_.put(0, "SECTION");
    groups_.put(2, name);
  }
  void end_section() { groups_.put(0, "ENDSEC"); }
  void variable(std::string_view name) { groups_.put(9, name); }
  void corner(std::string_view name, Point p) {
    variable(name);
    groups_.put_length(10, p.x);
    groups_.put_length(20, p.y);
  }
  void table(std::string_view name, int rows) {
    groups_.put(0, "TABLE");
    groups_.put(2, name);
    groups_.put(70, rows);
  }
  void layer(std::string_view name, int colour) {
    groups_.put(0, "LAYER");
    groups_.put(2, name);
    groups_.put(70, 0);
    groups_.put(62, colour);
    groups_.put(6, "CONTINUOUS");
  }
  void start(std::string_view kind, Layer layer) {
    groups_.put(0, kind);
    groups_.put(8, layer_name(layer));
  }

  void line(Layer layer, Point from, Point to) {
    start("LINE", layer);
    groups_.put_point(to_file_(from));
    const Point end = to_file_(to);
    groups_.put_length(11, end.x);
    groups_.put_length(21, end.y);
    groups_.put_length(31, 0_mm);
  }

  /// Arcs of the format run counter-clockwise, seen with y up.
  void arc(Layer layer, Corner from, Point to) {
    Point start_at = to_file_(from.at), end = to_file_(to);
    if (from.bulge > 0) std::swap(start_at, end);
    const double sweep = 4 * std::atan(std::abs(from.bulge));
    const Vec chord = end - start_at;
    const double above = 0.5 / std::tan(sweep / 2);  // of the centre over the chord, in chords
    const Point centre{start_at.x + chord.x * 0.5 - chord.y * above,
                       start_at.y + chord.y * 0.5 + chord.x * above};
    const auto degrees = [&](Point p) {
      const Vec v = p - centre;
      const double angle = Angle{std::atan2(v.y.value, v.x.value)}.in_degrees();
      return decimal(angle < 0 ? angle + 360 : angle, 8);
    };
    start("ARC", layer);
    groups_.put_point(centre);
    groups_.put_length(40, length(start_at - centre));
    groups_.put(50, degrees(start_at));
    groups_.put(51, degrees(end));
  }

  void polyline(Layer layer, const Outline& outline) {
    start("POLYLINE", layer);
    groups_.put(66, 1);  // vertices follow
    groups_.put_point({});
    groups_.put(70, outline.closed ? 1 : 0);
    for (const Corner& each : outline.corners) {
      start("VERTEX", layer);
      groups_.put_point(to_file_(each.at));
      if (each.bulge != 0) groups_.put(42, decimal(-each.bulge, 8));
    }
    start("SEQEND", layer);
  }

  Affine to_file_;
  Size size_;
  Groups groups_;
};

bool is_used(const Scene& scene, Layer layer) {
  return std::any_of(scene.items.begin(), scene.items.end(),
                     [&](const Item& item) { return item.layer == layer; });
}

}  // namespace
}  // namespace dxf

Bytes write_dxf(const Drawing& drawing, const LayerSet& layers) {
  std::vector<Layer> used;
  for (const Layer layer : layers) {
    if (dxf::is_used(drawing.scene, layer)) used.push_back(layer);
  }
  dxf::Writer writer(drawing);
  writer.header();
  writer.tables(used);
  writer.begin_entities();
  for (const Layer layer : used) {
    for (const Item& item : drawing.scene.items) {
      if (item.layer != layer) continue;
      for (const DrawnLine& line : line_work(item)) {
        for (const dxf::Outline& outline : dxf::outlines(line.path, dxf::curve_tolerance)) {
          writer.entity(layer, outline);
        }
      }
    }
  }
  return writer.finished();
}

}  // namespace quoin
