#include "pack/share/share_page.h"

#include <fmt/format.h>

#include "formats/clean_text.h"
#include "pack/share/page_style.h"

namespace quoin::pack {
namespace {

/// A path as an address: what is not plain is written with per cent signs (RFC 3986, 2.1).
std::string address(std::string_view path) {
  std::string result;
  for (const char c : path) {
    const bool is_plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                          (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.' || c == '/';
    result += is_plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return result;
}

std::string picture(const ShownPicture& shown, std::string_view more) {
  return fmt::format("<img src=\"{}\" alt=\"{}\" width=\"{}\" height=\"{}\"{}>",
                     address(shown.path), escaped_for_xml(shown.alt), shown.width, shown.height,
                     more);
}

std::string list(const std::vector<std::string>& lines) {
  std::string html = "<ul>";
  for (const std::string& line : lines) html += "<li>" + escaped_for_xml(line) + "</li>";
  return html + "</ul>\n";
}

std::string section(std::string_view id, std::string_view title, const std::string& inside) {
  return fmt::format("<section aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}</h2>\n{2}</section>\n",
                     id, title, inside);
}

/// "8 sheets, PDF of 1.0 MB"
std::string file_facts(const OfferedFile& file) {
  std::string words;
  if (file.sheets > 0) {
    words = fmt::format("{} {}, ", file.sheets, file.sheets == 1 ? "sheet" : "sheets");
  }
  return words + "PDF, " + size_words(file.bytes);
}

/// `on` tells files apart for who hears the page: " on A4".
std::string offered(const OfferedFile& file, const std::string& on) {
  std::string html = fmt::format(
      "<li><a href=\"{}\"><span class=\"what\">{}<span class=\"heard\">{}</span></span> "
      "<span class=\"size\">{}</span></a>",
      address(file.path), escaped_for_xml(file.what), escaped_for_xml(on), file_facts(file));
  if (!file.note.empty()) html += "<p>" + escaped_for_xml(file.note) + "</p>";
  return html + "</li>\n";
}

std::string offered(const std::vector<OfferedFile>& files, const std::string& on) {
  std::string html = "<ul class=\"files\">\n";
  for (const OfferedFile& file : files) html += offered(file, on);
  return html + "</ul>\n";
}

std::string header(const SharePage& page) {
  std::string html = "<header>\n<div class=\"words\">\n<div class=\"dots\" aria-hidden=\"true\">";
  for (const std::string& colour : page.accents) {
    html += fmt::format("<i style=\"background:{}\"></i>", escaped_for_xml(colour));
  }
  html += fmt::format("</div>\n<h1>{}</h1>\n", escaped_for_xml(page.title));
  if (!page.subtitle.empty()) {
    html += fmt::format("<p class=\"subtitle\">{}</p>\n", escaped_for_xml(page.subtitle));
  }
  std::string by = page.author.empty() ? "" : "by " + page.author;
  if (!page.version.empty()) by += (by.empty() ? "version " : ", version ") + page.version;
  if (!by.empty()) html += fmt::format("<p class=\"by\">{}</p>\n", escaped_for_xml(by));
  html += "<p><a class=\"go\" href=\"#print\">Print it yourself</a></p>\n</div>\n";
  if (!page.cover.path.empty()) html += picture(page.cover, " class=\"cover\"") + "\n";
  return html + "</header>\n";
}

std::string papers(const SharePage& page) {
  std::string html =
      "<p>Take the paper that your printer has. Begin with <strong>Read me first</strong>: one "
      "page that saves you a spoilt sheet.</p>\n<div class=\"papers\">\n";
  for (const OfferedPaper& paper : page.papers) {
    html += fmt::format(
        "<article aria-labelledby=\"paper-{0}\">\n<h3 id=\"paper-{0}\">{0}</h3>\n"
        "<p class=\"where\">{1}</p>\n{2}</article>\n",
        escaped_for_xml(paper.name), escaped_for_xml(paper.where),
        offered(paper.files, " on " + paper.name));
  }
  html += "</div>\n";
  if (!page.others.empty()) html += "<h3>On any paper</h3>\n" + offered(page.others, "");
  return section("print", "Print it", html);
}

std::string inks(const SharePage& page) {
  if (page.low_ink.empty()) return {};
  std::string html = fmt::format("<p>{}</p>\n", escaped_for_xml(page.ink_words));
  const auto row = [&](const char* words, const std::vector<ShownPicture>& pictures) {
    html += fmt::format("<figure><div class=\"cards\">");
    for (const ShownPicture& each : pictures) html += picture(each, " loading=\"lazy\"");
    html += fmt::format("</div><figcaption>{}</figcaption></figure>\n", words);
  };
  html += "<div class=\"inks\">\n";
  row("Full colour", page.full_colour);
  row("Low ink", page.low_ink);
  return section("inks", "Full colour or low ink", html + "</div>\n");
}

std::string mat(const SharePage& page) {
  if (page.mat.path.empty()) return {};
  return section("mat", "The mat",
                 fmt::format("<a href=\"{}\">{}</a>\n", address(page.mat.path),
                             picture(page.mat, " class=\"sheet\" loading=\"lazy\"")));
}

std::string cards(const SharePage& page) {
  std::string html;
  for (const ShownPicture& sheet : page.all_cards) {
    html += fmt::format("<a href=\"{}\">{}</a>\n", address(sheet.path),
                        picture(sheet, " class=\"sheet\" loading=\"lazy\""));
  }
  return html.empty() ? html : section("cards", "All the cards", html);
}

std::string changes(const SharePage& page) {
  if (page.changes.empty()) return {};
  const std::string since = page.since.empty() ? "the earlier version" : "version " + page.since;
  return section("changes", "What changed",
                 fmt::format("<p>Since {}:</p>\n", escaped_for_xml(since)) + list(page.changes));
}

std::string footer(const SharePage& page) {
  std::string html = "<footer>\n";
  if (!page.licence.empty())
    html += "<p>Licence of the game: " + escaped_for_xml(page.licence) + ".</p>\n";
  const bool is_address =
      page.website.starts_with("https://") || page.website.starts_with("http://");
  if (is_address) {
    html += fmt::format("<p>More: <a href=\"{0}\" rel=\"noreferrer\">{0}</a></p>\n",
                        escaped_for_xml(page.website));
  }
  return html +
         "<p>Blades are sharp and small parts can be swallowed: mind the words of whoever made "
         "your "
         "tools, and the rules where you are.</p>\n</footer>\n";
}

}  // namespace

std::string size_words(std::size_t bytes) {
  if (bytes < 1'000'000) return fmt::format("{} kB", (bytes + 999) / 1000);
  return fmt::format("{:.1f} MB", static_cast<double>(bytes) / 1e6);
}

Bytes share_page(const SharePage& page) {
  std::string html = fmt::format(
      "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n<title>{}</title>\n<style>{}</style>\n"
      "</head>\n<body>\n",
      escaped_for_xml(page.title + (page.version.empty() ? "" : " " + page.version)), page_style);
  html += header(page) + "<main>\n";
  std::string inside = list(page.contents);
  if (!page.left_out.empty()) inside += "<p>Not in this share:</p>\n" + list(page.left_out);
  html += section("contents", "What it is", inside);
  html += changes(page) + papers(page) + inks(page) + cards(page) + mat(page);
  if (!page.credits.empty()) html += section("credits", "Who made what", list(page.credits));
  return html + "</main>\n" + footer(page) + "</body>\n</html>\n";
}

}  // namespace quoin::pack
