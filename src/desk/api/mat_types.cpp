#include "desk/api/mat_types.h"

namespace quoin::desk {

std::vector<ApiType> mat_types() {
  return {
      {"MatPlace",
       "A place for a card; millimetres from the mat's top left corner.",
       {{"element", "string", "of the mat's layout"},
        {"number", "number", "among the places of its element, from 1"},
        {"suit", "string", "that it is for, or none"},
        {"x", "number", "its middle"},
        {"y", "number", ""},
        {"turn", "number", "degrees, clockwise"},
        {"width", "number", "of the line round it"},
        {"height", "number", ""},
        {"turned", "boolean", "cards lie on it with their long side level"},
        {"pile", "boolean", "of cards on each other"}}},
      {"MatSheet",
       "What is seen of one sheet in the joined mat.",
       {{"name", "string", "`A1`"},
        {"x", "number", ""},
        {"y", "number", ""},
        {"width", "number", ""},
        {"height", "number", ""}}},
      {"MatTiling",
       "The mat on the game's own sheets.",
       {{"words", "string", ""},
        {"overlap", "number", "millimetres that two neighbours print both"},
        {"sheets", "MatSheet[]", ""}}},
      {"MatInfo",
       "The mat of the newest moment.",
       {{"file", "string", "its layout"},
        {"words", "string[]", ""},
        {"width", "number", "millimetres, finished"},
        {"height", "number", ""},
        {"bleed", "number", "how far its picture reaches past the finished edge"},
        {"hem", "number", "of it, 0 for paper"},
        {"safe", "number", ""},
        {"places", "MatPlace[]", ""},
        {"tiling", "MatTiling | null", "null: it goes on no sheets of the game's paper"},
        {"stamp", "string", "changes when its looks do"}}},
      {"MatAnswer", "", {{"mat", "MatInfo | null", "null: the game has none"}}},
  };
}

std::vector<ApiRoute> mat_routes() {
  return {
      {"GET", "/api/mat", "", "MatAnswer", ""},
      {"GET", "/api/mat/picture.png", "", "image/png", "w; with its bleed"},
      {"POST", "/api/mat/begin", "", "EditAnswer",
       "writes [mat] and its layout; 409 when there is one"},
  };
}

}  // namespace quoin::desk
