#pragma once
#include <optional>
#include <string>

#include "job/job.h"
#include "pack/box_pictures.h"
#include "pack/previews.h"

namespace quoin::job {

/// A drawing of the run that is shown once more: on the deck in the open box.
struct TopCard {
  Scene scene;
  std::string looks;  ///< as Workshop::name has it
};

/// What the pictures of a run's box are made from; nothing when it has no box or no pictures are
/// wanted. Refers to `outcome` and `top_card`. `game_hash` names the game's files; "" when nothing
/// is kept between runs.
[[nodiscard]] std::optional<pack::BoxPictureWork> box_picture_work(
    const Outcome& outcome, const Wishes& wishes, const std::optional<TopCard>& top_card,
    const std::string& game_hash);

/// The box on the contact sheet. Refers to `work` and `shelf`.
[[nodiscard]] pack::BoxRow box_row(const std::optional<pack::BoxPictureWork>& work,
                                   PictureShelf& shelf);

}  // namespace quoin::job
