#include "desk/api/share_types.h"

namespace quoin::desk {

std::vector<ApiType> share_types() {
  return {
      {"SourceFile",
       "A file that pieces of the game show, and what the list of sources says of it.",
       {{"file", "string", ""},
        {"pieces", "string[]", "ids of cards, `back of main`, `box`"},
        {"row", "number | null", "of the list, from 0; null: it has none"},
        {"listed", "string", "as the list names it: a name, or a pattern for many"},
        {"author", "string", ""},
        {"source", "string", ""},
        {"licence", "string", ""},
        {"changes", "string", ""},
        {"problem", "string", "what stands against giving it on; none: nothing does"},
        {"hints", "string[]", ""}}},
      {"SourceColumns",
       "What the columns of the list are called; none: it has no such column.",
       {{"file", "string", ""},
        {"author", "string", ""},
        {"source", "string", ""},
        {"licence", "string", ""},
        {"changes", "string", ""}}},
      {"LicenceInfo",
       "A licence that is known, in short. What counts is its text.",
       {{"id", "string", ""},
        {"name", "string", ""},
        {"words", "string", "what it lets one do, and what it asks"}}},
      {"EditionInfo",
       "The game on one paper, as it was shared last.",
       {{"paper", "string", ""},
        {"sheets", "number", ""},
        {"boardSheets", "number", ""},
        {"rulesSheets", "number", ""},
        {"matSheets", "number", ""},
        {"ink", "number", "per cent of a printed side, all colours added up"},
        {"lowInk", "number", ""},
        {"changedSheets", "number", "for who has the earlier cards; 0: no file"}}},
      {"ShareMade",
       "The share of this version, if there is one.",
       {{"folder", "string", "in the game folder"},
        {"files", "PackFile[]", "names as OpenRequest has them"},
        {"editions", "EditionInfo[]", ""}}},
      {"ShareInfo",
       "Whether and how the game can be given to others. Of the moment with this revision.",
       {{"revision", "number", ""},
        {"name", "string", "what the files begin with: `reef-1.0`"},
        {"version", "string", ""},
        {"listed", "boolean", "whether there is a list of sources"},
        {"columns", "SourceColumns", ""},
        {"rows", "number", "of the list"},
        {"files", "SourceFile[]", "those with a problem first"},
        {"licences", "LicenceInfo[]", ""},
        {"notes", "string[]", "what some licences ask for"},
        {"faults", "string[]", "what else stands against it"},
        {"earlier", "string[]", "names of shares that were made"},
        {"made", "ShareMade | null", ""}}},
      {"ShareRequest",
       "",
       {{"since", "string", "the name of an earlier share, or none"},
        {"without", "string[]", "files and pieces"},
        {"asked", "string[]", "files whose makers agreed"}}},
  };
}

std::vector<ApiRoute> share_routes() {
  return {
      {"GET", "/api/share", "", "ShareInfo", "asks of every file whether it may be given on"},
      {"POST", "/api/share", "ShareRequest", "WorkId", "begins; 409 while something is made"},
      {"POST", "/api/share/list", "", "Done", "begins art/sources.csv, with rows to fill in"},
      {"GET", "/api/share/page.html", "", "text/html", "the page of the share, to be looked at"},
  };
}

}  // namespace quoin::desk
