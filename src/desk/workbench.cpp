#include "desk/workbench.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

#include "base/today.h"
#include "desk/share_view.h"
#include "pack/staging.h"

namespace quoin::desk {
namespace {

constexpr std::array<std::pair<std::string_view, job::Part>, 5> part_words{
    {{"home", job::Part::home},
     {"shop", job::Part::shop},
     {"pictures", job::Part::pictures},
     {"cutter", job::Part::cutter},
     {"guide", job::Part::guide}}};

/// What a file of a pack is for; the longest beginning that fits.
std::string_view what_of(std::string_view name) {
  constexpr auto all = std::to_array<std::pair<std::string_view, std::string_view>>({
      {"home/cards.pdf", "card sheets for your printer, both sides in turn"},
      {"home/cards-fronts", "card sheets, fronts: print these first"},
      {"home/cards-backs", "card sheets, backs: print these behind the fronts"},
      {"home/box", "the box for your printer"},
      {"home/mat", "the mat for your printer, sheet by sheet, and how they are joined"},
      {"home/rules", "the rules for your printer, to be folded"},
      {"shop/cards", "for a print shop: one face a page, with bleed"},
      {"shop/box", "for a print shop: the box, its lines on layers"},
      {"shop/mat", "for a print shop: the mat on one page"},
      {"shop/rules", "for a print shop: the rules"},
      {"cutter/", "lines for a cutting machine"},
      {"pictures/contact-sheet", "all cards at a glance"},
      {"pictures/mat", "the mat, to show around"},
      {"pictures/rules-folding", "how the rules are folded"},
      {"pictures/", "a picture to show around"},
      {"report.json", "everything that was found, for other programs"},
      {"guide.pdf", "how to make it all, step by step, to be printed and ticked off"},
      {"box.glb", "the box to turn and fold on a screen"},
  });
  for (const auto& [begin, words] : all) {
    if (name.starts_with(begin)) return words;
  }
  return "";
}

std::optional<Json> report_of(const std::string& pack_folder) {
  const ReadAnswer answer = real_world(pack_folder)->read(pack::report_name, std::size_t{64} << 20);
  return answer.ok() ? read_json(*answer.bytes) : std::nullopt;
}

/// How the files of a reprint are called among those of a pack.
constexpr std::string_view reprint_name = "reprint/";

/// PackFile[] of a report, each name with `before` in front of it.
Json files_view(const std::optional<Json>& report, std::string_view before) {
  Json files = Json::array();
  if (!report || !report->contains("files") || !(*report)["files"].is_array()) return files;
  for (const Json& file : (*report)["files"]) {
    const bool is_told = file.is_object() && file.contains("path") && file["path"].is_string();
    if (!is_told || !file.contains("bytes") || !file["bytes"].is_number()) continue;
    const std::string name = file["path"].get<std::string>();
    files.push_back(
        {{"name", std::string(before) + name}, {"bytes", file["bytes"]}, {"what", what_of(name)}});
  }
  return files;
}

std::optional<job::Wishes> wishes_of(const Json& asked) {
  job::Wishes wishes;
  wishes.parts.clear();
  for (const Json& name : asked["parts"]) {
    const auto known = std::ranges::find(part_words, name.get<std::string>(),
                                         [](const auto& one) { return std::string(one.first); });
    if (known == part_words.end()) return std::nullopt;
    wishes.parts.insert(known->second);
  }
  for (const Json& id : asked["only"]) wishes.only.push_back(id.get<std::string>());
  const double decks = asked["decks"].get<double>();
  if (wishes.parts.empty() || !(decks >= 1 && decks <= 1000)) return std::nullopt;
  wishes.decks = static_cast<int>(decks);
  return wishes;
}

/// What stands in the way, when something does.
std::string in_the_way(const Diagnostics& found) {
  const auto first = std::ranges::find(found, Severity::error, &Diagnostic::severity);
  const std::string words =
      fmt::format("nothing was written: {} to correct first", count(found).errors);
  return first == found.end() ? words : words + ", such as: " + first->message;
}

}  // namespace

/// Tells the pages, at most twenty times a second.
class Workbench::Reporter : public job::Watcher {
 public:
  Reporter(Events& events, std::string id, const std::stop_token& stop)
      : events_(events), id_(std::move(id)), stop_(stop) {}

  bool at(std::string_view work, int done, int of) override {
    const auto now = std::chrono::steady_clock::now();
    if (now - last_ >= std::chrono::milliseconds(50)) {
      last_ = now;
      tell(work, done, of, "running", "");
    }
    return !stop_.stop_requested();
  }

  void tell(std::string_view what, int done, int of, std::string_view state,
            const std::string& words) {
    const Json work{{"id", id_}, {"what", what},   {"done", done},
                    {"of", of},  {"state", state}, {"words", words}};
    events_.tell("work", id_, written(work));
  }

