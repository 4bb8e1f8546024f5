#include "desk/printer_view.h"

#include "desk/views.h"
#include "game/formats.h"
#include "press/correction.h"
#include "press/drift.h"

namespace quoin::desk {
namespace {

Json numbers(const Affine& map) { return {map.a, map.b, map.c, map.d, map.e.value, map.f.value}; }
Json numbers(Vec vec) { return {vec.x.value, vec.y.value}; }
Json numbers(Point point) { return {point.x.value, point.y.value}; }

Json meeting_view(int sheet, const press::Meeting& meeting) {
  return {{"sheet", sheet},
          {"frontBefore", numbers(meeting.front_before)},
          {"backBefore", numbers(meeting.back_before)},
          {"frontAfter", numbers(meeting.front_after)},
          {"backAfter", numbers(meeting.back_after)}};
}

Json drawing_view(const press::Profile& profile, const std::vector<press::SheetMeasured>& sheets) {
  const press::Drift drift = press::drift_of(profile, sheets);
  Json places = Json::array(), meetings = Json::array();
  for (const press::DriftPlace& place : drift.places) {
    Json of_sheets = Json::array();
    for (const Vec off : place.sheets) of_sheets.push_back(numbers(off));
    places.push_back({{"x", place.at.x.value},
                      {"y", place.at.y.value},
                      {"off", numbers(place.mean)},
                      {"sheets", std::move(of_sheets)},
                      {"reach", place.reach.value}});
  }
  meetings.push_back(meeting_view(0, press::meeting_of(profile, press::mean_back(profile))));
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    meetings.push_back(
        meeting_view(static_cast<int>(i) + 1, press::meeting_of(profile, sheets[i].back)));
  }
  return {{"width", profile.paper.width.value},
          {"height", profile.paper.height.value},
          {"magnified", drift.magnified},
          {"farthest", drift.farthest.value},
          {"places", std::move(places)},
          {"within", profile.within ? Json(profile.within->value) : Json(nullptr)},
          {"strays", profile.sheets > 1},
          {"meetings", std::move(meetings)}};
}

/// Why the sheets that the game has now could not be corrected by the profile; nothing when there
/// are none.
Json differs_view(const press::Profile& profile, const Snapshot& shown) {
  if (!shown.checkup || !shown.checkup->outcome.plan) return Json::array();
  const sheets::Plan& plan = *shown.checkup->outcome.plan;
  return findings_view(
      press::differences(profile, {plan.grid.paper, plan.wishes.backs, plan.wishes.flip,
                                   plan.wishes.paper_name, plan.wishes.origin}),
      *shown.sight.world);
}

std::string_view flip_word(game::FlipEdge flip) {
  return flip == game::FlipEdge::long_edge ? "long-edge" : "short-edge";
}

std::string_view turned_by(game::BackPrinting backs) {
  return backs == game::BackPrinting::by_hand ? "by-hand" : "printer";
}

std::string_view how_word(press::Measured how) {
  switch (how) {
    case press::Measured::eye:
      return "eye";
    case press::Measured::scans:
      return "scans";
    case press::Measured::typed:
      break;
  }
  return "typed";
}

std::string_view kind_word(game::PrinterKind kind) {
  switch (kind) {
    case game::PrinterKind::inkjet:
      return "inkjet";
    case game::PrinterKind::copy_shop:
      return "copy-shop";
    case game::PrinterKind::laser:
      break;
  }
  return "laser";
}

/// A file that cannot be read has no more to it than its name.
Json known_view(const job::ShelvedPrinter& one, const Snapshot& shown, const World& shelf) {
  const bool is_read = one.profile.ok();
  const press::Profile profile = is_read ? one.profile.value() : press::Profile{};
  Json view{{"printer", one.id},
            {"where", one.shelf == job::Shelf::game ? "game" : "machine"},
            {"hidden", one.is_hidden},
            {"name", is_read ? profile.name : one.id},
            {"tray", profile.tray},
            {"stock", profile.stock},
            {"measured", profile.measured},
            {"how", how_word(profile.how)},
            {"paper", profile.paper_name},
            {"backs", turned_by(profile.backs)},
            {"flip", flip_word(profile.flip)},
            {"sheets", profile.sheets},
            {"words", Json::array()},
            {"drawing", nullptr},
            {"differs", Json::array()},
            {"broken", Json::array()}};
  if (!is_read) {
    view["broken"] = findings_view(one.profile.why(), shelf);
    return view;
  }
  view["words"] = press::profile_words(profile);
  view["differs"] = differs_view(profile, shown);
  if (press::takes_sheet(profile.paper)) view["drawing"] = drawing_view(profile, {});
  return view;
}

Json papers_view(const std::string& of_the_game) {
  Json papers = Json::array();
  bool is_listed = false;
  for (const game::NamedSize& paper : game::paper_sizes()) {
    if (!press::takes_sheet(paper.size)) continue;
    papers.push_back(paper.name);
    is_listed = is_listed || paper.name == of_the_game;
  }
  const auto own = game::find_size(of_the_game, game::paper_sizes());
  if (!is_listed && own && press::takes_sheet(own->size)) papers.push_back(of_the_game);
  return papers;
}

Json points(const std::vector<Point>& all) {
  Json list = Json::array();
  for (const Point one : all) list.push_back(numbers(one));
  return list;
}

std::vector<Point> centres_of(const std::vector<press::CodeMark>& codes) {
  std::vector<Point> all;
  for (const press::CodeMark& code : codes) all.push_back(code.centre);
  return all;
}

std::vector<Point> behind(std::vector<Point> all, const Affine& turned_over) {
  for (Point& one : all) one = turned_over(one);
  return all;
}

Json letters_view(const std::array<press::CornerLetter, 4>& letters) {
  Json all = Json::array();
  for (const press::CornerLetter& one : letters) {
    all.push_back(
        {{"letter", std::string(1, one.letter)}, {"x", one.at.x.value}, {"y", one.at.y.value}});
  }
  return all;
}

}  // namespace

