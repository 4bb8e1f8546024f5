#include "pieces/mat/place_element.h"

#include <fmt/format.h>

#include <algorithm>

namespace quoin::pieces {
namespace {

constexpr Mm usual_line{0.6}, words_inset{4}, number_inset{3.2};
/// Type that is read at 600 mm with some ease (see `smallest_capitals`).
constexpr double usual_type_points = 14, least_type_points = 11.5;
/// Lines of words need this much of their type size, leading and descenders counted.
constexpr double line_height = 1.35;

/// The keys of a text that are not those of a place.
constexpr std::string_view type_keys[] = {
    "font",    "weight",    "italic",   "type",      "minimum", "colour",    "strokes", "leading",
    "spacing", "paragraph", "language", "hyphenate", "case",    "direction", "markup"};

/// A node that gives nothing: it stands in no file.
game::Node words_node(std::string text, const Origin& origin) {
  return game::Node{origin, std::move(text)};
}

/// The maker's texts of a list: "" where one is no text.
std::vector<game::Node> listed_texts(const Properties& properties, std::string_view key) {
  const game::Node* there = properties.node(key);
  if (there == nullptr) return {};
  if (there->text()) return {*there};
  std::vector<game::Node> texts;
  if (there->list() == nullptr) return {};
  for (const game::Node& one : *there->list()) {
    texts.push_back(one.text() ? one : words_node("", one.origin));
  }
  return texts;
}

/// What a suit gives to a place.
struct SuitLook {
  std::optional<Colour> colour;
  std::string icon;
  Origin icon_origin;
};

std::optional<SuitLook> suit_look(const Properties& properties, const game::Node& asked) {
  const game::Game& game = properties.sitting().studio.game();
  const std::string& id = *asked.text();
  if (id.empty()) return std::nullopt;
  std::vector<std::string> known;
  for (const game::Suit& suit : game.suits) {
    known.push_back(suit.id);
    if (suit.id != id) continue;
    SuitLook look;
    if (const auto colour = suit.values.find("colour"); colour != suit.values.end()) {
      look.colour = properties.sitting().studio.colour(colour->second.text);
    }
    if (const auto icon = suit.values.find("icon"); icon != suit.values.end()) {
      look.icon = icon->second.text;
      look.icon_origin = icon->second.origin;
    }
    return look;
  }
  const auto meant = game::nearest(id, known);
  std::string ids;
  for (const std::string& one : known) ids += (ids.empty() ? "" : ", ") + one;
  properties.report(Id::mat_unknown_suit, asked.origin, fmt::format("there is no suit \"{}\"", id),
                    meant         ? fmt::format("did you mean \"{}\"?", *meant)
                    : ids.empty() ? "the game has no suits; declare it as [suits.ID]"
                                  : "the suits are " + ids);
  return std::nullopt;
}

/// Draws one element's places.
class PlaceDrawing {
 public:
  PlaceDrawing(const Properties& properties, Rect box, const Item& like)
      : properties_(properties),
        box_(box),
        like_(like),
        places_(read_places(properties)),
        laid_(lay_places(places_.pattern)),
        labels_(listed_texts(properties, "labels")),
        suits_(listed_texts(properties, "suits")) {
    read_type();
  }

  GroupItem draw() {
    const std::vector<Path> lines = seen_outlines(places_.pattern, laid_);
    for (const game::Node& suit : suits_) looks_.push_back(suit_look(properties_, suit));
    GroupItem all;
    for (const Path& edge : pile_edges(places_.pattern, laid_)) {
      all.items.push_back(line_round(edge, 0, Edge::beneath));
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
      all.items.push_back(line_round(lines[i], i, Edge::round));
      for (Item& item : inside(i)) {
        item.map = then(item.map, place_map(laid_.spots[i]));
        all.items.push_back(std::move(item));
      }
    }
    if (auto label = label_of_all()) all.items.push_back(std::move(*label));
    for (Item& item : all.items) item.map = then(item.map, Affine::move(box_.at - Point{}));
    return all;
  }

