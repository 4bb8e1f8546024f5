#include "media/pictures/svg_cost.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <unordered_map>

#include "media/pictures/limits.h"
#include "media/pictures/svg_links.h"

namespace quoin::pictures {
namespace {

/// Elements whose content is drawn only when something refers to them.
bool waits_to_be_used(std::string_view name) {
  return name == "defs" || name == "symbol" || name == "clipPath" || name == "mask" ||
         name == "pattern" || name == "marker" || name == "filter" || name == "linearGradient" ||
         name == "radialGradient";
}

constexpr int deepest_references = 512;  // elements and references, through all of them

std::int64_t sum(std::int64_t a, std::int64_t b) {
  constexpr std::int64_t plenty = 1'000'000'000'000;
  return std::min(plenty, a + b);
}
std::int64_t product(std::int64_t a, std::int64_t b) {
  constexpr std::int64_t plenty = 1'000'000;
  return std::min(plenty, a) * std::min(plenty, b);
}

/// Walks the graph of elements and references, each element once.
class Walk {
 public:
  explicit Walk(const SourceFile& file) : file_(file) {}

  void learn_ids(const SvgElement& root) {
    for_each_element(root, [&](const SvgElement& element) {
      if (const std::string* id = element.attribute("id")) by_id_.emplace(*id, &element);
    });
  }

  struct Known {
    std::int64_t cost = 0;
    int height = 0;
    bool is_open = true;  ///< being walked: meeting it again is a circle
  };

  /// Nothing when something was refused; then `refused` says why.
  const Known* walk(const SvgElement& element, int depth) {
    const auto [at, is_new] = known_.try_emplace(&element);
    if (!is_new && !at->second.is_open) return &at->second;
    if (!is_new) return refuse_circle(element);
    if (depth > deepest_references) return refuse_depth(element);
    Known sums{1, 0, false};
    for (const SvgChild& child : element.children) {
      if (child.element == nullptr) continue;
      const Known* below = walk(*child.element, depth + 1);
      if (below == nullptr) return nullptr;
      if (!waits_to_be_used(child.element->name)) sums.cost = sum(sums.cost, below->cost);
      sums.height = std::max(sums.height, below->height);
    }
    if (!follow_references(element, depth, sums)) return nullptr;
    if (++sums.height > deepest_references) return refuse_depth(element);
    return &(known_[&element] = sums);
  }

  [[nodiscard]] const Diagnostics& refused() const { return refused_; }

 private:
  bool follow_references(const SvgElement& element, int depth, Known& sums) {
    const auto follow = [&](const std::string& id, std::int64_t times) {
      const auto target = by_id_.find(id);
      if (target == by_id_.end()) return true;
      const Known* there = walk(*target->second, depth + 1);
      if (there == nullptr) return false;
      sums.cost = sum(sums.cost, product(there->cost, times));
      sums.height = std::max(sums.height, there->height);
      return true;
    };
    const std::string* href = element.href();
    if (href != nullptr && href->starts_with('#') && !follow(href->substr(1), 1)) return false;
    for (const SvgAttribute& a : element.attributes) {
      const bool at_each_corner = a.name.starts_with("marker") || a.name == "style";
      for (const std::string& id : ids_in(a.value)) {
        if (!follow(id, at_each_corner ? corners(element, id) : 1)) return false;
      }
    }
    return true;
  }

  /// How often a marker is drawn: about once for four bytes of an outline.
  [[nodiscard]] std::int64_t corners(const SvgElement& element, const std::string& id) const {
    const auto target = by_id_.find(id);
    if (target == by_id_.end() || target->second->name != "marker") return 1;
    std::size_t bytes = 0;
    for (const char* outline : {"d", "points"}) {
      if (const std::string* text = element.attribute(outline)) bytes += text->size();
    }
    return 2 + static_cast<std::int64_t>(bytes / 4);
  }

