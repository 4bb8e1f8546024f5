#pragma once
#include <optional>
#include <utility>
#include <variant>

#include "base/diagnostic.h"

namespace quoin {

/// Either a value or the diagnostics that say why there is none. For everything a maker's file
/// can cause; exceptions are for our own broken promises only.
template <typename T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  Result(Diagnostic why) : state_(std::in_place_index<1>, Diagnostics{std::move(why)}) {}
  Result(Diagnostics why) : state_(std::in_place_index<1>, std::move(why)) {}

  [[nodiscard]] bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }

  [[nodiscard]] T& value() & { return std::get<0>(state_); }
  [[nodiscard]] const T& value() const& { return std::get<0>(state_); }
  [[nodiscard]] T&& value() && { return std::get<0>(std::move(state_)); }
  [[nodiscard]] T& operator*() & { return value(); }
  [[nodiscard]] const T& operator*() const& { return value(); }
  [[nodiscard]] T* operator->() { return &value(); }
  [[nodiscard]] const T* operator->() const { return &value(); }

  [[nodiscard]] const Diagnostics& why() const& { return std::get<1>(state_); }
  [[nodiscard]] Diagnostics&& why() && { return std::get<1>(std::move(state_)); }

  /// The value, or nothing with the reasons appended to `found`: for going on after a failure.
  [[nodiscard]] std::optional<T> or_report(Diagnostics& found) && {
    if (ok()) return std::get<0>(std::move(state_));
    for (Diagnostic& d : std::get<1>(state_)) found.push_back(std::move(d));
    return std::nullopt;
  }

 private:
  std::variant<T, Diagnostics> state_;
};

/// A result without a value: done, or why not.
struct Done {};
using Outcome = Result<Done>;

/// A value that exists although something was found on the way: reading a game gives all that
/// could be read and every problem, not the first.
template <typename T>
struct Checked {
  T value;
  Diagnostics found;
};

}  // namespace quoin
