#include "press/profile.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <tuple>

#include "game/formats.h"
#include "game/schema_check.h"
#include "game/section.h"
#include "game/size_check.h"
#include "game/toml_file.h"
#include "game/words.h"

namespace quoin::press {
namespace {

constexpr std::string_view ending = ".toml";
constexpr std::string_view game_folder = "printers";

/// The keys above the headings, as a table of their own.
game::Table keys_above(const game::Table& file) {
  game::Table own;
  for (const game::Entry& entry : file) {
    if (!entry.value.table()) own.push_back(entry);
  }
  return own;
}

bool is_heading(std::string_view name) {
  const std::vector<game::SectionFacts>& all = game::printer_sections();
  return name != "profile" &&
         std::any_of(all.begin(), all.end(), [&](const auto& facts) { return facts.name == name; });
}

Diagnostic unknown_heading(const game::Entry& entry) {
  Diagnostic found(Id::game_unknown_key, entry.key_origin,
                   fmt::format("a printer's file has no heading [{}]", entry.key));
  return found.hint("the headings are [front], [back] and [spread]");
}

Diagnostics check(const game::Table& file, FileName name) {
  Diagnostics found;
  const auto add = [&](Diagnostics more) {
    for (Diagnostic& each : more) found.push_back(std::move(each));
  };
  const game::Table own = keys_above(file);
  game::KeySet top = game::keys_in("profile");
  top.called = name.str();
  for (const game::Entry& entry : own) {
    if (!is_heading(entry.key)) continue;
    Diagnostic wrong(Id::game_wrong_type, entry.value.origin,
                     fmt::format("[{}] is a heading of its own, not {}", entry.key,
                                 game::describe(entry.value)));
    found.push_back(wrong.hint(fmt::format("write [{}] on a line of its own", entry.key)));
  }
  add(game::check_table(top, own, {name}, {}, {"front", "back", "spread"}));
  for (const game::Entry& entry : file) {
    if (!entry.value.table()) continue;
    if (is_heading(entry.key)) {
      add(game::check_table(game::keys_in(entry.key), *entry.value.table(), entry.value.origin,
                            {}));
    } else {
      found.push_back(unknown_heading(entry));
    }
  }
  return found;
}

/// A day of the calendar, year first (ISO 8601, 5.2.2.1).
bool is_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  const auto part = [&](std::size_t at, std::size_t size) {
    int value = -1;
    const char* end = text.data() + at + size;
    const auto read = std::from_chars(text.data() + at, end, value);
    return read.ptr == end ? value : -1;
  };
  const int year = part(0, 4), month = part(5, 2), day = part(8, 2);
  if (year < 1900 || month < 1 || month > 12 || day < 1) return false;
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return day <= days[month - 1] + (month == 2 && leap ? 1 : 0);
}

/// The two numbers of a list.
std::pair<double, double> two(const game::Section& section, std::string_view key) {
  const game::Node value = section.value(key);
  return {*value.list()->at(0).number(), *value.list()->at(1).number()};
}

void read_paper(const game::Section& own, Profile& profile, Diagnostics& found) {
  profile.paper_name = own.text("paper");
  const Origin where = own.origin("paper");
  const auto size = game::find_size(profile.paper_name, game::paper_sizes());
  if (!size) {
    found.push_back(game::unknown_size(profile.paper_name, where, game::paper_sizes()));
    return;
  }
  if (auto problem = game::size_problem(*size, where)) found.push_back(std::move(*problem));
  profile.paper = size->size;
}

void read_day(const game::Section& own, Profile& profile, Diagnostics& found) {
  profile.measured = own.text("measured");
  if (profile.measured.empty() || is_day(profile.measured)) return;
  Diagnostic problem(Id::press_unlikely_profile, own.origin("measured"),
                     fmt::format("{} is no day", game::in_quotes(profile.measured)));
  found.push_back(problem.hint("write the year first: measured = 2026-11-25"));
}

void read_way(const game::Section& own, Profile& profile) {
  const std::string how = own.text("how");
  profile.how = how == "eye" ? Measured::eye : how == "scans" ? Measured::scans : Measured::typed;
  profile.backs =
      own.text("backs") == "by-hand" ? game::BackPrinting::by_hand : game::BackPrinting::printer;
  profile.flip =
      own.text("flip") == "short-edge" ? game::FlipEdge::short_edge : game::FlipEdge::long_edge;
  if (own.has("pile")) {
    profile.pile = own.text("pile") == "face-up" ? game::Pile::face_up : game::Pile::face_down;
  }
}

void read_margin(const game::Section& own, Profile& profile) {
  if (!own.has("margin")) return;
  const game::Node margin = own.value("margin");
  if (const double* all = margin.number()) {
    profile.margin = Insets::all(Mm{*all});
    return;
  }
  const auto edge = [&](std::size_t i) { return Mm{*margin.list()->at(i).number()}; };
  profile.margin = Insets{edge(0), edge(1), edge(2), edge(3)};
}

void read_maps(const game::Table& file, Profile& profile) {
  const game::Section front("front", game::table_under(file, "front"));
  std::tie(profile.scale_x, profile.scale_y) = two(front, "scale");
  const game::Section back("back", game::table_under(file, "back"));
  const auto [x, y] = two(back, "shift");
  profile.back.shift = {Mm{x}, Mm{y}};
  profile.back.turn = Angle::degrees(back.number("turn"));
  std::tie(profile.back.scale_x, profile.back.scale_y) = two(back, "scale");
  profile.back.skew = Angle::degrees(back.number("skew"));
  const game::Section spread("spread", game::table_under(file, "spread"));
  const auto [across, down] = two(spread, "shift");
  profile.spread = {Mm{across}, Mm{down}, Angle::degrees(spread.number("turn"))};
}

Profile profile_from(const game::Table& file, FileName name, Diagnostics& found) {
  const game::Table table = keys_above(file);
  const game::Section own("profile", &table);
  Profile profile;
  profile.origin = {name};
  profile.id = name.str();
  profile.id.erase(0, profile.id.find_last_of('/') + 1);
  if (profile.id.ends_with(ending)) profile.id.resize(profile.id.size() - ending.size());
  profile.name = own.text("name");
  profile.tray = own.text("tray");
  profile.stock = own.text("stock");
  profile.heaviest = own.number_if_given("heaviest");
  profile.sheets = static_cast<int>(own.number("sheets"));
  if (const auto within = own.number_if_given("within")) profile.within = Mm{*within};
  read_paper(own, profile, found);
  read_day(own, profile, found);
  read_way(own, profile);
  read_margin(own, profile);
  read_maps(file, profile);
  return profile;
}

std::string path_below(std::string_view folder, const std::string& file) {
  return folder.empty() ? file : std::string(folder) + "/" + file;
}

Diagnostic no_such_printer(const PrinterShelves& shelves, const std::string& name,
                           const Origin& asked) {
  std::vector<std::string> known = printer_names(shelves.game, game_folder);
  if (shelves.machine) {
    for (std::string& each : printer_names(*shelves.machine, "")) known.push_back(std::move(each));
  }
  std::sort(known.begin(), known.end());
  known.erase(std::unique(known.begin(), known.end()), known.end());
  Diagnostic found(Id::press_no_such_printer, asked,
                   fmt::format("there is no printer {} that was measured", game::in_quotes(name)));
  found.detail(
      fmt::format("there is no file printers/{}.toml in the game's folder, and none of "
                  "that name where this machine keeps printers",
                  game::shortened(name)));
  const std::string meant = game::instead_of(name, known);
  if (!meant.empty()) found.hint(meant);
  return found.hint("quoin printer says how to measure one");
}

/// A name that can only be a file of the folder itself.
bool is_plain(const std::string& name) {
  return !name.empty() && name.front() != '.' && name.find('/') == std::string::npos &&
         name.find('\0') == std::string::npos && name.size() < 200;
}

}  // namespace