  const Known* refuse_circle(const SvgElement& element) {
    refused_.push_back(about(Id::picture_svg_circular, at_line(element),
                             fmt::format("draws <{}> inside itself", element.name))
                           .hint("take out the reference that leads back"));
    return nullptr;
  }
  const Known* refuse_depth(const SvgElement& element) {
    refused_.push_back(about(Id::picture_svg_too_heavy, at_line(element),
                             fmt::format("has references more than {} deep", deepest_references))
                           .hint("replace the chain of uses by what it draws"));
    return nullptr;
  }
  [[nodiscard]] SourceFile at_line(const SvgElement& element) const {
    return {fmt::format("{}:{}", file_.path, element.line), {}};
  }

  const SourceFile& file_;
  std::unordered_map<std::string, const SvgElement*> by_id_;
  std::unordered_map<const SvgElement*, Known> known_;
  Diagnostics refused_;
};

Diagnostic too_heavy(const SourceFile& file, std::string_view what) {
  return about(Id::picture_svg_too_heavy, file, what)
      .hint("simplify the drawing, or save it as a PNG at 600 px an inch of its printed size");
}

bool is_effect(const SvgElement& element) {
  const std::string& name = element.name;
  return name == "filter" || name == "mask" || name == "pattern" || name == "marker" ||
         name == "image" || element.attribute("stroke-dasharray") != nullptr;
}

std::int64_t size_of(const SvgElement& element, std::string_view attribute) {
  const std::string* value = element.attribute(attribute);
  return value == nullptr ? 0 : static_cast<std::int64_t>(value->size());
}

std::int64_t rules_in(const SvgElement& style) {
  std::int64_t rules = 0;
  for (const SvgChild& child : style.children) {
    // Each selector of a list, and each step of a selector, is looked at for each element.
    rules += std::count_if(child.text.begin(), child.text.end(),
                           [](char c) { return c == '{' || c == ',' || c == ' ' || c == '>'; });
  }
  return rules;
}

/// Sums that need no references followed.
void measure(const SvgTree& tree, SvgCost& cost) {
  std::int64_t rules = 0;
  for_each_element(*tree.root, [&](const SvgElement& element) {
    cost.path_bytes += size_of(element, "d") + size_of(element, "points");
    cost.has_effects = cost.has_effects || is_effect(element);
    cost.has_text = cost.has_text || element.name == "text";
    if (element.name == "style")
      rules += rules_in(element);
    else
      for (const SvgChild& child : element.children) cost.text_bytes += std::ssize(child.text);
    if (const std::string* style = element.attribute("style")) {
      cost.has_effects = cost.has_effects || style->find("dasharray") != style->npos;
    }
  });
  cost.style_work = rules * tree.element_count;
}

/// Effects are bounded by number; how long each takes is found by trying.
Outcome check_filters(const SourceFile& file, const SvgTree& tree) {
  std::int64_t uses = 0, most_steps = 0;
  for_each_element(*tree.root, [&](const SvgElement& element) {
    const std::string* style = element.attribute("style");
    if (element.attribute("filter") != nullptr ||
        (style != nullptr && style->find("filter") != style->npos)) {
      ++uses;
    }
    if (element.name == "filter") most_steps = std::max(most_steps, std::ssize(element.children));
  });
  if (uses > most_filter_uses) {
    return too_heavy(
        file, fmt::format("uses filters {} times; {} are drawn at most", uses, most_filter_uses));
  }
  if (most_steps > most_filter_steps) {
    return too_heavy(file, fmt::format("has a filter of {} steps; {} are drawn at most", most_steps,
                                       most_filter_steps));
  }
  return Done{};
}

}  // namespace

Result<SvgCost> cost_of(const SourceFile& file, const SvgTree& tree) {
  SvgCost cost;
  measure(tree, cost);
  Outcome filters = check_filters(file, tree);
  if (!filters) return std::move(filters).why();
  Walk walk(file);
  walk.learn_ids(*tree.root);
  const Walk::Known* root = walk.walk(*tree.root, 0);
  if (root == nullptr) return walk.refused();
  cost.drawn_elements = root->cost;
  if (cost.drawn_elements > most_drawn_elements) {
    return too_heavy(file, fmt::format("draws more than {} elements when each use is followed",
                                       most_drawn_elements));
  }
  return cost;
}

}  // namespace quoin::pictures
