#include "media/pictures/svg_samples.h"

#include <stdexcept>

namespace quoin::pictures {
namespace {

std::string told(const Diagnostic& d) {
  std::string text = std::string(facts(d.id).name) + ": " + d.message;
  for (const std::string& line : d.details) text += "\n  " + line;
  return text;
}

Result<FirstLook> look_in(const std::string& text, const World& world) {
  Nesting nesting{{"art/a.svg"}};
  return look_at_svg({"art/a.svg", text}, {world}, nesting);
}

}  // namespace

std::string svg_with(const std::string& content) {
  return "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' "
         "viewBox='0 0 9 9'>" +
         content + "</svg>";
}

SvgSample::SvgSample(std::string text, const World* world)
    : text_(std::move(text)),
      look_(world == nullptr ? look_in(text_, MemoryWorld()) : look_in(text_, *world)) {}

const FirstLook& SvgSample::look() const {
  if (!look_) throw std::logic_error("refused: " + refusal());
  return *look_;
}

std::vector<std::string> SvgSample::remarks() const {
  std::vector<std::string> texts;
  for (const Diagnostic& d : look().remarks) texts.push_back(told(d));
  return texts;
}

std::string SvgSample::refusal() const { return look_ ? "" : told(look_.why().front()); }

}  // namespace quoin::pictures