 private:
  Events& events_;
  std::string id_;
  const std::stop_token& stop_;
  std::chrono::steady_clock::time_point last_;
};

Workbench::Workbench(std::string folder, std::string cache_folder, std::string printers_folder,
                     Events& events)
    : folder_(std::move(folder)),
      cache_folder_(std::move(cache_folder)),
      printers_folder_(std::move(printers_folder)),
      events_(events) {}

Workbench::~Workbench() { thread_ = {}; }

std::variant<std::string, Refusal> Workbench::make(const Json& asked) {
  std::optional<job::Wishes> wishes = wishes_of(asked);
  if (!wishes) {
    return Refusal{422, "there is nothing to make",
                   "choose home, shop, pictures or cutter, and 1 to 1000 decks"};
  }
  wishes->out = folder_ + (wishes->only.empty() ? "/pack" : "/reprint");
  wishes->cache_folder = cache_folder_;
  wishes->printers_folder = printers_folder_;
  wishes->today = today();
  return begin("make", "making the pack",
               [this, wishes = *wishes](job::Watcher& watcher, const std::stop_token& stop) {
                 return make_pack(wishes, watcher, stop);
               });
}

std::variant<std::string, Refusal> Workbench::share(const Json& asked) {
  job::ShareWishes wishes;
  wishes.folder = folder_;
  wishes.cache_folder = cache_folder_;
  for (const Json& one : asked["without"]) wishes.without.push_back(one.get<std::string>());
  for (const Json& one : asked["asked"]) wishes.asked.push_back(one.get<std::string>());
  const std::string since = asked["since"].get<std::string>();
  if (since.find('/') != std::string::npos || since.starts_with('.')) {
    return Refusal{422, "an earlier share is called by its name alone", "choose one of the list"};
  }
  if (!since.empty()) wishes.since = fmt::format("{}/{}/{}", folder_, shares_folder, since);
  return begin("share", "sharing the game",
               [this, wishes](job::Watcher& watcher, const std::stop_token& stop) {
                 return share_game(wishes, watcher, stop);
               });
}

std::variant<std::string, Refusal> Workbench::begin(const char* kind, const std::string& what,
                                                    Work work) {
  const std::lock_guard lock(mutex_);
  if (!id_.empty()) return Refusal{409, "a pack is being made already", "wait for it, or stop it"};
  id_ = fmt::format("{}-{}", kind, ++count_);
  thread_ = std::jthread([this, id = id_, what, work = std::move(work)](
                             const std::stop_token& stop) { run(stop, id, what, work); });
  return id_;
}

bool Workbench::stop(const std::string& id) {
  const std::lock_guard lock(mutex_);
  if (id.empty() || id != id_) return false;
  thread_.request_stop();
  return true;
}

Workbench::Ended Workbench::make_pack(const job::Wishes& wishes, job::Watcher& watcher,
                                      const std::stop_token& stop) const {
  const job::Outcome outcome = job::make(*real_world(folder_), wishes, watcher);
  if (outcome.published) {
    return {"done", fmt::format("{} files are in {}", outcome.files.size(),
                                wishes.only.empty() ? "pack" : "reprint")};
  }
  if (stop.stop_requested()) return {"stopped", "stopped; the earlier pack is as it was"};
  if (outcome.found.empty()) return {"failed", "the pack could not be made"};
  return {"failed", in_the_way(outcome.found)};
}

Workbench::Ended Workbench::share_game(const job::ShareWishes& wishes, job::Watcher& watcher,
                                       const std::stop_token& stop) const {
  const job::ShareOutcome outcome = job::share(*real_world(folder_), wishes, watcher);
  if (outcome.published) {
    return {"done", fmt::format("{} files are in {}/{}", outcome.files.size(), shares_folder,
                                job::share_name(outcome.game))};
  }
  if (stop.stop_requested()) return {"stopped", "stopped; an earlier share is as it was"};
  return {"failed", in_the_way(outcome.found)};
}

void Workbench::run(const std::stop_token& stop, const std::string& id, const std::string& what,
                    const Work& work) {
  Reporter reporter(events_, id, stop);
  Ended ended{"failed", what + " came to no end"};
  try {
    ended = work(reporter, stop);
  } catch (const std::exception&) {  // said by the words; what was there is whole
  }
  {
    const std::lock_guard lock(mutex_);
    id_.clear();
  }
  reporter.tell(what, 1, 1, ended.state, ended.words);
}

Json pack_view(const std::string& game_folder) {
  const std::optional<Json> report = report_of(game_folder + "/pack");
  return {{"files", files_view(report, "")},
          {"written", report.has_value()},
          {"report", report.value_or(Json(nullptr))},
          {"reprint", files_view(report_of(game_folder + "/reprint"), reprint_name)}};
}

namespace {

/// A folder that Quoin made, the file in it that lists its files, and how the file that is meant is
/// called there.
struct Listed {
  PackPlace place;
  const char* report = pack::report_name;
};

Listed listed_place(const std::string& game_folder, const std::string& name) {
  if (name.starts_with(reprint_name)) {
    return {{game_folder + "/reprint", name.substr(reprint_name.size())}};
  }
  const std::string of_shares = std::string(shares_folder) + "/";
  if (!name.starts_with(of_shares)) return {{game_folder + "/pack", name}};
  const std::size_t end = std::min(name.find('/', of_shares.size()), name.size());
  return {{game_folder + "/" + name.substr(0, end), name.substr(std::min(end + 1, name.size()))},
          pack::manifest_name};
}

}  // namespace

std::optional<PackPlace> place_in_pack(const std::string& game_folder, const std::string& name) {
  if (!name.empty() && normal_path(name) != name) return std::nullopt;
  Listed listed = listed_place(game_folder, name);
  PackPlace& place = listed.place;
  const ReadAnswer answer = real_world(place.folder)->read(listed.report, std::size_t{64} << 20);
  const std::optional<Json> report = answer.ok() ? read_json(*answer.bytes) : std::nullopt;
  if (!report) return std::nullopt;
  if (place.name.empty() || place.name == listed.report) return std::move(place);
  const Json files = files_view(report, "");
  const bool is_listed =
      std::ranges::any_of(files, [&](const Json& file) { return file["name"] == place.name; });
  return is_listed ? std::optional(std::move(place)) : std::nullopt;
}

}  // namespace quoin::desk
