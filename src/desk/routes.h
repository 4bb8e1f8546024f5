#pragma once
#include <functional>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "desk/api/json.h"
#include "desk/art_bench.h"
#include "desk/http/exchange.h"
#include "desk/session.h"
#include "desk/uploads.h"
#include "desk/workbench.h"

namespace quoin::desk {

/// What the answers to requests are made from.
struct Room {
  Session& session;
  Workbench& workbench;
  PictureTray& tray;
  std::mutex& tray_mutex;
  ArtBench& art;
  std::function<bool(const std::string& path)> show_outside;
};

/// The answer to a request that was let in; 404 for questions that nobody here knows.
[[nodiscard]] Answer answer_to(Room& room, const Asked& asked);

/// A question whose body is JSON of a type of the contract.
struct JsonQuestion {
  std::string_view path, type;
  Answer (*answer)(Room& room, const Json& body);
};
/// The answer to the one of them that was asked, or its refusal when the body is not of its type.
/// Null: it is none of them.
[[nodiscard]] std::optional<Answer> answer_among(std::span<const JsonQuestion> questions,
                                                 Room& room, const Asked& asked);

// Parts of `answer_to`, by what they answer with. Null: not theirs.

/// Pictures of faces, sheets, nets and fonts, and vector drawings.
[[nodiscard]] std::optional<Answer> picture_answer(Room& room, const Asked& asked);
/// JSON about the game.
[[nodiscard]] std::optional<Answer> view_answer(Room& room, const Asked& asked);
/// How the game is cut, with pictures of the steps, and what it takes.
[[nodiscard]] std::optional<Answer> making_answer(Room& room, const Asked& asked);
/// The rules: their text, how they are set and folded, and pictures of that.
[[nodiscard]] std::optional<Answer> rules_answer(Room& room, const Asked& asked);
/// Writes a text of rules to start from, where there is none.
[[nodiscard]] Answer begin_rules(Room& room);
/// Whatever changes something.
[[nodiscard]] std::optional<Answer> change_answer(Room& room, const Asked& asked);
/// The mat: its places, its picture, one to begin with.
[[nodiscard]] std::optional<Answer> mat_answer(Room& room, const Asked& asked);
/// Printers: those that are known, the measuring sheet, what is read off it.
[[nodiscard]] std::optional<Answer> printer_answer(Room& room, const Asked& asked);
/// The pictures of the game, and what is made of them.
[[nodiscard]] std::optional<Answer> art_answer(Room& room, const Asked& asked);
/// Giving the game to others.
[[nodiscard]] std::optional<Answer> share_answer(Room& room, const Asked& asked);

}  // namespace quoin::desk
