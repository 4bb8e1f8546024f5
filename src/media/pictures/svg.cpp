#include "media/pictures/svg.h"

#include <fmt/format.h>

#include "media/pictures/limits.h"
#include "media/pictures/svg_clean.h"
#include "media/pictures/svg_cost.h"
#include "media/pictures/svg_links.h"
#include "media/pictures/svg_render.h"
#include "media/pictures/svg_tree.h"
#include "media/pictures/svg_trial.h"

namespace quoin::pictures {
namespace {

Diagnostic has_text(const SourceFile& file) {
  return about(Id::picture_svg_has_text, file,
               "holds text, which is set in the fonts of the game when it is printed")
      .hint("convert the text to outlines, or put its font into the game's fonts");
}

Outcome try_if_heavy(const SourceFile& file, const SvgCost& cost, const Bytes& svg,
                     ImageCache* cache) {
  if (cost.is_plain()) return Done{};
  const Trial trial = try_drawing(svg, cache);
  if (trial == Trial::draws) return Done{};
  return about(Id::picture_svg_too_heavy, file,
               trial == Trial::gives_up ? "is too much for the renderer, which gave up on it"
                                        : "takes more than 3 seconds or 1 GiB to draw 800 px of it")
      .hint("simplify the drawing, or save it as a PNG at 600 px an inch of its printed size");
}

std::string px(double value) { return fmt::format("{:.6g}", value); }

/// Fills in what the root leaves to guess, so that the drawing scales whoever draws it.
void complete_root(SvgElement& root, const NaturalSize& size) {
  if (!size.has_view_box) {
    root.set("viewBox", fmt::format("0 0 {} {}", px(size.width), px(size.height)));
  }
  root.set("width", px(size.width));
  root.set("height", px(size.height));
}

Result<FirstLook> finish(const SourceFile& file, SvgTree& tree, const Bytes& svg,
                         Diagnostics remarks) {
  std::string error;
  const std::optional<NaturalSize> size = natural_size(svg, error);
  if (!size) return damaged(file, "the renderer cannot read it").detail("it says: " + error);
  if (size->width <= 0) {
    return about(Id::picture_svg_no_size, file, "does not say how wide and high it is")
        .hint("give its <svg> a viewBox, such as viewBox=\"0 0 100 100\"");
  }
  complete_root(*tree.root, *size);
  FirstLook look;
  look.facts.format = PictureFormat::svg;
  look.facts.width = size->width;
  look.facts.height = size->height;
  look.facts.has_alpha = true;
  look.remarks = std::move(remarks);
  look.safe_svg = write_svg(*tree.root);
  return look;
}

}  // namespace

Result<FirstLook> look_at_svg(const SourceFile& file, const Surroundings& around,
                              Nesting& nesting) {
  Result<SvgTree> tree = read_svg_tree(file);
  if (!tree) return std::move(tree).why();
  Diagnostics remarks;
  clean(file, *tree->root, remarks);
  Outcome linked = bring_in_links(file, *tree, around, nesting, remarks);
  if (!linked) return std::move(linked).why();
  const Result<SvgCost> cost = cost_of(file, *tree);
  if (!cost) return cost.why();
  const Bytes svg = write_svg(*tree->root);
  if (svg.size() > largest_safe_svg) {
    return about(Id::picture_too_large, file,
                 fmt::format("has {} bytes with all that it brings in; {} are drawn at most",
                             svg.size(), largest_safe_svg))
        .hint("bring pictures in smaller, or place them on the card by themselves");
  }
  Outcome tried = try_if_heavy(file, *cost, svg, around.cache);
  if (!tried) return std::move(tried).why();
  if (cost->has_text) remarks.push_back(has_text(file));
  return finish(file, *tree, svg, std::move(remarks));
}

}  // namespace quoin::pictures
