#include "desk/api/art_types.h"

namespace quoin::desk {
namespace {

std::vector<ApiType> list_types() {
  return {
      {"PrintSize",
       "How large a picture prints at a resolution.",
       {{"ppi", "number", ""}, {"width", "number", "mm"}, {"height", "number", "mm"}}},
      {"PaletteColour",
       "A colour with its name, and how much of the pictures it covers.",
       {{"name", "string", ""},
        {"colour", "string", "#rrggbb"},
        {"share", "number", "0 to 1; 0 where nobody looked"}}},
      {"PrintedSize", "", {{"width", "number", "mm"}, {"height", "number", "mm"}}},
      {"PictureInfo",
       "A picture file in the game folder.",
       {{"file", "string", "its path in the folder"},
        {"stamp", "string", "of its bytes"},
        {"kind", "'pixels' | 'vectors' | 'unreadable'", ""},
        {"width", "number", "pixels; of a drawing its natural size"},
        {"height", "number", ""},
        {"bytes", "number", ""},
        {"alpha", "boolean", "whether parts are transparent"},
        {"profile", "string", "of its colours; none: it has none and is taken as sRGB"},
        {"ppi", "number | null", "where it prints coarsest"},
        {"printed", "PrintedSize | null", "there"},
        {"pieces", "string[]", "that show it: ids of cards, `back of main`, `box`"},
        {"state", "'coarse' | 'soft' | 'sharp' | 'vectors' | 'unreadable' | 'unused'", ""},
        {"words", "string", "the same as a sentence, with what to do"},
        {"sizes", "PrintSize[]", "at 300, 220 and 150 ppi"},
        {"made", "string[]", "pictures beside it that were made from it"}}},
      {"PicturesInfo",
       "All pictures of the game. Of the moment with this revision.",
       {{"revision", "number", ""},
        {"goodPpi", "number", "what the game asks for"},
        {"leastPpi", "number", "below it steps are plain to see"},
        {"pictures", "PictureInfo[]", "the coarsest first, those on no piece last"},
        {"colours", "PaletteColour[]", "named by the game"},
        {"brief", "string[]", "sentences"}}},
  };
}

std::vector<ApiType> redraw_types() {
  return {
      {"PictureAsked",
       "A picture as the page saw it.",
       {{"file", "string", ""}, {"stamp", "string", "409 when it has another by now"}}},
      {"ColourInstead",
       "Areas of one colour of the drawing get another; where that is one of its colours already, "
       "the areas become one.",
       {{"from", "string", ""}, {"to", "string", ""}}},
      {"RedrawRequest",
       "",
       {{"file", "string", ""},
        {"stamp", "string", ""},
        {"closeness", "'closest' | 'fewest'", ""},
        {"colours", "number", "0: as many as it needs"},
        {"palette", "string[]", "only these; none: those of the picture"},
        {"instead", "ColourInstead[]", ""}}},
      {"DrawingColour",
       "",
       {{"colour", "string", ""},
        {"name", "string", ""},
        {"share", "number", "of the drawing's area"}}},
      {"PicturePart",
       "Pixels of the picture.",
       {{"x", "number", ""},
        {"y", "number", ""},
        {"width", "number", ""},
        {"height", "number", ""}}},
      {"Redrawing",
       "A picture redrawn as a drawing, and how true it is.",
       {{"id", "string", "to look at it and to accept it"},
        {"width", "number", ""},
        {"height", "number", ""},
        {"verdict", "'good' | 'look' | 'keep' | 'hopeless'", ""},
        {"reasons", "string[]", ""},
        {"mean", "number", "CIEDE2000"},
        {"worst", "number", "which 95 % of it do not exceed"},
        {"ssim", "number", ""},
        {"nodes", "number", ""},
        {"bytes", "number", ""},
        {"colours", "DrawingColour[]", "by area"},
        {"smallText", "PicturePart[]", "lettering that was left out"},
        {"findings", "Finding[]", ""}}},
  };
}

std::vector<ApiType> made_types() {
  return {
      {"PicturePoint", "In pixels of the picture.", {{"x", "number", ""}, {"y", "number", ""}}},
      {"FoundCard",
       "A card in a photograph.",
       {{"corners", "PicturePoint[]", "four, clockwise from its top left as it will stand"},
        {"doubts", "string[]", "none: it is sure"}}},
      {"FoundCards",
       "",
       {{"width", "number", "of the picture"},
        {"height", "number", ""},
        {"cards", "FoundCard[]", ""},
        {"grid", "boolean", "whether they lie in rows and columns"}}},
      {"CardCorners", "", {{"corners", "PicturePoint[]", "four"}}},
      {"StraightenRequest",
       "",
       {{"file", "string", ""},
        {"stamp", "string", ""},
        {"cards", "CardCorners[]", ""},
        {"shape", "string", "63x88; none: that of the game's cards"}}},
      {"CutOutRequest",
       "",
       {{"file", "string", ""},
        {"stamp", "string", ""},
        {"reach", "number", "0 to 1: how far from the ground's colour still belongs to it"}}},
      {"PullRequest",
       "",
       {{"file", "string", ""},
        {"stamp", "string", ""},
        {"reach", "number", "CIEDE2000 within which a colour becomes one of the game's"}}},
      {"MadePicture",
       "",
       {{"width", "number", ""}, {"height", "number", ""}, {"doubts", "string[]", ""}}},
      {"MadePictures",
       "Pictures made from a picture, not yet in the folder.",
       {{"id", "string", ""}, {"pictures", "MadePicture[]", ""}, {"words", "string[]", ""}}},
      {"AcceptRequest",
       "",
       {{"id", "string", ""},
        {"n", "number[]", "which of them; none: all"},
        {"instead", "boolean", "whether pieces show it from now on"}}},
      {"Accepted",
       "",
       {{"files", "string[]", "that were written"},
        {"changes", "number", "values changed in the maker's files, one step to undo"},
        {"findings", "Finding[]", ""},
        {"revision", "number", ""}}},
      {"PaletteRequest",
       "",
       {{"files", "string[]", "none: all that the game shows"}, {"most", "number", ""}}},
      {"PicturesPalette", "", {{"colours", "PaletteColour[]", "by area"}}},
  };
}

}  // namespace

std::vector<ApiType> art_types() {
  std::vector<ApiType> types = list_types();
  for (auto* const more : {&redraw_types, &made_types}) {
    for (ApiType& type : more()) types.push_back(std::move(type));
  }
  return types;
}

std::vector<ApiRoute> art_routes() {
  return {
      {"GET", "/api/pictures", "", "PicturesInfo", "every picture, and how it prints"},
      {"GET", "/api/pictures/original.png", "", "image/png", "file, stamp, w; w=0: all pixels"},
      {"POST", "/api/pictures/redraw", "RedrawRequest", "Redrawing", "409, 422 Problem"},
      {"GET", "/api/pictures/redrawn.svg", "", "image/svg+xml", "id; 410 when it is gone"},
      {"GET", "/api/pictures/difference.png", "", "image/png", "id"},
      {"POST", "/api/pictures/corners", "PictureAsked", "FoundCards", "of cards in a photograph"},
      {"POST", "/api/pictures/straighten", "StraightenRequest", "MadePictures", ""},
      {"POST", "/api/pictures/cut-out", "CutOutRequest", "MadePictures", ""},
      {"POST", "/api/pictures/pull", "PullRequest", "MadePictures", "to the game's colours"},
      {"GET", "/api/pictures/made.png", "", "image/png", "id, n from 0, w"},
      {"POST", "/api/pictures/accept", "AcceptRequest", "Accepted", "writes it beside the picture"},
      {"POST", "/api/pictures/palette", "PaletteRequest", "PicturesPalette", ""},
  };
}

}  // namespace quoin::desk
