#include "game/toml_walk.h"

#include <string>

namespace quoin::game {

char TomlWalk::next() {
  const char c = text_[at_];
  if (c == '#') {
    while (!done() && text_[at_] != '\n') ++at_;
    return ' ';
  }
  if (c != '"' && c != '\'') {
    step();
    return c;
  }
  if (text_.substr(at_, 3) == std::string(3, c)) {
    skip_text_of_many_lines(c);
  } else {
    skip_text(c);
  }
  return '"';
}

void TomlWalk::step() {
  if (text_[at_] == '\n') ++line_;
  ++at_;
}

void TomlWalk::skip_text(char quote) {
  for (++at_; !done() && text_[at_] != '\n'; ++at_) {
    if (text_[at_] == quote) {
      ++at_;
      return;
    }
    if (quote == '"' && text_.substr(at_, 2).size() == 2 && text_[at_] == '\\' &&
        text_[at_ + 1] != '\n') {
      ++at_;
    }
  }
}

void TomlWalk::skip_text_of_many_lines(char quote) {
  const std::string three(3, quote);
  at_ += 3;
  while (!done() && text_.substr(at_, 3) != three) {
    if (quote == '"' && text_[at_] == '\\') ++at_;
    if (!done()) step();
  }
  // One or two more quotes belong to the text and stand before the closing three (TOML 1.0).
  for (std::size_t i = 0; i < 5 && !done() && text_[at_] == quote; ++i) ++at_;
}

}  // namespace quoin::game
