#pragma once
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "game/edit/edit.h"
#include "game/toml_file.h"

namespace quoin::game {

// What the tests of edits share.

inline Node text_node(std::string text) { return {{}, std::move(text)}; }
inline Node number_node(double number) { return {{}, number}; }

/// The value that `written` is in TOML.
inline Node node_of(const std::string& written) {
  Result<Table> read = read_toml("v = " + written, FileName("test"));
  if (!read) throw std::logic_error("no TOML: " + written);
  return read->front().value;
}

/// What an answer is, for a test to compare: the new text, "theirs: …", or the messages.
inline std::string outcome(const EditAnswer& answer) {
  if (const auto* done = std::get_if<Edited>(&answer)) return done->text;
  if (const auto* collision = std::get_if<Collision>(&answer)) {
    return "mine: " + collision->mine + "; theirs: " + collision->theirs + " at " +
           to_string(collision->place);
  }
  std::string words;
  for (const Diagnostic& each : std::get<Diagnostics>(answer)) {
    words += to_string(each.origin) + ": " + each.message + " [" +
             std::string(facts(each.id).name) + "]";
  }
  return words;
}

/// The change made in the text that was seen.
inline EditAnswer changed(const std::string& text, const Change& change) {
  const Result<Claim> seen = claim(change, text);
  if (!seen) return seen.why();
  return edit(*seen, text);
}

/// The change made in view of `seen`, while the file is `now`.
inline EditAnswer merged(const std::string& seen, const std::string& now, const Change& change) {
  const Result<Claim> made = claim(change, seen);
  if (!made) return made.why();
  return edit(*made, now);
}

inline std::string set(const std::string& text, ValuePath path, const Node& value) {
  return outcome(changed(text, SetValue{"a.toml", std::move(path), value}));
}

inline std::string take(const std::string& text, ValuePath path) {
  return outcome(changed(text, SetValue{"a.toml", std::move(path), std::nullopt}));
}

inline std::size_t at(int place) { return static_cast<std::size_t>(place); }

}  // namespace quoin::game
