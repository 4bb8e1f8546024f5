#include "formats/pdf/shared_values.h"

namespace quoin::pdf {

Object SharedValues::of(Object direct) {
  if (direct.isIndirect()) return direct;
  return known_.try_emplace(direct.unparse(), direct).first->second;
}

void SharedValues::within(Object dictionary) {
  if (!dictionary.isDictionary()) return;
  for (auto& [key, value] : dictionary.getDictAsMap()) {
    if (!value.isIndirect()) dictionary.replaceKey(key, of(value));
  }
}

/// Forms, images and shadings have objects of their own.
void SharedValues::within_each(Object dictionary) {
  if (!dictionary.isDictionary()) return;
  for (auto& [key, value] : dictionary.getDictAsMap()) {
    if (!value.isIndirect()) continue;
    if (value.isStream()) {
      within_form(value);
    } else if (visited_.insert(value.getObjGen()).second) {
      within(value);
    }
  }
}

void SharedValues::within_resources(Object dictionary) {
  if (!dictionary.isDictionary()) return;
  for (const char* key : {"/ExtGState", "/Font"}) {
    if (Object value = dictionary.getKey(key); value.isDictionary()) {
      dictionary.replaceKey(key, of(value));
    }
  }
  for (const char* key : {"/XObject", "/Shading", "/Pattern"}) {
    within_each(dictionary.getKey(key));
  }
}

void SharedValues::within_form(Object stream) {
  if (!visited_.insert(stream.getObjGen()).second) return;
  Object facts = stream.getDict();
  Object resources = facts.getKey("/Resources");
  for (auto& [key, value] : facts.getDictAsMap()) {
    if (!value.isIndirect() && key != "/Resources") facts.replaceKey(key, of(value));
  }
  within_resources(resources);
}

}  // namespace quoin::pdf
