#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>

#include "desk/answers.h"
#include "desk/printer_view.h"
#include "desk/routes.h"
#include "game/formats.h"
#include "job/edit/keep_profile.h"

namespace quoin::desk {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t most_sheets_read = 20, most_sheets_scanned = 10, longest_name = 200;

/// Paper for measuring sheets, as the page names it.
std::variant<press::Profile, Refusal> on_paper(const std::string& name, const std::string& held) {
  const auto known = game::find_size(name, game::paper_sizes());
  if (!known) {
    return Refusal{422, fmt::format("there is no paper \"{}\"", name.substr(0, longest_name)),
                   "choose A4 or Letter, or write 210x297"};
  }
  press::Profile profile;
  const bool is_sideways = known->size.width > known->size.height;
  profile.paper = (held == "sideways") == is_sideways ? known->size : turned(known->size);
  if (!press::takes_sheet(profile.paper)) {
    return Refusal{422, fmt::format("the measuring sheet has no room on {}", name),
                   "it takes paper of 200 to 330 mm by 250 to 480 mm, such as A4 or Letter"};
  }
  profile.paper_name = job::paper_name_of(profile.paper);
  return profile;
}

game::FlipEdge flip_of(const std::string& word) {
  return word == "short-edge" ? game::FlipEdge::short_edge : game::FlipEdge::long_edge;
}

game::BackPrinting backs_of(const std::string& word) {
  return word == "by-hand" ? game::BackPrinting::by_hand : game::BackPrinting::printer;
}

/// What stands before anything is measured. `about` is a PrinterAbout.
std::variant<press::Profile, Refusal> profile_of(const Json& about) {
  auto profile = on_paper(about["paper"].get<std::string>(), about["held"].get<std::string>());
  auto* asked = std::get_if<press::Profile>(&profile);
  if (asked == nullptr) return profile;
  for (const char* key : {"name", "tray", "stock"}) {
    if (about[key].get_ref<const std::string&>().size() <= longest_name) continue;
    return Refusal{422, fmt::format("the {} is longer than {} letters", key, longest_name),
                   "say it in fewer words"};
  }
  asked->name = about["name"].get<std::string>();
  if (asked->name.empty()) asked->name = "My printer";
  asked->id = press::file_name_for(asked->name);
  asked->tray = about["tray"].get<std::string>();
  asked->stock = about["stock"].get<std::string>();
  asked->measured = job::today();
  asked->flip = flip_of(about["flip"].get<std::string>());
  asked->backs = backs_of(about["backs"].get<std::string>());
  return profile;
}

press::BarReadings bars_of(const Json& sheets) {
  press::BarReadings bars;
  for (const Json& sheet : sheets) {
    bars.bar_150.push_back(sheet["bar150"].get<std::string>());
    bars.bar_200.push_back(sheet["bar200"].get<std::string>());
  }
  return bars;
}

std::optional<Refusal> too_many(std::size_t sheets, std::size_t most) {
  if (sheets >= 1 && sheets <= most) return std::nullopt;
  return Refusal{422, fmt::format("{} sheets were read, and 1 to {} can be", sheets, most),
                 "three tell how far single sheets stray"};
}

Answer found_answer(Room& room, Result<job::MeasuredPrinter> measured) {
  if (!measured) {
    return findings_answer("the printer could not be measured", measured.why(), MemoryWorld());
  }
  const std::string id = room.session.printer_bench().remember(measured.value());
  return json_answer(measured_view(id, measured.value(), *room.session.checked()));
}

Answer read_answer(Room& room, const Json& asked) {
  if (const auto refusal = too_many(asked["sheets"].size(), most_sheets_read)) {
    return refusal_answer(*refusal);
  }
  auto profile = profile_of(asked["about"]);
  if (const auto* refusal = std::get_if<Refusal>(&profile)) return refusal_answer(*refusal);
  std::vector<press::EyeSheet> sheets;
  for (const Json& sheet : asked["sheets"]) {
    press::EyeSheet& one = sheets.emplace_back();
    const std::string letter = sheet["letter"].get<std::string>();
    if (letter.size() > 1 || sheet["scales"].size() != one.scales.size()) {
      return refusal_answer(
          {422, "a sheet has one letter behind A and eight scales", "reload the page"});
    }
    if (!letter.empty()) {
      const char c = letter.front();
      one.behind_a = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    for (std::size_t i = 0; i < one.scales.size(); ++i) {
      one.scales[i] = sheet["scales"][i].get<std::string>();
    }
  }
  return found_answer(room, job::measure_printer(std::get<press::Profile>(profile), sheets,
                                                 bars_of(asked["sheets"])));
}

Answer scans_answer(Room& room, const Json& asked) {
  if (const auto refusal = too_many(asked["sheets"].size(), most_sheets_scanned)) {
    return refusal_answer(*refusal);
  }
  auto profile = profile_of(asked["about"]);
  if (const auto* refusal = std::get_if<Refusal>(&profile)) return refusal_answer(*refusal);
  std::vector<PrinterBench::Pair> pairs;
  for (const Json& sheet : asked["sheets"]) {
    pairs.push_back({sheet["front"].get<std::string>(), sheet["back"].get<std::string>()});
  }
  auto measured = room.session.printer_bench().measure(std::get<press::Profile>(profile), pairs,
                                                       bars_of(asked["sheets"]));
  if (const auto* refusal = std::get_if<Refusal>(&measured)) return refusal_answer(*refusal);
  return found_answer(room, std::move(std::get<Result<job::MeasuredPrinter>>(measured)));
}

/// The folder that a printer's file goes into, made when it is missing; a link that leads out of
/// the game is refused.
std::variant<fs::path, Refusal> shelf_of(const Session& session, const std::string& where) {
  if (where == "machine") {
    if (!session.printers_folder().empty()) return fs::path(session.printers_folder());
    return Refusal{409, "there is no place on this machine to keep printers",
                   "keep it with the game"};
  }
  std::error_code fault;
  const fs::path game = fs::canonical(session.folder(), fault), wanted = game / "printers";
  fs::create_directories(wanted, fault);
  const fs::path place = fs::canonical(wanted, fault);
  if (fault) {
    return Refusal{500, fmt::format("printers/ cannot be made: {}", fault.message()),
                   "allow writing in the game's folder"};
  }
  const auto [end, unused] = std::mismatch(game.begin(), game.end(), place.begin(), place.end());
  if (end == game.end()) return place;
  return Refusal{403, "printers/ leads out of the game's folder", "keep it on this machine"};
}

Refusal is_there_already(const press::Profile& profile) {
  return {409, fmt::format("a printer {} is kept there already", profile.id),
          "let it give way, or give this one another name"};
}

Answer keep_answer(Room& room, const Json& asked) {
  Session& session = room.session;
  if (session.now()->state_of == Snapshot::StateOf::empty) {
    return refusal_answer({409, "there is no game in this folder yet", "begin one first"});
  }
  auto printer = session.printer_bench().measured(asked["id"].get<std::string>());
  if (!printer) {
    return refusal_answer({410, "what was measured is here no more", "measure it again"});
  }
  press::Profile profile = printer->profile;
  profile.name = asked["name"].get<std::string>();
  if (profile.name.empty() || profile.name.size() > longest_name) {
    return refusal_answer({422, fmt::format("a printer's name has 1 to {} letters", longest_name),
                           "call it what you would call it to a friend"});
  }
  profile.id = press::file_name_for(profile.name);
  const std::string where = asked["where"].get<std::string>();
  const auto shelf = shelf_of(session, where);
  if (const auto* refusal = std::get_if<Refusal>(&shelf)) return refusal_answer(*refusal);
  const fs::path file = std::get<fs::path>(shelf) / (profile.id + ".toml");
  std::error_code unneeded;
  const bool is_there = fs::symlink_status(file, unneeded).type() != fs::file_type::not_found;
  if (is_there && !asked["replace"].get<bool>()) {
    return refusal_answer(is_there_already(profile));
  }
  const quoin::Outcome kept = job::keep_profile(file.string(), profile);
  if (!kept) return findings_answer("the printer was not kept", kept.why(), MemoryWorld());
  const auto shown = session.look_again();
  return json_answer(
      {{"printer", profile.id},
       {"file", where == "game" ? fmt::format("printers/{}.toml", profile.id) : file.string()},
       {"revision", shown->revision}});
}

Answer sheet_pdf_answer(const Asked& asked) {
  const auto paper = on_paper(asked.value("paper"), asked.value("held"));
  if (const auto* refusal = std::get_if<Refusal>(&paper)) return refusal_answer(*refusal);
  const auto& profile = std::get<press::Profile>(paper);
  const std::string count = asked.value("sheets");
  int sheets = 0;
  const auto [end, fault] = std::from_chars(count.data(), count.data() + count.size(), sheets);
  const bool is_whole = fault == std::errc() && end == count.data() + count.size();
  if (!is_whole || sheets < 1 || sheets > static_cast<int>(most_sheets_read)) {
    return refusal_answer({422, fmt::format("sheets is a number from 1 to {}", most_sheets_read),
                           "three are enough"});
  }
  const Result<Bytes> pdf =
      job::measuring_sheet_pdf({profile.paper, profile.paper_name, flip_of(asked.value("flip")),
                                backs_of(asked.value("backs")), sheets});
  if (!pdf) return findings_answer("the sheet could not be drawn", pdf.why(), MemoryWorld());
  Answer answer = text_answer("application/pdf", pdf.value());
  answer.headers.emplace_back(
      "Content-Disposition",
      fmt::format("{}; filename=\"measuring-sheet-{}.pdf\"",
                  asked.value("save") == "1" ? "attachment" : "inline", profile.paper_name));
  return answer;
}

Answer sheet_answer_of(const Asked& asked) {
  const auto paper = on_paper(asked.value("paper"), asked.value("held"));
  if (const auto* refusal = std::get_if<Refusal>(&paper)) return refusal_answer(*refusal);
  return json_answer(measuring_sheet_view(
      press::sheet_layout(std::get<press::Profile>(paper).paper), flip_of(asked.value("flip"))));
}

Answer scan_answer(Room& room, const Asked& asked) {
  auto taken = room.session.printer_bench().take(asked.value("name"), asked.body);
  if (const auto* refusal = std::get_if<Refusal>(&taken)) return refusal_answer(*refusal);
  return json_answer({{"scan", std::get<std::string>(taken)}});
}

std::optional<Answer> posted(Room& room, const Asked& asked) {
  static constexpr JsonQuestion questions[] = {
      {"/api/printer/read", "PrinterReadings", read_answer},
      {"/api/printer/scans", "PrinterScans", scans_answer},
      {"/api/printer/keep", "PrinterKeep", keep_answer}};
  if (asked.path == "/api/printer/scan") return scan_answer(room, asked);
  return answer_among(questions, room, asked);
}

}  // namespace

std::optional<Answer> printer_answer(Room& room, const Asked& asked) {
  if (asked.method == "POST") return posted(room, asked);
  if (asked.path == "/api/printers") {
    return json_answer(printers_view(*room.session.checked(), room.session.printers_folder()));
  }
  if (asked.path == "/api/printer/sheet") return sheet_answer_of(asked);
  if (asked.path == "/api/printer/sheet.pdf") return sheet_pdf_answer(asked);
  return std::nullopt;
}

}  // namespace quoin::desk
