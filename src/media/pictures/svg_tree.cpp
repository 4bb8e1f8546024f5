#include "media/pictures/svg_tree.h"

#include <algorithm>

namespace quoin::pictures {
namespace {

void write_escaped(Bytes& out, std::string_view text) {
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\n':
        out += "&#10;";
        break;
      case '\r':
        out += "&#13;";
        break;
      case '\t':
        out += "&#9;";
        break;
      default:
        out += c;
    }
  }
}

void write_element(Bytes& out, const SvgElement& element, bool is_root) {
  out += '<';
  out += element.name;
  if (is_root) {
    out += " xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\"";
  }
  for (const SvgAttribute& attribute : element.attributes) {
    out += ' ';
    out += attribute.name;
    out += "=\"";
    write_escaped(out, attribute.value);
    out += '"';
  }
  if (element.children.empty()) {
    out += "/>";
    return;
  }
  out += '>';
  for (const SvgChild& child : element.children) {
    if (child.element != nullptr)
      write_element(out, *child.element, false);
    else
      write_escaped(out, child.text);
  }
  out += "</" + element.name + ">";
}

}  // namespace

const std::string* SvgElement::attribute(std::string_view wanted) const {
  for (const SvgAttribute& a : attributes) {
    if (a.name == wanted) return &a.value;
  }
  return nullptr;
}

void SvgElement::set(std::string_view attribute_name, std::string value) {
  for (SvgAttribute& a : attributes) {
    if (a.name != attribute_name) continue;
    a.value = std::move(value);
    return;
  }
  attributes.push_back({std::string(attribute_name), std::move(value)});
}

void SvgElement::remove(std::string_view attribute_name) {
  std::erase_if(attributes, [&](const SvgAttribute& a) { return a.name == attribute_name; });
}

const std::string* SvgElement::href() const {
  const std::string* plain = attribute("href");
  return plain != nullptr ? plain : attribute("xlink:href");
}

Bytes write_svg(const SvgElement& root) {
  Bytes out;
  write_element(out, root, true);
  out += '\n';
  return out;
}

void for_each_element(const SvgElement& element,
                      const std::function<void(const SvgElement&)>& visit) {
  visit(element);
  for (const SvgChild& child : element.children) {
    if (child.element != nullptr) for_each_element(*child.element, visit);
  }
}

}  // namespace quoin::pictures
