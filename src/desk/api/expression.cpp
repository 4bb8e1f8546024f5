#include "desk/api/expression.h"

#include <cctype>
#include <stdexcept>

namespace quoin::desk {
namespace {

class TypeReader {
 public:
  explicit TypeReader(std::string_view text) : text_(text) {}

  TypeExpression whole() {
    TypeExpression type = choice();
    skip();
    if (at_ != text_.size()) fail();
    return type;
  }

 private:
  [[noreturn]] void fail() const { throw std::logic_error("not a type: " + std::string(text_)); }
  void skip() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  bool take(std::string_view word) {
    skip();
    if (!text_.substr(at_).starts_with(word)) return false;
    at_ += word.size();
    return true;
  }
  void need(std::string_view word) {
    if (!take(word)) fail();
  }

  TypeExpression choice() {
    TypeExpression first = lists();
    if (!take("|")) return first;
    TypeExpression all{TypeExpression::Kind::choice, {}, {std::move(first)}};
    do {
      all.parts.push_back(lists());
    } while (take("|"));
    return all;
  }

  TypeExpression lists() {
    TypeExpression inner = single();
    while (take("[]")) inner = {TypeExpression::Kind::list, {}, {std::move(inner)}};
    return inner;
  }

  TypeExpression single() {
    if (take("(")) {
      TypeExpression inner = choice();
      need(")");
      return inner;
    }
    if (take("Record<string,")) {
      TypeExpression record{TypeExpression::Kind::record, {}, {choice()}};
      need(">");
      return record;
    }
    if (take("'")) {
      const std::size_t end = text_.find('\'', at_);
      if (end == std::string_view::npos) fail();
      TypeExpression literal{
          TypeExpression::Kind::literal, std::string(text_.substr(at_, end - at_)), {}};
      at_ = end + 1;
      return literal;
    }
    skip();
    const std::size_t start = at_;
    while (at_ < text_.size() && std::isalnum(static_cast<unsigned char>(text_[at_])) != 0) ++at_;
    if (at_ == start) fail();
    return {TypeExpression::Kind::name, std::string(text_.substr(start, at_ - start)), {}};
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace

TypeExpression read_type(std::string_view text) { return TypeReader(text).whole(); }

}  // namespace quoin::desk
