#include "guide/look.h"
#include "guide/making.h"

namespace quoin::guide {

Guide guide_for(const Making& making) {
  Guide guide;
  guide.title = making.game.title;
  guide.author = making.game.author;
  guide.page = page_for(making.plan.grid.paper);
  guide.cover = cover_of(making);
  for (const auto chapter : {have_ready, print_cards, cut_cards, round_corners, make_the_box,
                             make_the_mat, fold_the_rules, count_deck}) {
    guide.chapters.push_back(chapter(making));
  }
  if (making.files.reader == GuideFiles::Reader::maker) {
    for (const auto chapter : {spoilt_cards, what_it_takes}) {
      guide.chapters.push_back(chapter(making));
    }
  }
  return guide;
}

}  // namespace quoin::guide
