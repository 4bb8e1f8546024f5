#pragma once
#include <string>
#include <vector>

#include "job/share/write_share.h"

namespace quoin::job {

enum class Ink { full, low };

/// How the files of a share are called, behind the game's name.
namespace file_names {
[[nodiscard]] std::string cards(const std::string& what, const std::string& paper, Ink ink);
[[nodiscard]] std::string box(const std::string& paper, Ink ink);
[[nodiscard]] std::string mat(const std::string& paper, Ink ink);
[[nodiscard]] std::string rules(const std::string& paper);
inline constexpr const char* shop_mat = "mat-for-a-shop.pdf";
inline constexpr const char* shop_rules = "rules-for-a-shop.pdf";
[[nodiscard]] std::string guide(const std::string& paper);
[[nodiscard]] std::string read_me(const std::string& paper);
}  // namespace file_names

/// "the cards take about 30 % of the ink": measured on the drawings as `pieces::ink_on` has it.
/// Printers separate in ways of their own.
[[nodiscard]] std::string ink_words(const SharedEdition& edition);

/// Fills what the page of a share says, but for its pictures: `files` are those that were written.
void fill_page(const ShareWork& work, const std::vector<pack::Staging::File>& files,
               pack::SharePage& page);

}  // namespace quoin::job
