#include "game/reading.h"
#include "game/section.h"

namespace quoin::game {
namespace {

Origin place(const Section& section, std::string_view key, const Origin& otherwise) {
  return section.has(key) ? section.origin(key) : otherwise;
}

CuttingTool tool_named(const std::string& word) {
  if (word == "guillotine") return CuttingTool::guillotine;
  return word == "knife and rule" ? CuttingTool::knife_and_rule : CuttingTool::rotary_trimmer;
}

void read_cutting(CuttingWishes& cutting, const Section& section) {
  cutting.tool = tool_named(section.text("tool"));
  cutting.stack = section.length_if_given("stack");
  if (const auto sheets = section.number_if_given("stack-sheets")) {
    cutting.stack_sheets = static_cast<int>(*sheets);
  }
  cutting.repeatability = section.length_if_given("repeatability");
  if (const Node* fence = section.given("fence")) cutting.has_fence = *fence->flag();
  if (section.text("order") == "least-drift") cutting.order = CuttingOrder::least_drift;
  cutting.punch = section.length_if_given("corner-punch");
  cutting.punch_within = section.length_if_given("corner-stray");
  cutting.target = section.number("target");
  cutting.evenness = section.number("evenness");
  cutting.stack_origin = place(section, "stack-sheets", place(section, "stack", cutting.origin));
  cutting.punch_origin = place(section, "corner-punch", cutting.origin);
}

void read_printer_limits(PrinterWishes& printer, const Section& section) {
  printer.heaviest = section.number_if_given("heaviest");
  printer.heaviest_origin = section.origin("heaviest");
  printer.register_within = section.length_if_given("register");
  printer.feed_within = section.length_if_given("feed");
  if (const auto skew = section.number_if_given("skew")) {
    printer.askew_within = Angle::degrees(*skew);
  }
}

void read_times(Times& times, const Section& section) {
  times.side = section.number("side");
  times.refeed = section.number("refeed");
  times.cut = section.number("cut");
  times.setting = section.number("setting");
  times.corner = section.number("corner");
  times.knife_cut = section.number("knife-cut");
  times.crease = section.number("crease");
  times.glue = section.number("glue");
}

void read_quotations(std::vector<Quotation>& quotations, const Table* named) {
  if (!named) return;
  for (const Entry& entry : *named) {
    const Table* table = entry.value.table();
    if (!table) continue;
    const Section section("quotations", table);
    quotations.push_back({entry.key, static_cast<int>(section.number("decks")),
                          section.number("price"), section.text("note")});
  }
}

}  // namespace

void read_making(Reading& reading, const Table& settings) {
  MakingWishes& making = reading.game.making;
  const Node* whole = find(settings, "cutting");
  making.cutting.origin = whole ? whole->origin : Origin{FileName("game.toml")};
  read_cutting(making.cutting, Section("cutting", table_under(settings, "cutting")));
  read_printer_limits(reading.game.printer, Section("printer", table_under(settings, "printer")));
  read_prices(reading, settings);
  read_times(making.times, Section("times", table_under(settings, "times")));
  read_quotations(making.quotations, table_under(settings, "quotations"));
}

}  // namespace quoin::game
