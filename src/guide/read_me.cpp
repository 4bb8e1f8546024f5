#include "guide/read_me.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "guide/chapters/wording.h"
#include "guide/figures/figures.h"
#include "guide/slab.h"
#include "sheets/printable.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

/// A page that is filled by hand, place by place.
class Sheet {
 public:
  Sheet(Size paper, Typesetter& typesetter) : look(look_for(paper)), setting_(typesetter) {
    page.media = paper;
    page.label = "1";
  }

  /// Words at a place of the column; how high they are.
  Mm words(const std::string& text, const TextStyle& style, Rect at) {
    if (text.empty()) return {};
    SetWords set = setting_.set(text, style, at.size.width);
    put_item(std::move(set.item), at.at);
    return set.height;
  }

  void put_item(Item item, Point at) {
    page.own.items.push_back(moved(std::move(item), at - Point{} + corner()));
  }

  /// In the middle of the room; how high it is drawn.
  Mm figure(const Figure& what, Rect room) {
    const double scale = scale_in(what, room.size);
    const Size shown{what.size.width * scale, what.size.height * scale};
    Slab slab;
    const Point at{room.at.x + (room.size.width - shown.width) / 2, room.at.y};
    put(slab, what, at - Point{} + corner(), scale);
    for (Item& item : slab.items) page.own.items.push_back(std::move(item));
    for (Placement& placement : slab.placed) page.placements.push_back(placement);
    return shown.height;
  }

  Page page;
  Look look;

 private:
  [[nodiscard]] Vec corner() const { return look.column.at - Point{}; }
  Setting setting_;
};

constexpr Mm disc_across{6.4}, words_in{9};

/// A disc with its number, a heading and words; how deep they reach.
Mm step(Sheet& sheet, int number, const std::string& title, const std::string& text, Rect at) {
  sheet.put_item(shape(Path::ellipse({{}, {disc_across, disc_across}}), accent), at.at);
  TextStyle digit = style_of(Voice::number);
  digit.align = TextAlign::centre;
  sheet.words(fmt::format("{}", number), digit,
              {{at.at.x, at.at.y + Mm{1.1}}, {disc_across, disc_across}});
  const Mm width = at.size.width - words_in;
  TextStyle heading = style_of(Voice::heading);
  Mm y = at.at.y + Mm{0.6};
  y = y + sheet.words(title, heading, {{at.at.x + words_in, y}, {width, disc_across}}) + Mm{0.8};
  TextStyle body = style_of(Voice::body);
  body.leading = 1.3;
  return y + sheet.words(text, body, {{at.at.x + words_in, y}, {width, disc_across}});
}

std::string in_bold(const std::string& name) { return "**" + as_words(name) + "**"; }

std::string choose_words(const ReadMe& facts) {
  return fmt::format(
      "Full colour is the game as it was drawn. **Low ink** has light grounds and "
      "plays just the same: {}.",
      facts.ink_words);
}

std::string flip_words(const Making& making) {
  if (!sheets::has_back_forms(making.plan.wishes)) {
    return "One side only: front and back lie on the same side of the sheet, or there are no "
           "backs.";
  }
  return fmt::format(
      "Both sides, **flipped on the {}**. Does your printer print one side only? Print the odd "
      "pages, turn the pile over like that, and print the even ones.",
      flip_edge_words(making.plan));
}

std::string order_words(const Making& making, const ReadMe& facts) {
  std::string words =
      fmt::format("The cards, {} of {}.", sheets::counted(making.totals.sheets, "sheet"),
                  as_words(making.plan.wishes.paper_name));
  if (!facts.box_full.empty()) words += " Then the box, on board.";
  if (!facts.rules.empty()) words += " The rules, on plain paper.";
  if (!facts.mat.empty()) {
    const std::size_t sheets = making.mat.tiling->tiles.size();
    words += sheets == 1 ? std::string(" The mat.")
                         : fmt::format(" The mat, {} sheets to be joined.", sheets);
  }
  return words + fmt::format(" How to cut, round and fold stands in {}, with pictures.",
                             in_bold(facts.guide));
}

std::string paper_words(const Making& making) {
  std::string words = fmt::format("Cards: {}.", card_stock_words(making.game));
  if (making.box.box != nullptr) {
    words += fmt::format(" Box: {}.", board_stock_words(making.game));
  }
  return words +
         " Look up how heavy a sheet your printer takes; a copy shop takes heavier ones. "
         "Choose the heaviest kind of paper in its settings.";
}

