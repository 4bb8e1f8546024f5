#include <fmt/format.h>

#include "pieces/card/element.h"

namespace quoin::pieces {
namespace {

/// More than any card can show; past some 60,000 characters the text engine's numbers overflow.
constexpr std::size_t longest_text = 10'000;

int read_weight(const Properties& properties) {
  const game::Node* there = properties.node("weight");
  if (!there) return 400;
  if (const std::string* word = there->text()) {
    if (*word == "regular") return 400;
    if (*word == "bold") return 700;
  }
  return static_cast<int>(properties.number("weight").value_or(400));
}

void read_setting(const Properties& properties, TextStyle& style) {
  style.align = properties
                    .word<TextAlign>("align", {{"left", TextAlign::left},
                                               {"centre", TextAlign::centre},
                                               {"right", TextAlign::right},
                                               {"justify", TextAlign::justify},
                                               {"start", TextAlign::start},
                                               {"end", TextAlign::end}})
                    .value_or(TextAlign::start);
  style.vertical = properties
                       .word<VerticalAlign>("valign", {{"top", VerticalAlign::top},
                                                       {"middle", VerticalAlign::middle},
                                                       {"bottom", VerticalAlign::bottom}})
                       .value_or(VerticalAlign::top);
  style.letter_case = properties
                          .word<TextCase>("case", {{"as-is", TextCase::as_is},
                                                   {"upper", TextCase::upper},
                                                   {"small-caps", TextCase::small_caps}})
                          .value_or(TextCase::as_is);
  style.direction =
      properties
          .word<TextDirection>("direction", {{"auto", TextDirection::automatic},
                                             {"left-to-right", TextDirection::left_to_right},
                                             {"right-to-left", TextDirection::right_to_left}})
          .value_or(TextDirection::automatic);
}

}  // namespace

TextStyle text_style(const Properties& properties, Rect box) {
  TextStyle style;
  style.family = properties.text("font").value_or(house_family);
  style.weight = read_weight(properties);
  style.italic = properties.flag("italic").value_or(false);
  style.type_size = properties.points("type").value_or(style.type_size);
  style.smallest_size =
      std::min(properties.points("minimum").value_or(style.type_size), style.type_size);
  style.fill = properties.paint("colour", box).value_or(Paint{black});
  style.strokes = properties.strokes("strokes", box);
  style.leading = properties.number("leading").value_or(style.leading);
  style.letter_spacing = properties.number("spacing").value_or(0);
  style.paragraph_gap = properties.number("paragraph").value_or(0);
  style.hyphenate = properties.flag("hyphenate").value_or(false);
  style.language =
      properties.text("language").value_or(properties.sitting().studio.game().language);
  read_setting(properties, style);
  return style;
}

namespace {

std::vector<TextRun> read_runs(const Properties& properties, const std::string& text) {
  if (!properties.flag("markup").value_or(true)) return {TextRun{text, false, false, nullptr}};
  std::vector<std::string> unknown;
  const auto& symbols = properties.sitting().studio.symbols();
  std::vector<TextRun> runs = read_markup(text, symbols, unknown);
  for (const std::string& name : unknown) {
    std::vector<std::string> known;
    for (const auto& [symbol, picture] : symbols) known.push_back(symbol);
    const auto meant = game::nearest(name, known);
    properties.report(Id::face_unknown_symbol, properties.origin("text"),
                      fmt::format("[{}] is no symbol of the game", name),
                      meant ? fmt::format("did you mean [{}]?", *meant)
                            : fmt::format("declare it under [symbols], or write \\[{}]", name));
  }
  return runs;
}

}  // namespace

Drawn draw_text(const Properties& properties, Rect box) {
  const std::optional<std::string> text = properties.text("text");
  if (!text) return std::nullopt;
  if (text->size() > longest_text) {
    properties.report(
        Id::card_text_too_long, properties.origin("text"),
        fmt::format("the text has {} bytes; a card can take {}", text->size(), longest_text),
        "put long texts into the rules");
    return std::nullopt;
  }
  TextItem item;
  // A gradient runs over the text's box, whose own corner is the origin of what is set.
  item.block.style = text_style(properties, Rect{{}, box.size});
  item.block.runs = read_runs(properties, *text);
  item.block.box = box.size;
  item.at = box.at;
  return item;
}

}  // namespace quoin::pieces
