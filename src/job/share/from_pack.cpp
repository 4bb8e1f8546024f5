#include "job/share/from_pack.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "pack/staging.h"

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

/// A file of a pack that may go along.
struct Candidate {
  const char* path;
  const char* name;  ///< "{}" stands for the paper
  const char* what;
  enum class Of { mat, rules } of;
  enum class For { home, shop } reader;
};
constexpr Candidate candidates[] = {
    {"home/rules.pdf", "rules-{}.pdf", "Rules, to print on {}", Candidate::Of::rules,
     Candidate::For::home},
    {"shop/rules.pdf", "rules-for-a-shop.pdf", "Rules, for a print shop", Candidate::Of::rules,
     Candidate::For::shop},
    {"home/mat.pdf", "mat-{}.pdf", "Mat, in sheets of {} to join", Candidate::Of::mat,
     Candidate::For::home},
    {"shop/mat.pdf", "mat-for-a-shop.pdf", "Mat, on one page for a print shop", Candidate::Of::mat,
     Candidate::For::shop}};

bool is_older_than_game(const fs::path& report, const std::string& folder) {
  std::error_code ec;
  const auto made = fs::last_write_time(report, ec);
  if (ec) return true;
  const auto is_newer = [&](const fs::path& file) {
    std::error_code one;
    const auto changed = fs::last_write_time(file, one);
    return !one && changed > made;
  };
  for (const char* name : {"game.toml", "cards.csv", "rules.md"}) {
    if (is_newer(fs::path(folder) / name)) return true;
  }
  for (const char* name : {"layouts", "art", "fonts"}) {
    for (fs::recursive_directory_iterator it(fs::path(folder) / name, ec), end; !ec && it != end;
         it.increment(ec)) {
      if (is_newer(it->path())) return true;
    }
  }
  return false;
}

}  // namespace

std::vector<PackFile> files_from_pack(const std::string& game_folder, const game::Game& game,
                                      const LeftOut& left_out, Diagnostics& found) {
  std::vector<PackFile> files;
  const fs::path pack = fs::path(game_folder) / "pack";
  std::error_code ec;
  if (game_folder.empty() || !fs::exists(pack / pack::report_name, ec)) return files;
  const std::unique_ptr<World> world = real_world(pack.string());
  for (const Candidate& one : candidates) {
    const bool wanted =
        (one.of == Candidate::Of::mat ? left_out.mat : left_out.rules) == LeftOut::More::goes_along;
    const bool for_this_printer =
        one.reader == Candidate::For::home && !game.printer.profile.empty();
    if (!wanted || for_this_printer) continue;
    const ReadAnswer answer = world->read(one.path, largest_file);
    if (!answer.ok()) continue;
    const std::string& paper = game.sheets.paper_name;
    files.push_back({fmt::format(fmt::runtime(one.name), paper),
                     fmt::format(fmt::runtime(one.what), paper), *answer.bytes});
  }
  if (files.empty() || !is_older_than_game(pack / pack::report_name, game_folder)) return files;
  found.push_back(Diagnostic(Id::share_pack_is_older, {},
                             "the mat and the rules in pack/ are older than the game, so they do "
                             "not go along")
                      .hint("run quoin make first"));
  return {};
}

}  // namespace quoin::job
