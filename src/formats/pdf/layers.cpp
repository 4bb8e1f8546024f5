#include "formats/pdf/layers.h"

namespace quoin::pdf {
namespace {

std::string title(Layer layer) {
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
    case Layer::mark:
      return "Marks";
  }
  return {};
}

}  // namespace

Object Layers::of(Layer layer) {
  const auto known = groups_.find(layer);
  if (known != groups_.end()) return known->second;
  Object group = Object::newDictionary();
  group.replaceKey("/Type", name("OCG"));
  group.replaceKey("/Name", words(title(layer)));
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
