#include "formats/pdf/layers.h"

#include <optional>

namespace quoin::pdf {
namespace {

/// A step of making the piece, as ISO 19593-1:2018 (tables 2 and 3) names it; the type may be
/// empty.
struct Step {
  const char* group;
  const char* type;
};

std::optional<Step> step(Layer layer) {
  switch (layer) {
    case Layer::cut:
      return Step{"Structural", "Cutting"};
    case Layer::crease:
      return Step{"Structural", "Creasing"};
    case Layer::glue:
      return Step{"Structural", "Gluing"};
    case Layer::bleed:
      return Step{"Structural", "Bleed"};
    case Layer::dimension:
      return Step{"Dimensions", ""};  // a type here would be a fault
    default:
      return std::nullopt;
  }
}

void add_step(Object group, Layer layer) {
  const std::optional<Step> of_layer = step(layer);
  if (!of_layer) return;
  Object facts = Object::newDictionary();
  facts.replaceKey("/GTS_ProcStepsGroup", name(of_layer->group));
  if (*of_layer->type != '\0') facts.replaceKey("/GTS_ProcStepsType", name(of_layer->type));
  group.replaceKey("/GTS_Metadata", facts);
}

}  // namespace

std::string Layers::title(Layer layer) {
  switch (layer) {
    case Layer::art:
      return "Artwork";
    case Layer::cut:
      return "Cut";
    case Layer::crease:
      return "Crease";
    case Layer::glue:
      return "Glue";
    case Layer::bleed:
      return "Bleed";
    case Layer::safe:
      return "Safe area";
    case Layer::dimension:
      return "Dimensions";
    case Layer::mark:
      return "Marks";
  }
  return {};
}

Object Layers::of(Layer layer) {
  const auto known = groups_.find(layer);
  if (known != groups_.end()) return known->second;
  Object group = Object::newDictionary();
  group.replaceKey("/Type", name("OCG"));
  group.replaceKey("/Name", words(title(layer)));
  if (line_work_ == LineWork::spot_colours) add_step(group, layer);
  return groups_.emplace(layer, file_.makeIndirectObject(group)).first->second;
}

std::string Layers::key(Layer layer) {
  return layer == Layer::safe ? std::string("Safe") : title(layer);
}

Object Layers::properties() const {
  Object all = Object::newArray(), order = Object::newArray(), shown = Object::newArray();
  for (const auto& [layer, group] : groups_) {
    for (Object* list : {&all, &order, &shown}) list->appendItem(group);
  }
  Object view = Object::newDictionary();
  view.replaceKey("/Name", words("Everything"));
  view.replaceKey("/Order", order);
  view.replaceKey("/ON", shown);
  view.replaceKey("/OFF", Object::newArray());
  Object properties = Object::newDictionary();
  properties.replaceKey("/OCGs", all);
  properties.replaceKey("/D", view);
  return properties;
}

}  // namespace quoin::pdf
