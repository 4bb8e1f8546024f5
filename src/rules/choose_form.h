#pragma once
#include "rules/leaflet.h"
#include "rules/slab.h"

namespace quoin::rules {

/// A form that could be used, and the shape of its pages for a type size.
struct Candidate {
  Form form;
  bool whole_sheet = false;
  int sheets = 1;  ///< of paper for one copy
  /// Goes on a sheet of the paper.
  enum class OnPaper { yes, no } on_paper = OnPaper::yes;
};

/// All forms that may be chosen, the least work first; those too large for the paper among them.
[[nodiscard]] std::vector<Candidate> candidates_for(const game::RulesWishes& wishes,
                                                    const game::Game& game, const Rooms& rooms,
                                                    Mm caliper);

/// Margins and columns of a page at a type size.
[[nodiscard]] PageShape page_shape(const Candidate& candidate, const game::RulesWishes& wishes,
                                   const Rooms& rooms, Mm type);

/// Sets the text for pages of several shapes and remembers how many it took.
class Measuring {
 public:
  explicit Measuring(const SettingWork& work) : work_(work) {}

  [[nodiscard]] int pages(const PageShape& shape, Mm type);

 private:
  struct Key {
    Size column;
    int columns;
    Mm type;
    bool operator==(const Key&) const = default;
  };
  const SettingWork& work_;
  std::vector<std::pair<Key, int>> known_;
};

/// What was chosen: the candidate, the type size, and how it came about.
struct Choice {
  std::size_t candidate = 0;
  Mm type;
  int needed = 0;    ///< pages, at that size
  bool fits = true;  ///< else not even the smallest type is enough
  std::vector<Option> options;
};

/// Chooses as `make_leaflet` says. There must be a candidate that goes on the paper.
[[nodiscard]] Choice choose_form(const std::vector<Candidate>& candidates,
                                 const game::RulesWishes& wishes, const Rooms& rooms,
                                 Measuring& measuring);

}  // namespace quoin::rules
