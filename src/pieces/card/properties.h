#pragma once
#include <initializer_list>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "media/paint.h"
#include "pieces/card/studio.h"

namespace quoin::pieces {

/// The card that is being drawn, and where its problems go.
struct Sitting {
  const Studio& studio;
  const game::Card& card;
  std::string piece;  ///< "W-07", "back of main": for messages
  Diagnostics& found;
};

/// A value of a property after its placeholders were filled.
struct Given {
  std::variant<std::string, double, bool> value;
  Origin origin;  ///< the card's cell when the value comes from there, else the layout
};

/// The properties of one element for one card: each getter fills placeholders, reads the value as
/// what is asked for, and reports what cannot be read. A property that is not given, or whose
/// filled text is empty, gives nothing.
class Properties {
 public:
  /// `own` wins over `fallback` (a text style; may be null).
  Properties(const Sitting& sitting, const game::Table& own, std::string element,
             const game::Table* fallback = nullptr);

  [[nodiscard]] const game::Node* node(std::string_view key) const;
  [[nodiscard]] bool has(std::string_view key) const { return given(key).has_value(); }
  [[nodiscard]] Origin origin(std::string_view key) const;

  [[nodiscard]] std::optional<std::string> text(std::string_view key) const;
  [[nodiscard]] std::optional<double> number(std::string_view key) const;
  [[nodiscard]] std::optional<Mm> length(std::string_view key) const;
  [[nodiscard]] std::optional<Mm> points(std::string_view key) const;
  [[nodiscard]] std::optional<bool> flag(std::string_view key) const;
  /// A list of numbers of one of the lengths in `sizes` (0: any), or a single number as a list
  /// of one when 1 is among them.
  [[nodiscard]] std::optional<std::vector<double>> numbers(
      std::string_view key, std::initializer_list<std::size_t> sizes) const;
  [[nodiscard]] std::optional<Vec> pair(std::string_view key) const;
  [[nodiscard]] std::optional<Colour> colour(std::string_view key) const;
  [[nodiscard]] std::optional<Stroke> stroke(std::string_view key, Rect box) const;
  [[nodiscard]] std::vector<Stroke> strokes(std::string_view key, Rect box) const;
  /// A colour, "none", or a gradient whose places are fractions of `box`.
  [[nodiscard]] std::optional<Paint> paint(std::string_view key, Rect box) const;
  [[nodiscard]] std::optional<Shadow> shadow(std::string_view key) const;
  [[nodiscard]] std::optional<Outline> outline(std::string_view key) const;

  /// One of `words`; another word is reported with the nearest, and gives nothing.
  template <typename T>
  [[nodiscard]] std::optional<T> word(
      std::string_view key, std::initializer_list<std::pair<const char*, T>> words) const {
    const std::optional<std::string> asked = text(key);
    if (!asked) return std::nullopt;
    std::vector<std::string> known;
    for (const auto& [name, meaning] : words) {
      if (*asked == name) return meaning;
      known.push_back(name);
    }
    report_word(key, *asked, known);
    return std::nullopt;
  }

  /// The properties of a table nested in this one (a stroke, a shadow).
  [[nodiscard]] std::optional<Properties> table(std::string_view key) const;
  [[nodiscard]] const Sitting& sitting() const { return sitting_; }
  [[nodiscard]] const std::string& element() const { return element_; }
  void report(Id id, Origin where, std::string message, std::string hint) const;

 private:
  [[nodiscard]] std::optional<Given> given(std::string_view key) const;
  [[nodiscard]] std::optional<Given> filled(const game::Node& node) const;
  [[nodiscard]] std::optional<double> as_number(std::string_view key, const Given& given) const;
  [[nodiscard]] std::optional<Colour> as_colour(const Given& given) const;
  [[nodiscard]] std::optional<Paint> gradient(Rect box) const;
  [[nodiscard]] std::vector<GradientStop> stops() const;
  [[nodiscard]] std::optional<Stroke> as_stroke(Rect box) const;
  void report_word(std::string_view key, const std::string& asked,
                   const std::vector<std::string>& known) const;

  const Sitting& sitting_;
  const game::Table& own_;
  const game::Table* fallback_;
  std::string element_;
};

}  // namespace quoin::pieces
