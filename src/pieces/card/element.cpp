#include "pieces/card/element.h"

#include <fmt/format.h>

#include "pieces/mat/place_element.h"

namespace quoin::pieces {
namespace {

std::optional<Insets> read_inset(const Properties& properties, Mm bleed) {
  const game::Node* there = properties.node("inset");
  if (!there) return std::nullopt;
  if (const std::string* word = there->text(); word && *word == "bleed") return Insets::all(-bleed);
  const auto values = properties.numbers("inset", {1, 4});
  if (!values) return std::nullopt;
  if (values->size() == 1) return Insets::all(Mm{values->front()});
  return Insets{Mm{(*values)[0]}, Mm{(*values)[1]}, Mm{(*values)[2]}, Mm{(*values)[3]}};
}

Rect inside(Rect frame, Insets by) {
  return grown(frame, Insets{-by.top, -by.right, -by.bottom, -by.left});
}

/// The size that is given, or what is left from `at` to the frame's far corner.
std::optional<Size> read_size(const Properties& properties, Rect frame) {
  if (properties.node("size")) {
    const std::optional<Vec> size = properties.pair("size");
    return size ? std::optional(Size{size->x, size->y}) : std::nullopt;
  }
  const std::optional<Vec> at = properties.pair("at");
  if (!at) return std::nullopt;
  return Size{frame.size.width - at->x, frame.size.height - at->y};
}

std::optional<Path> read_clip(const Properties& properties, Rect box) {
  if (const std::optional<Properties> own = properties.table("clip")) {
    const std::optional<std::string> data = own->text("path");
    if (!data) return std::nullopt;
    std::optional<PathDataError> error;
    const Path path = path_from_svg(*data, error);
    if (error) {
      properties.report(Id::face_path_data, own->origin("path"),
                        fmt::format("the path data stop making sense at character {}: {}",
                                    error->offset + 1, error->what),
                        "");
    }
    return mapped(path, Affine::move({box.at.x, box.at.y}));
  }
  enum class Clip { none, rectangle, rounded, ellipse };
  const auto clip = properties.word<Clip>("clip", {{"none", Clip::none},
                                                   {"rectangle", Clip::rectangle},
                                                   {"rounded", Clip::rounded},
                                                   {"ellipse", Clip::ellipse}});
  if (!clip || *clip == Clip::none) return std::nullopt;
  if (*clip == Clip::ellipse) return Path::ellipse(box);
  if (*clip == Clip::rectangle) return Path::rectangle(box);
  return Path::rounded_rectangle(box, properties.length("clip-radius").value_or(2_mm));
}

Drawn draw_kind(const game::Element& element, const Properties& properties, const Item& like,
                Rect box, Mm bleed) {
  if (element.kind == "picture") return draw_picture(properties, box);
  if (element.kind == "text") return draw_text(properties, box);
  if (element.kind == "shape") return draw_shape(properties, box, like);
  if (element.kind == "repeat") return draw_repeat(properties, box, like);
  if (element.kind == "place") return draw_places(properties, box, like);
  GroupItem group;
  draw_elements(element.children, properties.sitting(), box, bleed, group.items);
  if (group.items.empty()) return std::nullopt;
  return group;
}

const game::Table* style_of(const Sitting& sitting, const game::Element& element) {
  if (element.kind != "text") return nullptr;
  const Properties bare(sitting, element.properties, element.id);
  const std::optional<std::string> name = bare.text("style");
  if (!name) return nullptr;
  if (const game::Table* style = sitting.studio.style(*name)) return style;
  const auto meant = game::nearest(*name, sitting.studio.style_names());
  bare.report(Id::face_unknown_style, bare.origin("style"),
              fmt::format("there is no text style \"{}\"", *name),
              meant ? fmt::format("did you mean \"{}\"?", *meant)
                    : fmt::format("declare it as [styles.{}] in game.toml", *name));
  return nullptr;
}

}  // namespace

bool is_drawn(const game::Element& element, const Sitting& sitting) {
  const game::Game& game = sitting.studio.game();
  return game::holds(game, sitting.card, element.when) &&
         (element.unless.empty() || !game::holds(game, sitting.card, element.unless));
}

std::optional<Item> draw_element(const game::Element& element, const Sitting& sitting,
                                 const ElementPlace& place) {
  if (!is_drawn(element, sitting)) return std::nullopt;
  const Properties properties(sitting, element.properties, element.id, style_of(sitting, element));
  const std::optional<Rect> box = box_of(properties, element, place);
  if (!box) return std::nullopt;
  Item item;
  item.element = element.id;
  item.origin = element.origin;
  item.role = properties
                  .word<Role>("role", {{"art", Role::ordinary},
                                       {"border", Role::ordinary},
                                       {"text", Role::ordinary},
                                       {"emblem", Role::emblem},
                                       {"decoration", Role::decoration}})
                  .value_or(Role::ordinary);
  if (const std::optional<double> degrees = properties.number("rotation")) {
    item.map = Affine::turn_about(box->centre(), Angle::degrees(*degrees));
  }
  item.opacity = std::clamp(properties.number("opacity").value_or(1), 0.0, 1.0);
  item.clip = read_clip(properties, *box);
  item.shadow = properties.shadow("shadow");
  item.outline = properties.outline("outline");
  Drawn drawn = draw_kind(element, properties, item, *box, place.bleed);
  if (!drawn) return std::nullopt;
  item.what = std::move(*drawn);
  if (element.kind == "picture") item.origin = properties.origin("picture");
  if (element.kind == "text") item.origin = properties.origin("text");
  return item;
}

std::optional<Rect> box_of(const Properties& properties, const game::Element& element,
                           const ElementPlace& place) {
  return element.kind == "place" ? box_of_places(properties, element, place)
                                 : box_given(properties, element, place);
}

std::optional<Rect> box_given(const Properties& properties, const game::Element& element,
                              const ElementPlace& place) {
  const Vec nudge = properties.pair("nudge").value_or(Vec{});
  if (place.usual_box && !properties.node("inset") && !properties.node("size") &&
      !properties.node("at")) {
    return Rect{place.usual_box->at + nudge, place.usual_box->size};
  }
  if (const std::optional<Insets> inset = read_inset(properties, place.bleed)) {
    Rect box = inside(place.frame, *inset);
    box.at = box.at + nudge;
    if (box.size.width > Mm{0} && box.size.height > Mm{0}) return box;
  } else if (const std::optional<Size> size = read_size(properties, place.frame)) {
    const Vec at = properties.pair("at").value_or(Vec{});
    if (size->width > Mm{0} && size->height > Mm{0}) {
      return Rect{place.frame.at + at + nudge, *size};
    }
  }
  properties.report(Id::face_no_box, element.origin,
                    fmt::format("the {} \"{}\" has no size", element.kind, element.id),
                    "give it size = [width, height] in mm, or inset");
  return std::nullopt;
}

void draw_elements(const std::vector<game::Element>& elements, const Sitting& sitting, Rect frame,
                   Mm bleed, std::vector<Item>& items) {
  for (const game::Element& element : elements) {
    if (std::optional<Item> item = draw_element(element, sitting, {frame, bleed})) {
      items.push_back(std::move(*item));
    }
  }
}

PicturePtr open_picture(const Properties& properties, const std::string& path,
                        const Origin& asked) {
  const Sitting& sitting = properties.sitting();
  Diagnostics met;
  auto picture = sitting.studio.shelf().open(path, asked, met).or_report(met);
  for (Diagnostic& found : met) {
    found.on(sitting.piece, properties.element());
    sitting.found.push_back(std::move(found));
  }
  return picture.value_or(nullptr);
}

}  // namespace quoin::pieces