 private:
  enum class Edge { round, beneath };
  enum class LabelPlace { inside, above, below };

  /// Own keys of type, then the style's, then what is usual for places.
  void read_type() {
    const game::Table* style = nullptr;
    if (const std::optional<std::string> name = properties_.text("style")) {
      style = properties_.sitting().studio.style(*name);
      if (style == nullptr) {
        const auto meant = game::nearest(*name, properties_.sitting().studio.style_names());
        properties_.report(Id::face_unknown_style, properties_.origin("style"),
                           fmt::format("there is no text style \"{}\"", *name),
                           meant ? fmt::format("did you mean \"{}\"?", *meant)
                                 : fmt::format("declare it as [styles.{}] in game.toml", *name));
      }
    }
    for (const std::string_view key : type_keys) {
      const game::Node* node = properties_.node(key);
      if (node == nullptr && style != nullptr) node = game::find(*style, key);
      if (node != nullptr) type_.push_back({std::string(key), {}, *node});
    }
    add_usual("type", usual_type_points);
    const Properties known(properties_.sitting(), type_, properties_.element());
    const double points = known.number("type").value_or(usual_type_points);
    add_usual("minimum", std::min(points, least_type_points));
    type_size_ = known.points("type").value_or(Mm{5});
  }

  void add_usual(std::string_view key, double number) {
    if (game::find(type_, key) != nullptr) return;
    type_.push_back({std::string(key), {}, game::Node{{}, number}});
  }

  [[nodiscard]] Item part(decltype(Item::what) what) const {
    Item item;
    item.element = like_.element;
    item.origin = like_.origin;
    item.role = like_.role;
    item.what = std::move(what);
    return item;
  }

  [[nodiscard]] const SuitLook* look(std::size_t place) const {
    return place < looks_.size() && looks_[place] ? &*looks_[place] : nullptr;
  }

  [[nodiscard]] Colour words_colour() const {
    const Properties known(properties_.sitting(), type_, properties_.element());
    const auto paint = known.paint("colour", Rect{{}, places_.pattern.each});
    const Colour* flat = paint ? std::get_if<Colour>(&*paint) : nullptr;
    return flat != nullptr ? *flat : black;
  }

  [[nodiscard]] Item line_round(const Path& path, std::size_t place, Edge edge) const {
    ShapeItem shape;
    shape.path = path;
    const Rect frame{{}, laid_.whole};
    const SuitLook* suit = look(place);
    const bool has_colour = suit != nullptr && suit->colour;
    if (const auto fill = properties_.paint("fill", frame)) {
      shape.fill = *fill;
    } else if (has_colour) {
      Colour tint = *suit->colour;
      tint.alpha *= std::clamp(properties_.number("tint").value_or(0.12), 0.0, 1.0);
      if (tint.alpha > 0) shape.fill = tint;
    }
    shape.stroke.paint = has_colour ? *suit->colour : words_colour();
    shape.stroke.width = usual_line;
    shape.stroke.join = LineJoin::round;
    if (const auto stroke = properties_.stroke("stroke", frame)) {
      const auto own = properties_.table("stroke");
      const Paint usual = shape.stroke.paint;
      shape.stroke = *stroke;
      if (own && !own->node("colour")) shape.stroke.paint = usual;
    }
    Item item = part(std::move(shape));
    if (edge == Edge::beneath) item.opacity = 0.55;
    return item;
  }

  /// Words in a box about a place, set as the maker asked.
  [[nodiscard]] std::optional<Item> words(const game::Node& text, Rect box, const char* align,
                                          const char* valign) const {
    game::Table own = type_;
    own.push_back({"text", {}, text});
    own.push_back({"align", {}, words_node(align, {})});
    own.push_back({"valign", {}, words_node(valign, {})});
    const Properties set(properties_.sitting(), own, properties_.element());
    Drawn drawn = draw_text(set, box);
    if (!drawn) return std::nullopt;
    Item item = part(std::move(*drawn));
    if (!text.origin.file.empty()) item.origin = set.origin("text");
    return item;
  }

