#include "media/pictures/svg_links.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

#include "media/pictures/limits.h"
#include "media/pictures/svg_css.h"
#include "media/pictures/svg_inline.h"

namespace quoin::pictures {
namespace {

/// Attributes whose value may be url(…) (SVG 2, property index).
bool may_hold_address(std::string_view attribute) {
  static const std::set<std::string_view> names = {
      "clip-path",  "color-profile", "cursor",       "fill", "filter", "marker",
      "marker-end", "marker-mid",    "marker-start", "mask", "stroke", "style"};
  return names.contains(attribute);
}

bool shows_pictures(const SvgElement& element) {
  return element.name == "image" || element.name == "feImage";
}

/// A long address as far as a maker needs to see it.
std::string shortened(std::string_view address) {
  constexpr std::size_t most = 60;
  if (address.size() <= most) return std::string(address);
  std::size_t end = most;
  while (end > 0 && (static_cast<unsigned char>(address[end]) & 0xc0) == 0x80) --end;
  return std::string(address.substr(0, end)) + "…";
}

class Linker {
 public:
  Linker(const SourceFile& file, const Surroundings& around, Nesting& nesting, Diagnostics& remarks)
      : file_(file), inliner_(file, around, nesting), remarks_(remarks) {}

  Outcome link(SvgTree& tree) {
    for (const auto& [line, what] : tree.outer_requests) will_not_load(line, what, not_followed);
    visit(*tree.root);
    remove_empty(*tree.root);
    if (!failed_.empty()) return failed_;
    return Done{};
  }

 private:
  static constexpr std::string_view not_followed = "only pictures are brought in";

  void will_not_load(int line, std::string_view address, std::string_view reason) {
    const SourceFile at_line{fmt::format("{}:{}", file_.path, line), {}};
    remarks_.push_back(
        about(Id::picture_svg_will_not_load, at_line,
              fmt::format("asks for {}, which will not load: {}", shortened(address), reason))
            .hint("draw that part in the SVG itself, or put the picture into the "
                  "game folder and refer to it by a relative path"));
  }

  void visit(SvgElement& element) {
    if (!failed_.empty()) return;
    clean_styles(element);
    link_href(element);
    for (SvgChild& child : element.children) {
      if (child.element != nullptr) visit(*child.element);
    }
  }

  [[nodiscard]] StyleRequests requests(int line) {
    return {[this, line](std::string_view address) {
              if (address.starts_with('#')) return true;
              will_not_load(line, address, "a drawing can use only its own parts here");
              return false;
            },
            [this, line](std::string_view keyword, std::string_view rule) {
              left_out(line, keyword, rule);
            }};
  }

  void left_out(int line, std::string_view keyword, std::string_view rule) {
    if (keyword == "@charset" || keyword == "@namespace") return;
    if (keyword == "@import") return will_not_load(line, rule, not_followed);
    if (keyword == "@font-face") {
      return will_not_load(line, "a font (@font-face)", "fonts come from the game's own list");
    }
    const SourceFile at_line{fmt::format("{}:{}", file_.path, line), {}};
    remarks_.push_back(about(Id::picture_svg_taken_out, at_line,
                             fmt::format("holds the style rule {}; it was taken out", keyword)));
  }

  void clean_styles(SvgElement& element) {
    const StyleRequests wanted = requests(element.line);
    for (SvgAttribute& a : element.attributes) {
      const bool has_address = a.value.find_first_of("(\\@") != a.value.npos;
      if (has_address && may_hold_address(a.name)) a.value = clean_css(a.value, wanted);
    }
    if (element.name != "style") return;
    for (SvgChild& child : element.children) child.text = clean_css(child.text, wanted);
  }

  void link_href(SvgElement& element) {
    const std::string* found = element.href();
    if (found == nullptr) return;
    const std::string href = *found;
    element.remove("href");
    element.remove("xlink:href");
    if (href.starts_with('#')) {
      element.set("xlink:href", href);
    } else if (shows_pictures(element)) {
      bring_in(element, href);
    } else if (element.name != "a" && !href.empty()) {
      will_not_load(element.line, href, "a drawing can use only its own parts here");
    }
  }

  void bring_in(SvgElement& element, const std::string& href) {
    Result<Inlined> inlined = inliner_.inline_picture(href, element.line);
    if (!inlined) {
      failed_ = inlined.why();
      return;
    }
    if (!inlined->address.empty()) {
      element.set("xlink:href", std::move(inlined->address));
      remarks_.insert(remarks_.end(), inlined->remarks.begin(), inlined->remarks.end());
      return;
    }
    will_not_load(element.line, href.starts_with("data:") ? "a picture inside itself" : href,
                  inlined->why_not);
    for (const Diagnostic& d : inlined->remarks) remarks_.back().detail(d.message);
  }

  /// Elements that show nothing without what they referred to.
  static void remove_empty(SvgElement& element) {
    std::erase_if(element.children, [](const SvgChild& child) {
      if (child.element == nullptr || child.element->href() != nullptr) return false;
      const std::string& name = child.element->name;
      return name == "image" || name == "use" || name == "tref";
    });
    for (SvgChild& child : element.children) {
      if (child.element != nullptr) remove_empty(*child.element);
    }
  }

  const SourceFile& file_;
  Inliner inliner_;
  Diagnostics& remarks_;
  Diagnostics failed_;
};

}  // namespace

Outcome bring_in_links(const SourceFile& file, SvgTree& tree, const Surroundings& around,
                       Nesting& nesting, Diagnostics& remarks) {
  return Linker(file, around, nesting, remarks).link(tree);
}

std::vector<std::string> ids_in(std::string_view style) {
  std::vector<std::string> ids;
  if (style.find('(') == style.npos) return ids;
  const StyleRequests requests{[&](std::string_view address) {
                                 if (address.starts_with('#')) ids.emplace_back(address.substr(1));
                                 return true;
                               },
                               [](std::string_view, std::string_view) {}};
  (void)clean_css(style, requests);
  return ids;
}

}  // namespace quoin::pictures