Json printers_view(const Snapshot& shown, const std::string& machine_folder) {
  const game::Game& game = shown.game;
  const std::unique_ptr<World> machine =
      machine_folder.empty() ? nullptr : real_world(machine_folder);
  Json printers = Json::array();
  for (const job::ShelvedPrinter& one :
       job::shelved_printers({*shown.sight.world, machine.get()})) {
    const World& shelf = one.shelf == job::Shelf::game ? *shown.sight.world : *machine;
    printers.push_back(known_view(one, shown, shelf));
  }
  const bool is_laid = shown.checkup && shown.checkup->outcome.plan;
  const Size paper = is_laid ? shown.checkup->outcome.plan->grid.paper : game.sheets.paper;
  return {{"uses", game.printer.profile},
          {"kind", kind_word(game.printer.kind)},
          {"papers", papers_view(game.sheets.paper_name)},
          {"paper", game.sheets.paper_name},
          {"held", paper.width > paper.height ? "sideways" : "upright"},
          {"backs", turned_by(game.sheets.backs)},
          {"flip", flip_word(game.sheets.flip)},
          {"today", job::today()},
          {"machine", !machine_folder.empty()},
          {"printers", std::move(printers)}};
}

Json measured_view(const std::string& id, const job::MeasuredPrinter& printer,
                   const Snapshot& shown) {
  return {{"id", id},
          {"printer", printer.profile.id},
          {"words", press::measurement_words(printer.measured)},
          {"sheets", printer.sheets},
          {"notes", printer.notes},
          {"drawing", drawing_view(printer.profile, printer.measured.sheets)},
          {"differs", differs_view(printer.profile, shown)}};
}

Json measuring_sheet_view(const press::SheetLayout& layout, game::FlipEdge flip) {
  const Affine through = press::turned_over(layout.paper, flip);
  Json scales = Json::array(), bars = Json::array();
  for (const press::Vernier& scale : layout.verniers) {
    scales.push_back({{"number", scale.number},
                      {"x", scale.at.x.value},
                      {"y", scale.at.y.value},
                      {"across", scale.across()}});
  }
  for (const press::ScaleBar& bar : layout.bars) {
    bars.push_back({{"length", bar.length.value},
                    {"x", bar.from.x.value},
                    {"y", bar.from.y.value},
                    {"upright", bar.upright}});
  }
  const Rect& words = layout.words;
  return {
      {"width", layout.paper.width.value},
      {"height", layout.paper.height.value},
      {"dotSize", press::dot_size.value},
      {"codeSize", press::code_size.value},
      {"pinRing", press::pin_ring.value},
      {"scaleReach", (press::front_pitch * press::front_lines).value},
      {"dots", points(layout.dots_of(press::SheetSide::front))},
      {"codes", points(centres_of(layout.codes_of(press::SheetSide::front)))},
      {"backDots", points(behind(layout.dots_of(press::SheetSide::back), through))},
      {"backCodes", points(behind(centres_of(layout.codes_of(press::SheetSide::back)), through))},
      {"pins", points({layout.pins.begin(), layout.pins.end()})},
      {"scales", std::move(scales)},
      {"letters", letters_view(layout.letters)},
      {"behind", letters_view(layout.letters_behind)},
      {"bars", std::move(bars)},
      {"words",
       {{"x", words.at.x.value},
        {"y", words.at.y.value},
        {"width", words.size.width.value},
        {"height", words.size.height.value}}}};
}

}  // namespace quoin::desk
