#pragma once
#include "pack/box_files.h"

namespace quoin::pack {

/// A document about the box of a game, without pages.
[[nodiscard]] Document box_document(const game::Game& game);

/// True when the net has art on its printed side, or on its inside.
enum class NetSide { printed, inside };
[[nodiscard]] bool has_art(const BoxArt& art, std::size_t net, NetSide side);

/// The art of a net placed on a page by the map of its own side's frame; nothing when it has none.
void place_art(Page& page, const BoxNet& net, std::size_t index, const BoxArt& art, NetSide side,
               const Affine& map);

/// Adds items of a net's frame to a page.
void add_mapped(Page& page, std::vector<Item> items, const Affine& map);

/// "lid and base": the titles of nets, each once.
[[nodiscard]] std::string titles_of(const std::vector<BoxNet>& nets,
                                    const std::vector<NetPlace>& places);

/// "0.40 mm"
[[nodiscard]] std::string board_words(const pieces::Box& box);

}  // namespace quoin::pack
