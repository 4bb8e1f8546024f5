#include "formats/pdf/inspection.h"

#include <fmt/format.h>

#include "formats/pdf/qpdf.h"

namespace quoin::pdf {
namespace {

std::string text_of(Object object) {
  if (object.isName()) return object.getName().substr(1);
  if (object.isString()) return object.getUTF8Value();
  return object.unparse();
}

bool names(Object object, const char* what) { return object.isName() && object.getName() == what; }

/// A colour space in a few words.
std::string space_in_words(Object space) {
  if (!space.isArray()) return space.isNull() ? "none" : text_of(space);
  const std::string kind = text_of(space.getArrayItem(0));
  if (kind == "Indexed") return kind + " " + space_in_words(space.getArrayItem(1));
  if (kind != "ICCBased") return kind;
  return kind + " " + space.getArrayItem(1).getDict().getKey("/N").unparse();
}

/// Notes operators that choose device RGB.
class DeviceColours : public Object::ParserCallbacks {
 public:
  void handleObject(Object object, size_t, size_t) override {
    if (object.isOperator()) {
      const std::string verb = object.getOperatorValue();
      found = found || verb == "rg" || verb == "RG" ||
              ((verb == "cs" || verb == "CS") && names(before_, "/DeviceRGB"));
    }
    before_ = object;
  }
  void handleEOF() override {}
  bool found = false;

 private:
  Object before_;
};

bool chooses_device_rgb(Object content) {
  DeviceColours colours;
  Object::parseContentStream(content, &colours);
  return colours.found;
}

/// Looks at every object of a file once.
class Inspector {
 public:
  explicit Inspector(QPDF& file) : file_(file) {}

  Inspection look() {
    found_.version = file_.getPDFVersion();
    look_at_pages();
    for (Object object : file_.getAllObjects()) look_at(object);
    look_at_catalogue();
    for (const QPDFExc& warning : file_.getWarnings()) fault("{}", warning.what());
    return std::move(found_);
  }

 private:
  template <typename... Values>
  void fault(fmt::format_string<Values...> text, Values&&... values) {
    found_.faults.push_back(fmt::format(text, std::forward<Values>(values)...));
  }

  Box box(Object page, const char* key) {
    Object corners = page.getKey(key);
    if (!corners.isRectangle()) {
      fault("page {} has no {}", found_.pages.size() + 1, key);
      return {};
    }
    const Object::Rectangle r = corners.getArrayAsRectangle();
    return {r.llx, r.lly, r.urx, r.ury};
  }

  void expect_inside(Box inner, Box outer, const char* what) {
    constexpr double slack = 0.001;  // points
    if (inner.left < outer.left - slack || inner.bottom < outer.bottom - slack ||
        inner.right > outer.right + slack || inner.top > outer.top + slack) {
      fault("page {}: the {}", found_.pages.size() + 1, what);
    }
  }

  void look_at_pages() {
    QPDFPageLabelDocumentHelper labels(file_);
    for (Object page : file_.getAllPages()) {
      PageFacts facts{box(page, "/MediaBox"),
                      box(page, "/CropBox"),
                      box(page, "/BleedBox"),
                      box(page, "/TrimBox"),
                      {},
                      page.hasKey("/Group")};
      Object label = labels.getLabelForPage(static_cast<long long>(found_.pages.size()));
      if (label.isDictionary() && label.hasKey("/P")) facts.label = text_of(label.getKey("/P"));
      expect_inside(facts.bleed, facts.media, "bleed box leaves the media box");
      expect_inside(facts.trim, facts.bleed, "trim box leaves the bleed box");
      expect_colours_tied(page, page.getKey("/Contents"), "page");
      found_.pages.push_back(facts);
    }
  }

  void expect_colours_tied(Object owner, Object content, const char* what) {
    Object spaces = owner.getKey("/Resources").getKeyIfDict("/ColorSpace");
    if (spaces.isDictionary() && spaces.hasKey("/DefaultRGB")) return;
    if (chooses_device_rgb(content)) fault("a {} uses device RGB without a default space", what);
  }

  void look_at(Object object) {
    if (object.isStream()) {
      look_at_stream(object);
      look_into(object.getDict());
    } else {
      look_into(object);
    }
  }

  void look_at_stream(Object stream) {
    Object facts = stream.getDict();
    if (names(facts.getKey("/Filter"), "/LZWDecode")) fault("a stream is LZW coded");
    if (names(facts.getKey("/Subtype"), "/Image")) look_at_image(stream);
    const bool is_form = names(facts.getKey("/Subtype"), "/Form");
    const bool is_pattern = facts.hasKey("/PatternType");
    if (is_form) ++found_.forms;
    if (is_form || is_pattern) expect_colours_tied(facts, stream, is_form ? "form" : "pattern");
  }