  /// What stands in a place, its middle the origin.
  [[nodiscard]] std::vector<Item> inside(std::size_t place) const {
    const Size each = places_.pattern.each;
    const Rect whole{{-each.width / 2, -each.height / 2}, each};
    const bool is_seen_whole =
        places_.pattern.arrange != PlaceArrange::fan || place + 1 == laid_.spots.size();
    std::vector<Item> items;
    bool has_icon = false;
    if (is_seen_whole) {
      if (auto icon = icon_of(place)) {
        items.push_back(std::move(*icon));
        has_icon = true;
      }
    }
    if (properties_.flag("numbered").value_or(false)) {
      const int first = static_cast<int>(properties_.number("first-number").value_or(1));
      const Rect corner{whole.at + Vec{number_inset, number_inset - type_size_ * 0.15},
                        {each.width / 2, type_size_ * line_height}};
      const game::Node number =
          words_node(std::to_string(first + static_cast<int>(place)), like_.origin);
      if (auto item = words(number, corner, "left", "top")) items.push_back(std::move(*item));
    }
    if (!is_seen_whole) return items;
    const Rect room = grown(whole, -words_inset);
    if (place < labels_.size() && !labels_[place].text()->empty()) {
      if (auto item = words(labels_[place], room, "centre", has_icon ? "bottom" : "middle")) {
        items.push_back(std::move(*item));
      }
    }
    return items;
  }

  [[nodiscard]] std::optional<Item> icon_of(std::size_t place) const {
    std::string path = properties_.text("icon").value_or("");
    Origin asked = properties_.origin("icon");
    if (path == "none") return std::nullopt;
    if (path.empty()) {
      const SuitLook* suit = look(place);
      if (suit == nullptr) return std::nullopt;
      path = suit->icon;
      asked = suit->icon_origin;
    }
    if (path.empty()) return std::nullopt;
    const PicturePtr picture = open_picture(properties_, path, asked);
    if (!picture) return std::nullopt;
    const Size each = places_.pattern.each;
    const Mm side = std::min(each.width, each.height) *
                    std::clamp(properties_.number("icon-size").value_or(0.5), 0.0, 1.0);
    if (side <= epsilon) return std::nullopt;
    const Rect to{{-side / 2, -side / 2}, {side, side}};
    Item item = part(PictureItem{
        picture, fitted(picture->facts(), to, PictureFit::contain, {Mm{0.5}, Mm{0.5}}), to, false});
    item.opacity = std::clamp(properties_.number("icon-opacity").value_or(0.45), 0.0, 1.0);
    return item;
  }

  [[nodiscard]] LabelPlace label_place() const {
    const PlaceArrange arrange = places_.pattern.arrange;
    const bool alone = arrange == PlaceArrange::single || arrange == PlaceArrange::pile;
    return properties_
        .word<LabelPlace>("label-place", {{"inside", LabelPlace::inside},
                                          {"above", LabelPlace::above},
                                          {"below", LabelPlace::below}})
        .value_or(alone ? LabelPlace::inside : LabelPlace::above);
  }