/// The bar on its own ground, with what to do.
void bar_panel(Sheet& sheet, Rect at) {
  sheet.put_item(shape(Path::rounded_rectangle({{}, at.size}, Mm{2}), accent_wash), at.at);
  const Mm pad{5};
  const std::string words =
      "Print page 1 of the cards, and this page, on plain paper. In the window for printing choose "
      "**actual size** or **100 %**, never *fit to page*. Then lay a ruler on the bar: from the "
      "middle of its first tick to the middle of its last it is **100 mm** long. Is it not? Then "
      "every card would be as wrong.";
  step(sheet, 3, "Print one sheet, and measure", words,
       {{at.at.x + pad, at.at.y + pad}, {at.size.width - pad * 2, at.size.height}});
  sheet.figure(true_bar(), {{at.at.x + pad, at.at.y + at.size.height - Mm{8.5}},
                            {at.size.width - pad * 2, Mm{4}}});
}

void head(Sheet& sheet, const Making& making) {
  const Mm width = sheet.look.column.size.width, left = width - Mm{76};
  sheet.put_item(shape(Path::rectangle({{}, {Mm{26}, Mm{1.6}}}), accent), {});
  TextStyle title = style_of(Voice::title);
  title.type_size = Mm{11};
  title.smallest_size = Mm{6};
  Mm y{5.5};
  y = y + sheet.words("Read me first", title, {{Mm{}, y}, {left, Mm{20}}}) + Mm{2};
  TextStyle name = style_of(Voice::subtitle);
  name.weight = 700;
  name.fill = type_ink;
  y = y + sheet.words(as_words(making.game.title, 80), name, {{Mm{}, y}, {left, Mm{20}}});
  std::string what = sheets::counted(making.totals.pieces, "card");
  if (making.box.box != nullptr) what += fmt::format(" and a {}", making.box.box->kind->title);
  what += fmt::format(", to print on {} paper", as_words(making.plan.wishes.paper_name));
  if (!making.game.version.empty()) what += ". Version " + as_words(making.game.version, 30);
  TextStyle line = style_of(Voice::body);
  line.fill = quiet;
  sheet.words(what, line, {{Mm{}, y + Mm{1}}, {left, Mm{20}}});
  sheet.figure(finished_pieces(making), {{width - Mm{72}, Mm{-4}}, {Mm{72}, Mm{56}}});
}

void foot(Sheet& sheet, const ReadMe& facts, Mm from) {
  const Mm width = sheet.look.column.size.width;
  TextStyle small = style_of(Voice::caption);
  if (!facts.changes.empty()) {
    const std::string title = facts.since.empty()
                                  ? "Printed an earlier one?"
                                  : fmt::format("Printed version {}?", as_words(facts.since, 30));
    from = from + sheet.words(title, style_of(Voice::table_head), {{Mm{}, from}, {width, Mm{5}}});
    std::string words;
    constexpr std::size_t most = 320;  // letters in all: the page says the rest
    const std::size_t each = most / facts.changes.size();
    for (const std::string& line : facts.changes) words += as_words(line, each) + ". ";
    if (!facts.changed_cards.empty()) {
      words += fmt::format("They are alone in {}.", in_bold(facts.changed_cards));
    }
    small.fill = type_ink;
    from = from + sheet.words(words, small, {{Mm{}, from}, {width, Mm{5}}}) + Mm{3};
    small = style_of(Voice::caption);
  }
  sheet.words(
      "Blades are sharp, glue and small parts are not for small children: keep to what the maker "
      "of your tools says, and to the rules where you are.",
      small, {{Mm{}, sheet.look.column.size.height - Mm{9}}, {width, Mm{5}}});
}

/// The face as it is held.
Item held(const Scene& scene, const game::CardFormat& format) {
  const Rect whole{{}, format.size};
  const Path outline = Path::rounded_rectangle(whole, format.corner);
  Item face;
  face.clip = outline;
  GroupItem items{scene.items};
  items.items.insert(items.items.begin(), shape(Path::rectangle(whole), white));
  face.what = std::move(items);
  GroupItem card;
  card.items.push_back(std::move(face));
  card.items.push_back(line(outline, Colour{0.1, 0.1, 0.12, 0.5}, Mm{0.3}));
  Item item;
  item.what = std::move(card);
  return item;
}

}  // namespace