  void look_at_image(Object stream) {
    Object facts = stream.getDict();
    Object mask = facts.getKey("/SMask");
    if (mask.isStream()) masks_.insert(mask.getObjGen());
    ImageFacts image;
    image.width = facts.getKey("/Width").getIntValueAsInt();
    image.height = facts.getKey("/Height").getIntValueAsInt();
    if (Object bits = facts.getKey("/BitsPerComponent"); bits.isInteger()) {
      image.bits = bits.getIntValueAsInt();
    }
    image.space = space_in_words(facts.getKey("/ColorSpace"));
    image.filter = text_of(facts.getKey("/Filter"));
    images_.emplace_back(stream.getObjGen(), image);
  }

  /// A dictionary or array and what it holds directly.
  void look_into(Object object) {
    if (object.isArray()) {
      if (object.getArrayNItems() == 4 && names(object.getArrayItem(0), "/Separation")) {
        found_.spot_colours.insert(text_of(object.getArrayItem(1)));
      }
      for (Object item : object.getArrayAsVector()) {
        if (!item.isIndirect()) look_into(item);
      }
    }
    if (!object.isDictionary()) return;
    look_at_dictionary(object);
    for (auto [key, item] : object.getDictAsMap()) {
      if (!item.isIndirect()) look_into(item);
    }
  }

  void look_at_dictionary(Object object) {
    Object space = object.getKey("/ColorSpace");
    if (space_in_words(space).ends_with("DeviceRGB")) {
      fault("an image or shading is in device RGB");
    }
    if (names(object.getKey("/S"), "/Transparency") &&
        space_in_words(object.getKey("/CS")).ends_with("DeviceRGB")) {
      fault("a group blends in device RGB");
    }
    if (names(object.getKey("/Type"), "/Font")) look_at_font(object);
    if (names(object.getKey("/Type"), "/Action") || object.hasKey("/JS")) {
      fault("the file holds an action");
    }
  }

  void look_at_font(Object font) {
    const std::string kind = text_of(font.getKey("/Subtype"));
    if (kind.starts_with("CIDFont")) return;  // reported with the Type0 font that owns it
    Object owner = font;
    if (Object heirs = font.getKey("/DescendantFonts"); heirs.isArray()) {
      owner = heirs.getArrayItem(0);
    }
    Object descriptor = owner.getKey("/FontDescriptor");
    bool embedded = false;
    for (const char* key : {"/FontFile", "/FontFile2", "/FontFile3"}) {
      embedded = embedded || (descriptor.isDictionary() && descriptor.hasKey(key));
    }
    const std::string face = text_of(font.getKey("/BaseFont"));
    if (kind == "Type3") {
      fault("a font is drawn as Type 3");
    } else if (!embedded) {
      fault("the font {} is not embedded", face);
    }
    found_.fonts.push_back({face, kind, embedded});
  }

  void look_at_catalogue() {
    for (auto& [id, image] : images_) {
      image.is_mask = masks_.contains(id);
      found_.images.push_back(image);
    }
    Object root = file_.getRoot();
    if (Object layers = root.getKey("/OCProperties").getKeyIfDict("/OCGs"); layers.isArray()) {
      for (Object layer : layers.getArrayAsVector()) {
        found_.layers.push_back(text_of(layer.getKey("/Name")));
        note_step(layer.getKey("/GTS_Metadata"));
      }
    }
    note_all(root.getKey("/ViewerPreferences"), found_.viewer_preferences);
    note_all(file_.getTrailer().getKey("/Info"), found_.information);
    if (root.hasKey("/Lang")) found_.language = text_of(root.getKey("/Lang"));
    if (file_.isEncrypted()) fault("the file is encrypted");
    if (root.hasKey("/OpenAction") || root.hasKey("/AA")) fault("the file acts when opened");
  }

  /// The step of making that the last layer stands for.
  void note_step(Object facts) {
    if (!facts.isDictionary()) return;
    std::string& step = found_.steps[found_.layers.back()];
    step = text_of(facts.getKey("/GTS_ProcStepsGroup"));
    if (facts.hasKey("/GTS_ProcStepsType"))
      step += " " + text_of(facts.getKey("/GTS_ProcStepsType"));
  }

  static void note_all(Object dictionary, std::map<std::string, std::string>& to) {
    if (!dictionary.isDictionary()) return;
    for (auto [key, value] : dictionary.getDictAsMap()) to[key.substr(1)] = text_of(value);
  }

  QPDF& file_;
  Inspection found_;
  std::vector<std::pair<QPDFObjGen, ImageFacts>> images_;
  std::set<QPDFObjGen> masks_;
};

}  // namespace

Inspection inspect(const Bytes& file) {
  try {
    QPDF opened;
    opened.setSuppressWarnings(true);
    opened.processMemoryFile("file", file.data(), file.size());
    return Inspector(opened).look();
  } catch (const std::exception& why) {
    Inspection nothing;
    nothing.faults.push_back(fmt::format("the file cannot be read: {}", why.what()));
    return nothing;
  }
}

}  // namespace quoin::pdf
