#pragma once
#include <memory>
#include <string>
#include <variant>

#include "desk/art_bench.h"
#include "desk/routes.h"

namespace quoin::desk {

// What the answers about pictures share.

/// A picture of the game, opened, as it is at a moment.
struct OpenedPicture {
  std::shared_ptr<const Snapshot> shown;
  std::shared_ptr<const ArtList> art;
  PicturePtr picture;
  [[nodiscard]] PictureShelf& shelf() const { return *shown->materials->shelf; }
};

/// The picture of that path when it is on the list and is still as the page saw it: 404 for what is
/// on no list, 409 for another stamp, 422 for what is no picture.
[[nodiscard]] std::variant<OpenedPicture, Refusal> open_picture(Room& room, const std::string& file,
                                                                const std::string& stamp);

/// 410: what was made is not kept any more.
[[nodiscard]] Answer made_is_gone();

/// Writes what was made and chosen into the game's folder: AcceptRequest to Accepted.
[[nodiscard]] Answer accept_answer(Room& room, const Json& body);

}  // namespace quoin::desk