Figure two_inks(const Making& making, const Scene& low_ink) {
  const game::CardFormat& format = making.game.card;
  constexpr Mm apart{9}, words{9};
  Figure figure;
  figure.size = {format.size.width * 2 + apart, format.size.height + words};
  if (making.faces.empty()) return figure;
  const Vec second{format.size.width + apart, Mm{}};
  figure.scene.items.push_back(held(making.faces.front().scene, format));
  figure.scene.items.push_back(moved(held(low_ink, format), second));
  const auto caption = [&](const char* text, Mm left) {
    Item item = label(text, {}, format.size.width, type_ink);
    item.map = then(then(item.map, Affine::scale(1.9, 1.9)),
                    Affine::move({left + format.size.width / 2, format.size.height + Mm{5.5}}));
    figure.scene.items.push_back(std::move(item));
  };
  caption("full colour", Mm{});
  caption("low ink", second.x);
  return figure;
}

Document read_me(const Making& making, const ReadMe& facts, Typesetter& typesetter) {
  Sheet sheet(page_for(making.plan.grid.paper), typesetter);
  const Mm width = sheet.look.column.size.width, half = sheet.look.share(2);
  const Mm right = half + gutter;
  head(sheet, making);
  constexpr Mm first_row{60};
  const Mm picture_high{sheet.look.column.size.height > Mm{245} ? 52.0 : 42.0};
  const Mm a =
      step(sheet, 1, "Choose your ink", choose_words(facts), {{Mm{}, first_row}, {half, Mm{}}});
  const Mm b = step(sheet, 2, "Set which way the sheet turns", flip_words(making),
                    {{right, first_row}, {half, Mm{}}});
  const Mm pictures = std::max(a, b) + Mm{3};
  sheet.figure(two_inks(making, facts.low_ink_face),
               {{words_in, pictures}, {half - words_in, picture_high}});
  if (sheets::has_back_forms(making.plan.wishes)) {
    sheet.figure(turned_sheet(making),
                 {{right + words_in, pictures}, {half - words_in, picture_high}});
  }
  const Rect panel{{Mm{}, pictures + picture_high + Mm{5}}, {width, Mm{46}}};
  bar_panel(sheet, panel);
  const Mm third = panel.bottom() + Mm{6};
  const Mm c =
      step(sheet, 4, "Take the right paper", paper_words(making), {{Mm{}, third}, {half, Mm{}}});
  const Mm d = step(sheet, 5, "Print in this order", order_words(making, facts),
                    {{right, third}, {half, Mm{}}});
  foot(sheet, facts, std::max(c, d) + Mm{4});
  Document document;
  document.title = making.game.title + ": read me first";
  document.author = making.game.author;
  document.subject = "Read me first";
  document.language = "en";
  document.creator = "Quoin";
  document.pages.push_back(std::move(sheet.page));
  for (Page& page : document.pages) typeset(page.own, typesetter);
  return document;
}

Document credits_document(const game::Game& game, const std::vector<std::string>& lines, Size page,
                          Typesetter& typesetter) {
  Document document;
  document.title = game.title + ": who made what";
  document.author = game.author;
  document.subject = "Credits";
  document.language = "en";
  document.creator = "Quoin";
  std::optional<Sheet> sheet(std::in_place, page, typesetter);
  Setting setting(typesetter);
  const Mm width = sheet->look.measure(), high = sheet->look.column.size.height;
  sheet->put_item(shape(Path::rectangle({{}, {Mm{26}, Mm{1.6}}}), accent), {});
  TextStyle title = style_of(Voice::title);
  title.type_size = Mm{9};
  Mm y{4.5};
  y = y + sheet->words("Who made what", title, {{Mm{}, y}, {width, high}}) + Mm{1};
  y = y +
      sheet->words(as_words(game.title, 100), style_of(Voice::subtitle),
                   {{Mm{}, y}, {width, high}}) +
      Mm{7};
  const TextStyle body = style_of(Voice::body);
  for (const std::string& line : lines) {
    for (SetWords& part : setting.parts(as_words(line, 4000), body, width, 20)) {
      if (y + part.height > high) {
        document.pages.push_back(std::move(sheet->page));
        sheet.emplace(page, typesetter);
        sheet->page.label = fmt::format("{}", document.pages.size() + 1);
        y = Mm{};
      }
      sheet->put_item(std::move(part.item), {Mm{}, y});
      y = y + part.height;
    }
    y = y + Mm{3};
  }
  document.pages.push_back(std::move(sheet->page));
  for (Page& each : document.pages) typeset(each.own, typesetter);
  return document;
}

}  // namespace quoin::guide
