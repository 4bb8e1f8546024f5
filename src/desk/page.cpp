#include "desk/page.h"

#include <array>
#include <utility>

namespace {

/// As tools/embed-page writes it.
struct PageFile {
  const char* name;
  const char* begin;
  const char* end;
};

}  // namespace

extern "C" {
extern const PageFile quoin_desk_page[];
}

namespace quoin::desk {
namespace {

std::optional<std::string_view> page_file(std::string_view name) {
  for (const PageFile* file = quoin_desk_page; file->name != nullptr; ++file) {
    if (name == file->name) {
      return std::string_view(file->begin, static_cast<std::size_t>(file->end - file->begin));
    }
  }
  return std::nullopt;
}

std::string type_of(std::string_view name) {
  constexpr std::array<std::pair<std::string_view, const char*>, 11> types{{
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".json", "application/json"},
      {".svg", "image/svg+xml"},
      {".png", "image/png"},
      {".ico", "image/x-icon"},
      {".woff2", "font/woff2"},
      {".ttf", "font/ttf"},
      {".txt", "text/plain; charset=utf-8"},
      {".webmanifest", "application/manifest+json"},
  }};
  for (const auto& [end, type] : types) {
    if (name.ends_with(end)) return type;
  }
  return "application/octet-stream";
}

}  // namespace

bool has_page() { return page_file("index.html").has_value(); }

Answer page_answer(const Asked& asked) {
  const std::string name = asked.path == "/" ? "index.html" : asked.path.substr(1);
  if (!has_page()) {
    return text_answer("text/plain; charset=utf-8",
                       "The page of the desk was not built into this program.\n"
                       "`./run desk` in Quoin's own folder builds both; it needs Node.js.\n",
                       503);
  }
  const std::optional<std::string_view> file = page_file(name);
  if (!file || name.ends_with(".gz")) {
    return refusal_answer({404, "there is no such page", "go back to the desk's first page"});
  }
  Answer answer;
  answer.type = type_of(name);
  answer.fixed = *file;
  if (asked.accepts_gzip) {
    if (const auto compressed = page_file(name + ".gz")) {
      answer.fixed = *compressed;
      answer.headers.emplace_back("Content-Encoding", "gzip");
    }
  }
  answer.headers.emplace_back("Vary", "Accept-Encoding");
  const bool never_changes = name.starts_with("assets/");
  answer.headers.emplace_back("Cache-Control",
                              never_changes ? "private, max-age=31536000, immutable" : "no-cache");
  return answer;
}

}  // namespace quoin::desk
