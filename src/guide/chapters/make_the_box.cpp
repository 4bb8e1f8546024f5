#include <fmt/format.h>

#include "guide/chapters/wording.h"
#include "guide/figures/figures.h"
#include "making/hand_work.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

bool has_lines_on_back(const Making& making) {
  return making.box.sheets->lines == game::NetLines::back;
}

std::string net_title(const fold::Net& net) { return net.name; }

void add_printing(Chapter& chapter, const Making& making) {
  const int count = making.box.sheets->count();
  chapter.blocks.push_back(Heading{"Print"});
  TickList list;
  list.items.push_back(
      fmt::format("**{}** on plain paper first, at **100 %**. The bar at its "
                  "foot is 100 mm long. Fold it up without glue, and try the deck in it.",
                  making.files.box));
  list.items.push_back(fmt::format("Then on board: {}, {} of {}.", board_stock_words(making.game),
                                   sheets::counted(count, "sheet"),
                                   as_words(making.plan.wishes.paper_name)));
  list.items.push_back(
      "Your printer does not take board so heavy? Print on paper, and glue that to the "
      "board before you score.");
  list.items.push_back(
      "The board bends more easily round its grain. Let the grain run round the box: "
      "from left to right on an upright net.");
  chapter.blocks.push_back(std::move(list));
  Figure sheet = box_sheet(making);
  if (sheet.size.width > Mm{}) {
    Steps beside;
    beside.across = 1;
    beside.numbers = Steps::Numbers::plain;
    beside.steps.push_back(
        {has_lines_on_back(making)
             ? "The printed side. All lines are on the other one."
             : "Short ticks stand in line with the creases; the thin line runs round the outside "
               "of the box.",
         std::move(sheet)});
    chapter.blocks.push_back(std::move(beside));
  }
}

void add_scoring(Chapter& chapter, const Making& making) {
  const fold::Model& model = making.box.box->model;
  std::size_t creases = 0;
  for (const fold::Part& part : model.parts) creases += part.net.hinges.size();
  chapter.blocks.push_back(Heading{"Score"});
  chapter.blocks.push_back(Paragraph{fmt::format(
      "Score before you cut: the sheet is still square and easy to hold. There are {} creases. Lay "
      "the "
      "rule {}, and run something blunt along it, twice, with some force.",
      creases,
      has_lines_on_back(making) ? "along each dashed line on the back" : "from tick to tick")});
  Steps ways;
  ways.across = 3;
  ways.numbers = Steps::Numbers::plain;
  const double board = making.box.box->plan.board.value;
  ways.steps.push_back(
      {"**Pressed.** A blunt point makes a groove, and nothing is cut. This is the "
       "better way.",
       crease_section(Crease::pressed)});
  ways.steps.push_back(
      {fmt::format(
           "**Half cut.** For thick board: a light cut, about {:.2f} mm deep in your board of "
           "{:.2f} mm. Try it on waste first.",
           board / 2, board),
       crease_section(Crease::half_cut)});
  ways.steps.push_back({"**Folded.** Away from the groove: it lies outside, and the bead inside.",
                        crease_section(Crease::folded)});
  chapter.blocks.push_back(std::move(ways));
}

/// The nets with what is meant on them, side by side.
void add_nets(Chapter& chapter, const Making& making, NetShows shows) {
  Steps nets;
  nets.numbers = Steps::Numbers::plain;
  const std::vector<fold::Part>& parts = making.box.box->model.parts;
  for (std::size_t net = 0; net < parts.size(); ++net) {
    const std::string name =
        parts.size() == 1 ? std::string() : sentence("the " + net_title(parts[net].net));
    nets.steps.push_back({name, box_net(making.box, net, shows)});
  }
  chapter.blocks.push_back(std::move(nets));
}

void add_creases_and_cuts(Chapter& chapter, const Making& making) {
  const std::vector<fold::Part>& parts = making.box.box->model.parts;
  if (parts.size() > 1) {
    add_nets(chapter, making, NetShows::creases);
    chapter.blocks.push_back(Heading{"Cut"});
    chapter.blocks.push_back(
        Paragraph{"Cut on the side of the box, so that the printed line falls away. Slits go "
                  "first, the outline "
                  "last."});
    add_nets(chapter, making, NetShows::cuts);
    return;
  }
  Steps both;
  both.numbers = Steps::Numbers::plain;
  both.steps.push_back({"**Score** all of these.", box_net(making.box, 0, NetShows::creases)});
  both.steps.push_back(
      {"Then **cut** round it, on the side of the box, so that the printed line falls "
       "away. Short slits go first, the outline last.",
       box_net(making.box, 0, NetShows::cuts)});
  chapter.blocks.push_back(Heading{"What is scored, and what is cut"});
  chapter.blocks.push_back(std::move(both));
}

void add_gluing(Chapter& chapter, const Making& making) {
  const fold::Model& model = making.box.box->model;
  std::size_t areas = 0;
  for (const fold::Part& part : model.parts) areas += part.net.glue.size();
  if (areas == 0) return;
  chapter.blocks.push_back(Heading{"Glue"});
  const std::string words = fmt::format(
      "Glue goes on {}, on the printed side. Spread it thin and right to the edges, press the "
      "parts "
      "together and hold them for **two minutes**. Leave the box alone for half an hour before you "
      "close it; white glue is hard after a day.",
      areas == 1 ? "the hatched flap" : fmt::format("the {} hatched flaps", areas));
  if (model.parts.size() == 1) {
    Steps beside;
    beside.across = 1;
    beside.numbers = Steps::Numbers::plain;
    beside.steps.push_back({words, box_net(making.box, 0, NetShows::glue)});
    chapter.blocks.push_back(std::move(beside));
  } else {
    chapter.blocks.push_back(Paragraph{words});
    add_nets(chapter, making, NetShows::glue);
  }
  chapter.blocks.push_back(Caution{"Glue", making::glue_cautions()});
}

void add_folding_steps(Chapter& chapter, const Making& making) {
  const fold::Model& model = making.box.box->model;
  chapter.blocks.push_back(Heading{"Fold"});
  chapter.blocks.push_back(
      Paragraph{"Fold every crease once, sharply, and open it again. Then go on in this order. "
                "What moves in a "
                "picture is blue; the hatched places are those for the glue."});
  Steps steps;
  for (std::size_t i = 0; i < model.steps.size(); ++i) {
    steps.steps.push_back({sentence(model.steps[i].words), fold_step(making, i)});
  }
  steps.steps.push_back({"Done: the box with its deck.", finished_box(making)});
  chapter.blocks.push_back(std::move(steps));
}

}  // namespace

Chapter make_the_box(const Making& making) {
  Chapter chapter;
  if (making.box.box == nullptr) return chapter;
  const pieces::Box& box = *making.box.box;
  chapter.title = fmt::format("Make the box: {}", box.kind->title);
  chapter.opening = Chapter::Opening::here;
  chapter.blocks.push_back(
      Paragraph{fmt::format("It is made for a pile {:.1f} mm high and has {:.1f} x {:.1f} x {:.1f} "
                            "mm of room inside, measured "
                            "on the folded box.",
                            box.deck.height.typical.value, box.fit.clear.size.width.value,
                            box.fit.clear.size.height.value, box.fit.clear.size.depth.value)});
  add_printing(chapter, making);
  add_scoring(chapter, making);
  add_creases_and_cuts(chapter, making);
  add_gluing(chapter, making);
  add_folding_steps(chapter, making);
  return chapter;
}

}  // namespace quoin::guide
