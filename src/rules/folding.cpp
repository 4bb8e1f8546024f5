#include "rules/folding.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scene/setting.h"
#include "scene/shapes.h"

namespace quoin::rules {
namespace {

using fold::Rigid;
using fold::Vec3;

constexpr Colour sheet_paper{0.995, 0.99, 0.975, 1}, grey_line{0.72, 0.74, 0.76, 1},
    number_ink{0.13, 0.28, 0.36, 1}, fold_ink{0.30, 0.50, 0.62, 1}, slit_ink{0.78, 0.16, 0.13, 1},
    moving{0.84, 0.93, 0.95, 1};

const Rigid lies_face_up{{1, 0, 0, 0, 0, 1, 0, -1, 0}, {}};
const Rigid lies_face_down{{-1, 0, 0, 0, 0, -1, 0, -1, 0}, {}};
const Rigid stands{};

/// A page as a picture shows it: its number over lines that stand for text.
std::vector<Item> sketch(Size page, int number, Typesetter& typesetter) {
  std::vector<Item> items;
  const Mm margin = page.width * 0.14;
  TextStyle style;
  style.family = house_family;
  style.weight = 700;
  style.type_size = style.smallest_size = page.width * 0.36;
  style.fill = Paint{number_ink};
  style.align = TextAlign::centre;
  Setting setting(typesetter);
  SetWords words =
      setting.set({{std::to_string(number + 1), false, false, nullptr}}, style, page.width);
  items.push_back(moved(std::move(words.item), {Mm{}, page.height * 0.12}));
  Path path;
  constexpr int lines = 7;
  for (int i = 0; i < lines; ++i) {
    const Mm y = page.height * (0.58 + 0.05 * i);
    const Mm right = i == lines - 1 ? page.width * 0.6 : page.width - margin;
    path.move_to({margin, y}).line_to({right, y});
  }
  items.push_back(line(std::move(path), grey_line, page.width * 0.018));
  return items;
}

/// Puts a page on the side of its leaf.
Item on_leaf(const PagePlace& place, Size page, std::vector<Item> items) {
  Item all;
  Affine map;
  if (place.way == PagePlace::Way::upside_down) {
    map = Affine::turn_about({page.width / 2, page.height / 2}, Angle::degrees(180));
  }
  all.map = then(map, Affine::move(place.at.at - Point{}));
  all.what = GroupItem{std::move(items)};
  return all;
}

/// What a step shows on the open paper besides the pages.
enum class Marked { nothing, folds, slit };

std::vector<pieces::NetArt> art_of(const Form& form, Typesetter& typesetter, Marked marked) {
  std::vector<pieces::NetArt> art(static_cast<std::size_t>(form.leaves));
  const Rect whole = grown(Rect{{}, form.leaf}, Mm{1});
  constexpr Affine turned_over{-1, 0, 0, 1, {}, {}};
  for (pieces::NetArt& one : art) {
    one.printed.items.push_back(shape(Path::rectangle(whole), sheet_paper));
    one.inside.items.push_back(shape(mapped(Path::rectangle(whole), turned_over), sheet_paper));
  }
  for (int i = 0; i < form.page_count(); ++i) {
    const PagePlace& place = form.pages[static_cast<std::size_t>(i)];
    Item item = on_leaf(place, form.page, sketch(form.page, i, typesetter));
    pieces::NetArt& one = art[static_cast<std::size_t>(place.leaf)];
    if (place.side == PagePlace::Side::front) {
      one.printed.items.push_back(std::move(item));
    } else {
      // The inside has its (x, y) behind (-x, y) of the front.
      one.inside.items.push_back(moved(std::move(item), {-form.leaf.width, Mm{}}));
    }
  }
  const Mm thick = form.page.width * 0.02;
  for (pieces::NetArt& one : art) {
    for (const FoldLine& fold_line : form.folds) {
      Path path;
      path.move_to(fold_line.from).line_to(fold_line.to);
      Item drawn = line(path, fold_ink, marked == Marked::folds ? thick : thick * 0.4,
                        {thick * 3.0, thick * 2.0});
      Item behind = drawn;
      std::get<ShapeItem>(behind.what).path = mapped(path, turned_over);
      one.printed.items.push_back(std::move(drawn));
      one.inside.items.push_back(std::move(behind));
    }
    if (marked != Marked::slit || !form.slit) continue;
    Path path;
    path.move_to(form.slit->from).line_to(form.slit->to);
    one.printed.items.push_back(line(std::move(path), slit_ink, thick * 1.6));
  }
  return art;
}

pieces::Stage stage_at(const Form& form, double progress, const Rigid& stance,
                       const fold::View& view) {
  pieces::Stage stage;
  stage.view = view;
  const auto places = fold::pose(form.model, progress);
  for (std::size_t part = 0; part < places.size(); ++part) {
    pieces::StagedNet net{static_cast<int>(part), form.model.parts[part].net, places[part]};
    for (Rigid& place : net.places) {
      // Two panels that lie in one plane, back to back, each go half a thickness to the print.
      const bool back_to_back = form.kind == game::RulesForm::eight_pages;
      const double out = back_to_back ? form.model.parts[part].net.thickness.value / 2 : 0;
      place.move = place.move - place.normal() * out;
      place = fold::placed_in(stance, place);
    }
    stage.nets.push_back(std::move(net));
  }
  return stage;
}

pieces::BoxPicture shown(const Form& form, double progress, const Rigid& stance, Angle round,
                         Angle above, const std::vector<pieces::NetArt>& art) {
  const pieces::Stage stage = stage_at(form, progress, stance, fold::view_from(round, above));
  return pieces::drawn(
      stage, pieces::StageLook{art, nullptr, Mm{}, Mm{}, pieces::StageLook::Ground::faint_shadow});
}

/// How the paper is held while a step is done, and from where it is seen.
struct Held {
  const Rigid* stance;
  double round, above;
};
Held held_in(const Form& form, int step) {
  if (form.kind == game::RulesForm::eight_pages) {
    return step == 0 ? Held{&stands, 24, 30} : Held{&stands, 20, 46};
  }
  if (form.kind == game::RulesForm::accordion) return {&stands, 24, 34};
  return {&lies_face_down, 20, 44};
}

}  // namespace

std::vector<FoldingStep> folding_steps(const Form& form, Typesetter& typesetter) {
  std::vector<FoldingStep> steps;
  if (form.folds.empty()) return steps;
  const auto flat = [&](Marked marked) {
    const auto art = art_of(form, typesetter, marked);
    return shown(form, 0, lies_face_up, Angle::degrees(14), Angle::degrees(56), art);
  };
  const bool slit = form.slit.has_value();
  if (form.kind != game::RulesForm::booklet) {
    steps.push_back({form.folds.size() == 1
                         ? "crease the line between the ticks with something blunt"
                         : "crease every line between two ticks with something blunt, fold it "
                           "sharply both ways, and open it again",
                     flat(Marked::folds)});
  }
  if (slit) {
    steps.push_back({"cut the slit along the dashed line, from fold to fold and no further",
                     flat(Marked::slit)});
  }
  const auto plain = art_of(form, typesetter, Marked::nothing);
  const int count = static_cast<int>(form.model.steps.size());
  for (int i = 0; i < count; ++i) {
    const Held held = held_in(form, i);
    const double moment = form.kind == game::RulesForm::booklet && i == 0 ? 0.4 : i + 0.6;
    steps.push_back({form.model.steps[static_cast<std::size_t>(i)].words,
                     shown(form, moment, *held.stance, Angle::degrees(held.round),
                           Angle::degrees(held.above), plain)});
  }
  if (form.kind == game::RulesForm::booklet) {
    steps.push_back(
        {"open it in the middle and stitch it in the fold: two staples, or thread "
         "through three holes",
         shown(form, 1.35, lies_face_down, Angle::degrees(20), Angle::degrees(44), plain)});
  }
  steps.push_back(
      {"press it flat: page 1 is in front",
       shown(form, count, lies_face_up, Angle::degrees(14), Angle::degrees(56), plain)});
  return steps;
}

std::vector<ReadPage> read_folded(const Form& form) {
  const auto places = fold::pose(form.model, static_cast<double>(form.model.steps.size()));
  struct Face {
    double depth = 0;  // of the middle of the panel, away from the reader
    int facing = 0;    // 0: towards the reader, 1: away
    ReadPage read;
  };
  std::vector<Face> faces;
  for (std::size_t leaf = 0; leaf < places.size(); ++leaf) {
    const fold::Net& net = form.model.parts[leaf].net;
    for (std::size_t panel = 0; panel < net.panels.size(); ++panel) {
      const Rigid& at = places[leaf][panel];
      const Vec3 middle = at(fold::lifted(centroid(net.panels[panel].outline)));
      for (const PagePlace::Side side : {PagePlace::Side::front, PagePlace::Side::back}) {
        // The printed side looks to where its normal does not point.
        const double away = at.normal().z * (side == PagePlace::Side::front ? -1 : 1);
        Face face{middle.z, away < 0 ? 0 : 1, {}};
        for (int i = 0; i < form.page_count(); ++i) {
          const PagePlace& page = form.pages[static_cast<std::size_t>(i)];
          const bool here = page.leaf == static_cast<int>(leaf) && page.side == side &&
                            page.panel == static_cast<int>(panel);
          if (!here) continue;
          const double up = page.way == PagePlace::Way::upright ? -1 : 1;
          face.read = {i, -at.turned({0, up, 0}).y};
        }
        faces.push_back(face);
      }
    }
  }
  std::sort(faces.begin(), faces.end(), [](const Face& a, const Face& b) {
    if (std::abs(a.depth - b.depth) > 1e-6) return a.depth < b.depth;
    return a.facing < b.facing;
  });
  std::vector<ReadPage> read;
  for (const Face& face : faces) read.push_back(face.read);
  return read;
}

}  // namespace quoin::rules
