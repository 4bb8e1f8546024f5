#include "rules/inline_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "rules/count.h"

namespace quoin::rules {
namespace {

void append(std::vector<TextRun>& runs, std::string_view text, bool bold, bool italic) {
  if (text.empty()) return;
  const bool goes_on = !runs.empty() && !runs.back().symbol && runs.back().bold == bold &&
                       runs.back().italic == italic;
  if (goes_on) {
    runs.back().text += text;
  } else {
    runs.push_back({std::string(text), bold, italic, nullptr});
  }
}

/// A text within one span, read byte by byte with what each byte means.
class SpanReader {
 public:
  SpanReader(const Span& span, const SourceText& source) : span_(span), source_(source) {}

  [[nodiscard]] bool is_literal(std::size_t at) {
    const Stretch* stretch = stretch_of(at);
    return stretch != nullptr && stretch->meant == Stretch::Meant::literally && stretch->at == at;
  }

  [[nodiscard]] Origin place(std::size_t at, std::size_t length) {
    const Stretch* stretch = stretch_of(at);
    if (stretch == nullptr || stretch->offset == std::string::npos) return {source_.file()};
    return source_.place(stretch->offset + (at - stretch->at), length);
  }

  /// The end of a name that begins behind `at`: its closing mark, which is not literal and stands
  /// on the same line.
  [[nodiscard]] std::size_t closing(std::size_t at, char mark) {
    constexpr std::size_t longest_name = 200;
    const std::size_t end = std::min(span_.text.size(), at + longest_name);
    for (std::size_t i = at + 1; i < end; ++i) {
      if (span_.text[i] == mark && !is_literal(i)) return i;
      if (span_.text[i] == span_.text[at] && !is_literal(i)) break;
    }
    return std::string::npos;
  }

 private:
  [[nodiscard]] const Stretch* stretch_of(std::size_t at) {
    const std::vector<Stretch>& all = span_.stretches;
    const auto after = std::upper_bound(all.begin(), all.end(), at,
                                        [](std::size_t a, const Stretch& s) { return a < s.at; });
    return after == all.begin() ? nullptr : &*std::prev(after);
  }

  const Span& span_;
  const SourceText& source_;
};

bool is_symbol_name(std::string_view name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return std::isalnum(byte) != 0 || c == '-' || c == '_' || byte >= 0x80;
  });
}

bool is_address(std::string_view target) {
  const std::size_t colon = target.find(':');
  return colon != std::string_view::npos && colon > 1 &&
         std::all_of(target.begin(), target.begin() + static_cast<std::ptrdiff_t>(colon),
                     [](char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; });
}

/// An address as it is printed: without what nobody types.
std::string printed_address(std::string_view target) {
  for (const std::string_view scheme : {"https://", "http://", "mailto:"}) {
    if (target.starts_with(scheme)) target.remove_prefix(scheme.size());
  }
  while (target.ends_with('/')) target.remove_suffix(1);
  return std::string(target);
}

std::string text_in(const std::vector<Span>& spans) {
  std::string text;
  for (const Span& span : spans) text += span.text + text_in(span.spans);
  return text;
}

}  // namespace

InlineWords::InlineWords(const pieces::Studio& studio, const SourceText& source,
                         const std::set<std::string>& anchors, Manuscript& made, Diagnostics& found)
    : studio_(studio), source_(source), anchors_(anchors), made_(made), found_(found) {
  const std::vector<game::Card>& cards = studio.game().cards;
  for (std::size_t i = 0; i < cards.size(); ++i) cards_.emplace(cards[i].id, i);
}

std::vector<TextRun> InlineWords::runs_of(const std::vector<Span>& spans) {
  std::vector<TextRun> runs;
  add(spans, {}, runs);
  return runs;
}

Origin InlineWords::place(const Span& span) const {
  if (span.offset == std::string::npos) return {source_.file()};
  const std::size_t length = std::max(span.text.size(), span.target.size());
  return source_.place(span.offset, length);
}

void InlineWords::add(const std::vector<Span>& spans, Face face, std::vector<TextRun>& runs) {
  for (const Span& span : spans) add(span, face, runs);
}

void InlineWords::add(const Span& span, Face face, std::vector<TextRun>& runs) {
  switch (span.kind) {
    case SpanKind::text:
      return add_text(span, face, runs);
    case SpanKind::code:
      return append(runs, span.text, face.bold, face.italic);
    case SpanKind::emphasis:
      return add(span.spans, {face.bold, !face.italic}, runs);
    case SpanKind::strong:
      return add(span.spans, {true, face.italic}, runs);
    case SpanKind::line_break:
      return append(runs, "\n", face.bold, face.italic);
    case SpanKind::soft_break:
      return append(runs, " ", face.bold, face.italic);
    case SpanKind::link:
      return add_link(span, face, runs);
    case SpanKind::html:
      return report_html({span});
    case SpanKind::picture:
      if (const PicturePtr picture = picture_of(span)) {
        const auto symbol = std::make_shared<const InlineSymbol>(InlineSymbol{picture, 1.2, 0.22});
        runs.push_back({text_in(span.spans), false, false, symbol});
      }
  }
}

