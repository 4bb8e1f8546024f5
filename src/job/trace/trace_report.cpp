#include "job/trace/trace_report.h"

#include <nlohmann/json.hpp>

#include "pack/report.h"

namespace quoin::job {
namespace {

using Json = nlohmann::ordered_json;

Json rounded(double value) { return std::round(value * 1000) / 1000; }

Json picture_json(const TracedPicture& one) {
  const trace::Judgement& j = one.judgement;
  Json json = {{"picture", one.picture}, {"drawing", one.drawing}, {"written", one.written}};
  json["found"] = Json::parse(pack::findings_json(one.found));
  if (j.nodes == 0) return json;
  json["verdict"] = trace::to_string(j.verdict);
  json["reasons"] = j.reasons;
  json["difference"] = Json();
  if (j.is_compared)
    json["difference"] = {{"ciede2000_mean", rounded(j.comparison.mean)},
                          {"ciede2000_95th_percentile", rounded(j.comparison.worst)},
                          {"ssim", rounded(j.comparison.ssim)}};
  json["nodes"] = j.nodes;
  json["faces"] = j.faces;
  json["layers"] = one.layers;
  Json colours = Json::array();
  for (const trace::DrawingColour& colour : j.plain_colours) {
    colours.push_back({{"colour", to_string(colour.colour)},
                       {"name", colour.name},
                       {"share", rounded(colour.share)}});
  }
  json["colours"] = std::move(colours);
  json["bytes"] = one.bytes;
  json["noise"] = rounded(one.noise);
  Json texts = Json::array();
  for (const trace::SmallText& text : one.small_text) {
    texts.push_back({{"x_px", rounded(text.at.x)},
                     {"y_px", rounded(text.at.y)},
                     {"width_px", rounded(text.width)},
                     {"height_px", rounded(text.height)}});
  }
  json["small_text"] = std::move(texts);
  return json;
}

}  // namespace

Bytes trace_report(const std::vector<TracedPicture>& pictures) {
  Json list = Json::array();
  for (const TracedPicture& one : pictures) list.push_back(picture_json(one));
  return Json{{"pictures", std::move(list)}}.dump(2) + "\n";
}

Bytes trace_report(const GameTraced& traced) {
  Json list = Json::array();
  for (const CoarsePicture& coarse : traced.pictures) {
    Json one = picture_json(coarse.traced);
    one["ppi"] = rounded(coarse.ppi);
    one["pieces"] = coarse.pieces;
    one["accepted"] = coarse.accepted;
    list.push_back(std::move(one));
  }
  Json json = {{"good_ppi", traced.good_ppi},
               {"pictures", std::move(list)},
               {"values_changed", traced.changes}};
  json["found"] = Json::parse(pack::findings_json(traced.found));
  return json.dump(2) + "\n";
}

}  // namespace quoin::job
