#include <fmt/format.h>

#include "game/reading.h"
#include "game/section.h"
#include "game/size_check.h"
#include "game/words.h"

namespace quoin::game {
namespace {

Diagnostic impossible(Size size, const Origin& where) {
  Diagnostic problem(
      Id::mat_impossible_size, where,
      fmt::format("the mat is {} x {} mm; each side can be {} to {} mm",
                  number_text(size.width.value), number_text(size.height.value),
                  number_text(smallest_mat_side.value), number_text(largest_mat_side.value)));
  return problem.hint("write size = \"A2\", or width and height in mm: \"600x400\"");
}

/// Sizes with a name lie as `orientation` says; others as they are written, unless it is given.
void read_mat_size(Reading& reading, const Section& section, MatWishes& mat) {
  const std::string name = section.text("size");
  const Origin where = mat.place("size");
  const std::optional<NamedSize> size = find_size(name, paper_sizes());
  if (!size) {
    reading.found.add(unknown_size(name, where, paper_sizes()));
    return;
  }
  const auto possible = [](Mm side) {
    return side >= smallest_mat_side && side <= largest_mat_side;
  };
  if (!possible(size->size.width) || !possible(size->size.height)) {
    reading.found.add(impossible(size->size, where));
    return;
  }
  mat.size = size->size;
  mat.size_name = std::string(size->name);
  if (size->name.empty() && !section.has("orientation")) return;
  const bool upright = section.text("orientation") == "portrait";
  if (upright != (mat.size.height > mat.size.width)) mat.size = turned(mat.size);
}

void read_cloth(const Section& section, MatWishes& mat) {
  mat.material = MatMaterial::cloth;
  mat.hem = section.length("hem");
  const Node shrinkage = section.value("shrinkage");
  mat.shrink_across = *shrinkage.list()->at(0).number() / 100;
  mat.shrink_down = *shrinkage.list()->at(1).number() / 100;
}

}  // namespace

void read_mat(Reading& reading, const Table& settings) {
  const Node* whole = find(settings, "mat");
  if (!whole || !whole->table()) return;
  const Section section("mat", whole->table());
  MatWishes mat;
  mat.origin = whole->origin;
  for (const PropertyFacts& facts : keys_of("mat")) {
    if (section.has(facts.key)) mat.places.emplace(facts.key, section.origin(facts.key));
  }
  read_mat_size(reading, section, mat);
  if (section.text("material") == "cloth") read_cloth(section, mat);
  mat.bleed = section.length_if_given("bleed");
  mat.safe = section.length("safe");
  mat.viewing_distance = section.length("viewing-distance");
  mat.overlap = section.length("overlap");
  mat.layout = section.text("layout");
  reading.game.mat = std::move(mat);
}

}  // namespace quoin::game
