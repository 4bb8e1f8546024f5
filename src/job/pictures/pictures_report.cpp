#include "job/pictures/pictures_report.h"

#include <nlohmann/json.hpp>

#include "pack/report.h"

namespace quoin::job {
namespace {

using ListJson = nlohmann::ordered_json;

double to_thousandth(double value) { return std::round(value * 1000) / 1000; }

ListJson size_json(Size size) {
  return {{"width_mm", to_thousandth(size.width.value)},
          {"height_mm", to_thousandth(size.height.value)}};
}

ListJson picture_row(const ListedPicture& one) {
  ListJson json = {{"file", one.file}, {"sha256", one.key}, {"bytes", one.bytes}};
  json["state"] = to_string(one.state);
  json["words"] = one.words;
  if (one.readable) {
    json["format"] = to_string(one.facts.format);
    json["width_px"] = to_thousandth(one.facts.width);
    json["height_px"] = to_thousandth(one.facts.height);
    json["alpha"] = one.facts.has_alpha;
  }
  json["ppi"] = one.ppi ? ListJson(to_thousandth(*one.ppi)) : ListJson();
  json["wanted_ppi"] = to_thousandth(one.wanted_ppi);
  json["printed"] = one.printed ? size_json(*one.printed) : ListJson();
  json["pieces"] = one.pieces;
  json["details"] = one.details;
  ListJson sizes = ListJson::array();
  if (one.readable && !one.facts.is_vector()) {
    for (const PrintSize& each : one.sizes) {
      ListJson size = {{"ppi", each.ppi}};
      size.update(size_json(each.size));
      sizes.push_back(std::move(size));
    }
  }
  json["sizes"] = std::move(sizes);
  json["made"] = one.made;
  return json;
}

}  // namespace

Bytes pictures_report(const PictureList& list) {
  ListJson pictures = ListJson::array();
  for (const ListedPicture& one : list.pictures) pictures.push_back(picture_row(one));
  ListJson json = {{"good_ppi", list.good_ppi},
                   {"least_ppi", list.least_ppi},
                   {"brief", list.brief},
                   {"pictures", std::move(pictures)}};
  json["found"] = ListJson::parse(pack::findings_json(list.found));
  return json.dump(2, ' ', false, ListJson::error_handler_t::replace) + "\n";
}

}  // namespace quoin::job
