#pragma once
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "media/pictures/source.h"

namespace quoin::pictures {

struct SvgAttribute {
  std::string name;  ///< "fill", "xlink:href", "xml:space"
  std::string value;
};

struct SvgElement;
/// What stands in an element: another element, or text when there is none.
struct SvgChild {
  std::unique_ptr<SvgElement> element;
  std::string text;
};

/// An element of the SVG namespace. Those of other namespaces are left out when the tree is made.
struct SvgElement {
  std::string name;
  int line = 0;
  std::vector<SvgAttribute> attributes;
  std::vector<SvgChild> children;

  [[nodiscard]] const std::string* attribute(std::string_view wanted) const;
  void set(std::string_view attribute_name, std::string value);
  void remove(std::string_view attribute_name);
  /// What it refers to by href, or null; `href` goes before `xlink:href`.
  [[nodiscard]] const std::string* href() const;
};

/// An SVG as a tree, at most 64,000 elements and 256 deep.
struct SvgTree {
  std::unique_ptr<SvgElement> root;
  int element_count = 0;
  /// Things outside the tree that ask for other files: (line, what).
  std::vector<std::pair<int, std::string>> outer_requests;
};

/// Reads the XML. Document types are skipped. Fails with `picture.damaged` (with the line),
/// `picture.too-large`, `picture.svg-entities`, `picture.unusual-storage` or, when the root is
/// something else, `picture.not-a-picture`.
[[nodiscard]] Result<SvgTree> read_svg_tree(const SourceFile& file);

/// The tree as XML in UTF-8, which depends on the tree alone.
[[nodiscard]] Bytes write_svg(const SvgElement& root);

/// Calls `visit` for the element and all below it, parents first.
void for_each_element(const SvgElement& element,
                      const std::function<void(const SvgElement&)>& visit);

}  // namespace quoin::pictures
