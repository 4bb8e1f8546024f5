#include "formats/pdf/drawn_forms.h"

namespace quoin::pdf {
namespace {

/// Walks `object` with `walk` unless that was done before; a walk that meets itself is opaque.
template <typename Walk>
bool once(std::map<QPDFObjGen, bool>& walked, Object object, const Walk& walk) {
  if (!object.isIndirect()) return walk();
  const auto [known, is_new] = walked.try_emplace(object.getObjGen(), false);
  if (!is_new) return known->second;
  const bool transparent = walk();
  walked[object.getObjGen()] = transparent;
  return transparent;
}

/// What a dictionary holds, in the order of its keys; nothing when it is none.
std::map<std::string, Object> entries(Object dictionary) {
  if (!dictionary.isDictionary()) return {};
  return dictionary.getDictAsMap();
}

bool lets_through(Object alpha) { return alpha.isNumber() && alpha.getNumericValue() < 1; }

bool blends(Object mode) {
  return mode.isArray() ||
         (mode.isName() && mode.getName() != "/Normal" && mode.getName() != "/Compatible");
}

}  // namespace

/// Writes the ICC-based sRGB space where `key` names DeviceRGB, alone or as an index's base.
void DrawnForms::tag_colour(Object dictionary, const std::string& key) {
  Object space = dictionary.getKey(key);
  if (space.isName() && space.getName() == "/DeviceRGB") {
    dictionary.replaceKey(key, spaces_.srgb());
  } else if (space.isArray() && space.getArrayNItems() == 4 && space.getArrayItem(1).isName() &&
             space.getArrayItem(1).getName() == "/DeviceRGB") {
    space.setArrayItem(1, spaces_.srgb());
  }
}

bool DrawnForms::image(Object stream) {
  return once(walked_, stream, [&] {
    Object facts = stream.getDict();
    tag_colour(facts, "/ColorSpace");
    return facts.hasKey("/SMask") || facts.hasKey("/Mask");
  });
}

bool DrawnForms::form(Object stream) {
  return once(walked_, stream, [&] {
    Object facts = stream.getDict();
    if (Object group = facts.getKey("/Group"); group.isDictionary()) {
      tag_colour(group, "/CS");
      facts.replaceKey("/Group", alike_.of(group));
    }
    return resources(facts.getKey("/Resources"));
  });
}

bool DrawnForms::drawings(Object dictionary) {
  bool transparent = false;
  for (auto [key, drawing] : entries(dictionary)) {
    if (!drawing.isStream()) continue;
    if (drawing.getDict().getKey("/Subtype").unparse() == "/Form") {
      transparent = form(drawing) || transparent;
      continue;
    }
    if (const std::optional<Object> real = images_.instead_of(drawing, *recording_)) {
      dictionary.replaceKey(key, *real);
      drawing = *real;
    }
    transparent = (drawing.isStream() && image(drawing)) || transparent;
  }
  return transparent;
}

void DrawnForms::shadings(Object dictionary) {
  for (auto [key, shading] : entries(dictionary)) {
    tag_colour(shading.isStream() ? shading.getDict() : shading, "/ColorSpace");
  }
}

bool DrawnForms::patterns(Object dictionary) {
  bool transparent = false;
  for (auto [key, pattern] : entries(dictionary)) {
    if (pattern.isStream()) {
      transparent = form(pattern) || transparent;
      continue;
    }
    if (Object shading = pattern.getKey("/Shading"); !shading.isNull()) {
      tag_colour(shading.isStream() ? shading.getDict() : shading, "/ColorSpace");
    }
    if (Object in = pattern.getKey("/ExtGState"); in.isDictionary()) {
      transparent = state(in) || transparent;
    }
  }
  return transparent;
}

bool DrawnForms::state(Object dictionary) {
  bool transparent = lets_through(dictionary.getKey("/ca")) ||
                     lets_through(dictionary.getKey("/CA")) || blends(dictionary.getKey("/BM"));
  if (Object mask = dictionary.getKey("/SMask"); mask.isDictionary()) {
    form(mask.getKey("/G"));
    transparent = true;
  }
  return transparent;
}

bool DrawnForms::states(Object dictionary) {
  bool transparent = false;
  for (auto [key, each] : entries(dictionary)) {
    if (!each.isDictionary()) continue;
    transparent = state(each) || transparent;
    dictionary.replaceKey(key, alike_.of(each));
  }
  return transparent;
}

void DrawnForms::typefaces(Object dictionary) {
  for (auto [key, typeface] : entries(dictionary)) {
    if (typeface.isDictionary() && typeface.hasKey("/Resources")) {
      resources(typeface.getKey("/Resources"));
    }
  }
}

bool DrawnForms::resources(Object dictionary) {
  if (!dictionary.isDictionary()) return false;
  return once(walked_, dictionary, [&] {
    if (Object own = dictionary.getKey("/ColorSpace"); own.isDictionary()) {
      own.replaceKey("/DefaultRGB", spaces_.srgb());
    } else {
      dictionary.replaceKey("/ColorSpace", spaces_.defaults());
    }
    shadings(dictionary.getKey("/Shading"));
    typefaces(dictionary.getKey("/Font"));
    const bool by_states = states(dictionary.getKey("/ExtGState"));
    const bool by_patterns = patterns(dictionary.getKey("/Pattern"));
    return drawings(dictionary.getKey("/XObject")) || by_patterns || by_states;
  });
}

Form DrawnForms::from(Object recorded, const PageRecorder::Recording& recording) {
  Object stream = recorded;
  if (QPDF& source = *recorded.getOwningQPDF(); &source != &file_) {
    stream = file_.copyForeignObject(recorded);
    alike_.within_form(stream);
    source.replaceObject(recorded.getObjGen(), Object::newNull());
  }
  recording_ = &recording;
  const bool transparent = form(stream);
  if (transparent) {
    Object group = Object::parse("<< /Type /Group /S /Transparency /I true >>");
    group.replaceKey("/CS", spaces_.srgb());
    stream.getDict().replaceKey("/Group", alike_.of(group));
  }
  return {stream, transparent};
}

}  // namespace quoin::pdf