  /// The words for the whole, in its frame.
  [[nodiscard]] std::optional<Item> label_of_all() const {
    const game::Node* text = properties_.node("label");
    if (text == nullptr || !properties_.text("label")) return std::nullopt;
    constexpr Mm away{1.6};
    const Mm high = type_size_ * line_height;
    switch (label_place()) {
      case LabelPlace::above:
        return words(*text, {{Mm{}, -away - high}, {laid_.whole.width, high}}, "centre", "bottom");
      case LabelPlace::below:
        return words(*text, {{Mm{}, laid_.whole.height + away}, {laid_.whole.width, high}},
                     "centre", "top");
      case LabelPlace::inside:
        break;
    }
    const Size each = places_.pattern.each;
    Rect room{{}, laid_.whole};
    if (laid_.spots.size() == 1) {
      room = {laid_.spots.front().middle - Vec{each.width / 2, each.height / 2}, each};
    }
    const bool has_icon = icon_of(0).has_value();
    return words(*text, grown(room, -words_inset), "centre", has_icon ? "bottom" : "middle");
  }

  const Properties& properties_;
  Rect box_;
  const Item& like_;
  ElementPlaces places_;
  LaidPlaces laid_;
  std::vector<game::Node> labels_, suits_;
  std::vector<std::optional<SuitLook>> looks_;
  game::Table type_;
  Mm type_size_;
};

int count_of(const Properties& properties, PlaceArrange arrange) {
  if (arrange == PlaceArrange::single || arrange == PlaceArrange::pile) return 1;
  constexpr double most = 60;
  if (const auto count = properties.number("count")) {
    return static_cast<int>(std::clamp(*count, 1.0, most));
  }
  const std::size_t suits = listed_texts(properties, "suits").size();
  return suits == 0 ? 3 : static_cast<int>(std::min(suits, static_cast<std::size_t>(most)));
}

}  // namespace

ElementPlaces read_places(const Properties& properties) {
  const game::CardFormat& format = properties.sitting().studio.game().card;
  ElementPlaces places{};
  PlacePattern& pattern = places.pattern;
  pattern.arrange = properties
                        .word<PlaceArrange>("arrange", {{"single", PlaceArrange::single},
                                                        {"pile", PlaceArrange::pile},
                                                        {"row", PlaceArrange::row},
                                                        {"column", PlaceArrange::column},
                                                        {"grid", PlaceArrange::grid},
                                                        {"fan", PlaceArrange::fan}})
                        .value_or(PlaceArrange::single);
  pattern.count = count_of(properties, pattern.arrange);
  pattern.columns =
      static_cast<int>(std::clamp(properties.number("columns").value_or(3), 1.0, 60.0));
  pattern.gap = properties.length("gap").value_or(4_mm);
  pattern.spread = Angle::degrees(std::clamp(properties.number("spread").value_or(40), 0.0, 180.0));
  places.clearance = properties.length("clearance").value_or(1.5_mm);
  const bool is_turned = properties.flag("turned").value_or(false);
  places.card = is_turned ? turned(format.size) : format.size;
  const Size with_clearance = grown(Rect{{}, places.card}, places.clearance).size;
  constexpr Mm least{1};
  pattern.each = {std::max(least, with_clearance.width), std::max(least, with_clearance.height)};
  if (const std::optional<Vec> each = properties.pair("each")) {
    pattern.each = {std::max(least, each->x), std::max(least, each->y)};
    places.is_forced = true;
  }
  pattern.radius =
      properties.length("radius").value_or(std::max(Mm{0}, format.corner + places.clearance));
  return places;
}

std::optional<Rect> box_of_places(const Properties& properties, const game::Element& element,
                                  const ElementPlace& place) {
  const Size whole = lay_places(read_places(properties).pattern).whole;
  if (properties.node("inset") || properties.node("size")) {
    const std::optional<Rect> box = box_given(properties, element, place);
    if (!box) return std::nullopt;
    return Rect{box->centre() - Vec{whole.width / 2, whole.height / 2}, whole};
  }
  const Vec at = properties.pair("at").value_or(Vec{});
  const Vec nudge = properties.pair("nudge").value_or(Vec{});
  return Rect{place.frame.at + at + nudge, whole};
}

Drawn draw_places(const Properties& properties, Rect box, const Item& like) {
  return PlaceDrawing(properties, box, like).draw();
}

}  // namespace quoin::pieces