void InlineWords::add_text(const Span& span, Face face, std::vector<TextRun>& runs) {
  SpanReader reader(span, source_);
  const std::string& text = span.text;
  std::size_t from = 0;  // what is not added yet
  const auto flush = [&](std::size_t to) {
    append(runs, std::string_view(text).substr(from, to - from), face.bold, face.italic);
  };
  for (std::size_t at = text.find_first_of("{[}"); at != std::string::npos;
       at = text.find_first_of("{[}", at)) {
    const char mark = text[at];
    const bool doubled = at + 1 < text.size() && text[at + 1] == mark && mark != '[';
    if (reader.is_literal(at)) {
      ++at;
      continue;
    }
    if (doubled) {  // {{ and }} write single braces
      flush(at + 1);
      from = at = at + 2;
      continue;
    }
    const std::size_t end =
        mark == '}' ? std::string::npos : reader.closing(at, mark == '{' ? '}' : ']');
    if (end == std::string::npos) {
      ++at;
      continue;
    }
    flush(at);
    const std::string name = text.substr(at + 1, end - at - 1);
    const Origin where = reader.place(at, end + 1 - at);
    const bool added =
        mark == '{' ? add_name(name, where, face, runs) : add_symbol(name, where, face, runs);
    from = added ? end + 1 : at;
    at = added ? end + 1 : at + 1;
  }
  flush(text.size());
}

bool InlineWords::add_symbol(const std::string& name, const Origin& where, Face face,
                             std::vector<TextRun>& runs) {
  const auto found = studio_.symbols().find(name);
  if (found != studio_.symbols().end()) {
    runs.push_back({name, face.bold, face.italic, found->second});
    return true;
  }
  if (!is_symbol_name(name)) return false;
  std::vector<std::string> known;
  for (const auto& [symbol, picture] : studio_.symbols()) known.push_back(symbol);
  Diagnostic problem(Id::face_unknown_symbol, where,
                     fmt::format("[{}] is no symbol of the game", name));
  const auto meant = nearest_of(name, known);
  found_.push_back(
      problem.hint(meant ? fmt::format("did you mean [{}]?", *meant)
                         : fmt::format("declare it under [symbols], or write \\[{}]", name)));
  return false;
}

bool InlineWords::add_name(const std::string& name, const Origin& where, Face face,
                           std::vector<TextRun>& runs) {
  if (name.starts_with("card:")) return add_card(name.substr(5), where, face, runs);
  if (name == "count" || name.starts_with("count:") || name.starts_with("count ")) {
    add_count(name, where, face, runs);
    return true;
  }
  if (const auto value = value_of(name)) {
    append(runs, *value, face.bold, face.italic);
    return true;
  }
  report_unknown(name, where);
  return false;
}

bool InlineWords::add_card(const std::string& id, const Origin& where, Face face,
                           std::vector<TextRun>& runs) {
  const auto found = cards_.find(id);
  const game::Game& game = studio_.game();
  if (found == cards_.end()) {
    std::vector<std::string> known;
    for (const auto& [one, card] : cards_) known.push_back(one);
    Diagnostic problem(Id::rules_unknown_card, where, fmt::format("there is no card {}", id));
    const auto meant = nearest_of(id, known);
    found_.push_back(problem.hint(meant ? fmt::format("did you mean {{card:{}}}?", *meant)
                                        : "use an id from the first column of cards.csv"));
    return false;
  }
  InlineSymbol room{nullptr, card_in_line, 0.26};
  room.proportion = game.card.size.width / game.card.size.height;
  const auto symbol = std::make_shared<const InlineSymbol>(room);
  made_.cards[symbol.get()] = found->second;
  runs.push_back({id, face.bold, face.italic, symbol});
  return true;
}

void InlineWords::add_count(const std::string& written, const Origin& where, Face face,
                            std::vector<TextRun>& runs) {
  const auto count = read_count(studio_.game(), written, where).or_report(found_);
  if (!count) return append(runs, "{" + written + "}", face.bold, face.italic);
  const int cards = cards_in(studio_.game(), *count);
  made_.counts.push_back({written, cards, where});
  const int printed = count->stated.value_or(cards);
  append(runs, std::to_string(printed), face.bold, face.italic);
  if (count->stated && *count->stated != cards) {
    found_.push_back(
        Diagnostic(
            Id::rules_count_differs, where,
            fmt::format("the rules say {} cards, and the list has {}", *count->stated, cards))
            .hint(fmt::format("write {{{} is {}}}, or leave \"is {}\" out",
                              written.substr(0, written.rfind(" is ")), cards, *count->stated)));
  } else if (cards == 0) {
    found_.push_back(Diagnostic(Id::rules_count_of_none, where,
                                fmt::format("no card is meant by {{{}}}", written))
                         .hint("look at the words in that column of the card list"));
  }
}

