#include "formats/pdf/page_tree.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "formats/pdf/numbers.h"

namespace quoin::pdf {
namespace {

Object box(Rect rect, Mm page_height) {
  Object corners = Object::newArray();
  for (const double points : {in_points(rect.left()), in_points(page_height - rect.bottom()),
                              in_points(rect.right()), in_points(page_height - rect.top())}) {
    corners.appendItem(Object::newReal(length_text(points)));
  }
  return corners;
}

std::string content(const Page& page, const std::vector<PlacedForm>& placed) {
  const bool moved = page.printed != Affine{};
  std::string text;
  if (moved) {
    text = fmt::format("q {} cm\n",
                       matrix_on_page(page.printed, {{}, page.media}, page.media.height).text());
  }
  std::optional<Layer> open;
  for (const PlacedForm& each : placed) {
    if (open != each.layer) {
      if (open) text += "EMC\n";
      text += "/OC /" + Layers::key(each.layer) + " BDC\n";
      open = each.layer;
    }
    text += each.showing + "\n";
  }
  if (open) text += "EMC\n";
  if (moved) text += "Q\n";
  return text;
}

/// A node's children are at most this many, so that a reader need not load them all at once.
constexpr std::size_t most_kids = 64;

Object parent_of(QPDF& file, const std::vector<Object>& kids, std::size_t from, std::size_t to) {
  Object node = Object::newDictionary();
  node.replaceKey("/Type", name("Pages"));
  Object list = Object::newArray();
  long long pages = 0;
  const Object parent = file.makeIndirectObject(node);
  for (std::size_t i = from; i < to; ++i) {
    Object kid = kids[i];
    kid.replaceKey("/Parent", parent);
    list.appendItem(kid);
    pages += kid.hasKey("/Count") ? kid.getKey("/Count").getIntValue() : 1;
  }
  node.replaceKey("/Kids", list);
  node.replaceKey("/Count", Object::newInteger(pages));
  return parent;
}

}  // namespace

void PageObjects::set_boxes(Object object, const Page& page) {
  const auto within = [](Rect rect, Rect outer) {
    if (rect.size.width <= Mm{0} || rect.size.height <= Mm{0}) return outer;
    return overlap(rect, outer).value_or(outer);
  };
  const auto set = [&](const char* key, Rect rect) {
    object.replaceKey(key, alike_.of(box(rect, page.media.height)));
  };
  const Rect media{{}, page.media};
  const Rect bleed = within(page.bleed, media);
  set("/MediaBox", media);
  set("/CropBox", media);
  set("/BleedBox", bleed);
  set("/TrimBox", within(page.trim, bleed));
}

Object PageObjects::resources(const std::vector<PlacedForm>& placed) {
  Object forms = Object::newDictionary(), groups = Object::newDictionary(),
         all = Object::newDictionary();
  for (const PlacedForm& each : placed) {
    forms.replaceKey("/" + each.key, each.form.object);
    groups.replaceKey("/" + Layers::key(each.layer), layers_.of(each.layer));
  }
  all.replaceKey("/ColorSpace", spaces_.defaults());
  all.replaceKey("/XObject", forms);
  all.replaceKey("/Properties", alike_.of(groups));
  return all;
}

Object PageObjects::made(const Page& page, const std::vector<PlacedForm>& placed) {
  Object object = Object::newDictionary();
  object.replaceKey("/Type", alike_.of(name("Page")));
  set_boxes(object, page);
  object.replaceKey("/Resources", resources(placed));
  object.replaceKey("/Contents", file_.newStream(content(page, placed)));
  if (std::any_of(placed.begin(), placed.end(),
                  [](const PlacedForm& each) { return each.form.transparent; })) {
    Object group = Object::parse("<< /Type /Group /S /Transparency >>");
    group.replaceKey("/CS", spaces_.srgb());
    object.replaceKey("/Group", alike_.of(group));
  }
  return file_.makeIndirectObject(object);
}

void set_pages(QPDF& file, const std::vector<Object>& pages) {
  std::vector<Object> level = pages;
  do {
    std::vector<Object> above;
    for (std::size_t from = 0; from < level.size(); from += most_kids) {
      above.push_back(parent_of(file, level, from, std::min(from + most_kids, level.size())));
    }
    level = std::move(above);
  } while (level.size() > 1);
  Object root = file.getRoot();
  const Object former = root.getKey("/Pages");
  root.replaceKey("/Pages", level.front());
  file.replaceObject(former.getObjGen(), Object::newNull());
  file.updateAllPagesCache();
}

}  // namespace quoin::pdf