Result<Profile> read_profile(const Bytes& bytes, FileName file) {
  Result<game::Table> table = game::read_toml(bytes, file);
  if (!table) return std::move(table).why();
  Diagnostics found = check(*table, file);
  if (any_errors(found)) return found;
  Profile profile = profile_from(*table, file, found);
  if (any_errors(found)) return found;
  return profile;
}

Result<Profile> find_profile(const PrinterShelves& shelves, const std::string& name,
                             const Origin& asked) {
  if (!is_plain(name)) return no_such_printer(shelves, name, asked);
  const std::string file = name + std::string(ending);
  for (const World* world : {&shelves.game, shelves.machine}) {
    if (!world) continue;
    const std::string path = path_below(world == &shelves.game ? game_folder : "", file);
    const ReadAnswer answer = world->read(path, game::largest_toml);
    if (answer.ok()) return read_profile(*answer.bytes, FileName(path));
    if (answer.failure == ReadFailure::missing) continue;
    return Diagnostic(Id::game_unreadable_file, asked, explain(answer, path));
  }
  return no_such_printer(shelves, name, asked);
}

std::vector<std::string> printer_names(const World& world, std::string_view folder) {
  std::vector<std::string> names;
  for (std::string file : world.files_below(folder)) {
    if (!folder.empty()) file.erase(0, folder.size() + 1);
    if (!file.ends_with(ending) || file.find('/') != std::string::npos) continue;
    names.push_back(file.substr(0, file.size() - ending.size()));
  }
  return names;
}

std::string file_name_for(std::string_view name) {
  std::string file;
  for (const char c : game::lower_case(name)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '.';
    if (plain && !(file.empty() && c == '.')) {
      file += c;
    } else if (!file.empty() && file.back() != '-') {
      file += '-';
    }
  }
  while (file.ends_with('-')) file.pop_back();
  if (file.size() > 80) file.resize(80);
  return file.empty() ? "printer" : file;
}

}  // namespace quoin::press