std::optional<std::string> InlineWords::value_of(const std::string& name) const {
  const game::Game& game = studio_.game();
  if (name.starts_with("suit.")) {
    const std::size_t dot = name.find('.', 5);
    const std::string id = name.substr(5, dot == std::string::npos ? dot : dot - 5);
    for (const game::Suit& suit : game.suits) {
      if (suit.id != id) continue;
      const auto value = suit.values.find(dot == std::string::npos ? "name" : name.substr(dot + 1));
      if (value != suit.values.end()) return value->second.text;
    }
    return std::nullopt;
  }
  if (!name.starts_with("game.") && !name.starts_with("box.")) return std::nullopt;
  static const game::Card none;
  const auto value = game::look_up(game, none, name);
  return value ? std::optional(value->text) : std::nullopt;
}

/// The name that was meant. Looking for it takes time: after so many findings nobody reads on.
std::optional<std::string> InlineWords::nearest_of(const std::string& name,
                                                   const std::vector<std::string>& known) const {
  constexpr std::size_t enough = 100;
  return found_.size() < enough ? game::nearest(name, known) : std::nullopt;
}

void InlineWords::report_unknown(const std::string& name, const Origin& where) {
  Diagnostic problem(Id::rules_unknown_name, where,
                     fmt::format("nothing is known by the name {{{}}}", name));
  if (name == "credits") {
    problem.hint("{credits} stands alone in a paragraph");
    found_.push_back(std::move(problem));
    return;
  }
  std::vector<std::string> known{"count", "credits", "box.cards"};
  for (const auto& [key, value] : studio_.game().facts) known.push_back("game." + key);
  for (const game::Suit& suit : studio_.game().suits) known.push_back("suit." + suit.id);
  for (const auto& [id, card] : cards_) known.push_back("card:" + id);
  const auto meant = nearest_of(name, known);
  found_.push_back(problem.hint(meant ? fmt::format("did you mean {{{}}}?", *meant)
                                      : "write {{ for a brace that is meant as one"));
}

void InlineWords::add_link(const Span& span, Face face, std::vector<TextRun>& runs) {
  add(span.spans, face, runs);
  const std::string words = text_in(span.spans);
  const std::string& target = span.target;
  const Origin where = place(span);
  if (target.starts_with('#')) {
    if (anchors_.contains(target.substr(1))) return;
    std::vector<std::string> known(anchors_.begin(), anchors_.end());
    Diagnostic problem(Id::rules_broken_link, where,
                       fmt::format("there is no heading {}", target.substr(1)));
    const auto meant = nearest_of(target.substr(1), known);
    found_.push_back(problem.hint(meant ? fmt::format("did you mean #{}?", *meant)
                                        : "name a heading in lower case, with - between words"));
    return;
  }
  if (!is_address(target)) {
    found_.push_back(Diagnostic(Id::rules_broken_link, where,
                                target.empty()
                                    ? std::string("a link has no address")
                                    : fmt::format("{} is nothing that a reader can go to", target))
                         .hint("give a whole address, https://…, or take the link off the words"));
    return;
  }
  const std::string address = printed_address(target);
  if (words.find(address) != std::string::npos) return;
  append(runs, words.empty() ? address : fmt::format(" ({})", address), face.bold, face.italic);
}

PicturePtr InlineWords::picture_of(const Span& span) {
  const Origin where = place(span);
  if (is_address(span.target) || span.target.empty()) {
    found_.push_back(Diagnostic(Id::rules_broken_link, where,
                                "a picture of the rules must lie in the game's folder")
                         .hint("put the file into art/, and write ![](art/NAME.png)"));
    return nullptr;
  }
  return studio_.shelf().open(span.target, where, found_).or_report(found_).value_or(nullptr);
}

std::optional<int> InlineWords::card_in(const TextRun& run) const {
  const auto found = made_.cards.find(run.symbol.get());
  return found == made_.cards.end() ? std::nullopt : std::optional(found->second);
}

void InlineWords::report_html(const std::vector<Span>& spans) {
  for (const Span& span : spans) {
    std::string_view html = span.text;
    while (html.starts_with(' ') || html.starts_with('\n')) html.remove_prefix(1);
    if (html.empty() || html.starts_with("<!--")) continue;
    const std::string shown(html.substr(0, html.find_first_of(" >\n")));
    found_.push_back(Diagnostic(Id::rules_raw_html, place(span),
                                fmt::format("{}> is HTML and is left out", shown))
                         .hint("write it in Markdown, or \\< for a < that is meant as one"));
  }
}

}  // namespace quoin::rules
