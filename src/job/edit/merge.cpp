#include "job/edit/merge.h"

#include <algorithm>

namespace quoin::job {
namespace {

const Bytes& text_in(const Texts& texts, const std::string& file) {
  static const Bytes none;
  const auto at = texts.find(file);
  return at == texts.end() || !at->second ? none : *at->second;
}

}  // namespace

Merged merge(const std::vector<game::Claim>& claims, const Texts& now,
             const std::vector<Choice>& choices) {
  Merged made;
  Texts texts = now;
  for (std::size_t i = 0; i < claims.size(); ++i) {
    const Choice choice = i < choices.size() ? choices[i] : Choice::ask;
    const std::string& file = game::file_of(claims[i].change);
    const auto when =
        choice == Choice::mine ? game::WhenChanged::take_mine : game::WhenChanged::ask;
    game::EditAnswer answer = game::edit(claims[i], text_in(texts, file), when);
    if (auto* done = std::get_if<game::Edited>(&answer)) {
      texts[file] = std::make_shared<const Bytes>(std::move(done->text));
      made.done.push_back(claims[i]);
      made.back.push_back(std::move(done->inverse));
    } else if (auto* collision = std::get_if<game::Collision>(&answer)) {
      if (choice == Choice::ask) made.collided.push_back({i, std::move(*collision)});
    } else {
      for (Diagnostic& each : std::get<Diagnostics>(answer)) made.refused.push_back(each);
    }
  }
  std::reverse(made.back.begin(), made.back.end());
  for (const auto& [file, text] : texts) {
    if (*text != text_in(now, file)) made.texts[file] = text;
  }
  return made;
}

Result<std::vector<game::Claim>> claims_of(const std::vector<game::Change>& changes, Texts seen) {
  std::vector<game::Claim> claims;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    const std::string& file = game::file_of(changes[i]);
    Result<game::Claim> made = game::claim(changes[i], text_in(seen, file));
    if (!made) return std::move(made).why();
    claims.push_back(std::move(*made));
    if (i + 1 == changes.size()) break;
    game::EditAnswer answer = game::edit(claims.back(), text_in(seen, file));
    if (auto* refused = std::get_if<Diagnostics>(&answer)) return std::move(*refused);
    if (auto* done = std::get_if<game::Edited>(&answer)) {
      seen[file] = std::make_shared<const Bytes>(std::move(done->text));
    }
  }
  return claims;
}

}  // namespace quoin::job
