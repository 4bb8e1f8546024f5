#pragma once
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "rules/manuscript.h"

namespace quoin::rules {

/// Turns spans into runs of text: emphasis, symbols, cards, counts, names, links. Refers to all
/// that it is made with.
class InlineWords {
 public:
  /// Cards in lines and counts are added to `made`, problems to `found`. `anchors` are the headings
  /// that a link may lead to.
  InlineWords(const pieces::Studio& studio, const SourceText& source,
              const std::set<std::string>& anchors, Manuscript& made, Diagnostics& found);

  [[nodiscard]] std::vector<TextRun> runs_of(const std::vector<Span>& spans);
  /// The picture that a span shows, or null with what the shelf says of it.
  [[nodiscard]] PicturePtr picture_of(const Span& span);
  /// The card that a run shows.
  [[nodiscard]] std::optional<int> card_in(const TextRun& run) const;
  /// Says that HTML is not drawn; a remark (`<!-- … -->`) is left out without a word.
  void report_html(const std::vector<Span>& spans);

 private:
  struct Face {
    bool bold = false, italic = false;
  };
  void add(const std::vector<Span>& spans, Face face, std::vector<TextRun>& runs);
  void add(const Span& span, Face face, std::vector<TextRun>& runs);
  void add_text(const Span& span, Face face, std::vector<TextRun>& runs);
  void add_link(const Span& span, Face face, std::vector<TextRun>& runs);
  /// What stands between braces or brackets; false when it is to be printed as it stands.
  bool add_name(const std::string& name, const Origin& where, Face face,
                std::vector<TextRun>& runs);
  bool add_symbol(const std::string& name, const Origin& where, Face face,
                  std::vector<TextRun>& runs);
  bool add_card(const std::string& id, const Origin& where, Face face, std::vector<TextRun>& runs);
  void add_count(const std::string& written, const Origin& where, Face face,
                 std::vector<TextRun>& runs);
  [[nodiscard]] std::optional<std::string> value_of(const std::string& name) const;
  [[nodiscard]] std::optional<std::string> nearest_of(const std::string& name,
                                                      const std::vector<std::string>& known) const;
  void report_unknown(const std::string& name, const Origin& where);
  [[nodiscard]] Origin place(const Span& span) const;

  const pieces::Studio& studio_;
  const SourceText& source_;
  const std::set<std::string>& anchors_;
  Manuscript& made_;
  Diagnostics& found_;
  std::map<std::string, int, std::less<>> cards_;  // by id
};

}  // namespace quoin::rules
