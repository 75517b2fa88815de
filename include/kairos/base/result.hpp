// Result<T>: a value, or the reasons why there is none.
//
// The one way in which a part of kairos reports failure across its border; nothing throws. A failed
// result holds at least one Fault and may hold several (a FEN names all its faults at once).
// `value()` on a failed result and `fault()` on a good one are programming errors (asserted).
//
//   Result<Position> read = parse_fen(text);
//   if (!read) return std::move(read).faults();   // converts to any Result<U>
//   use(*read);
#pragma once

#include <cassert>
#include <utility>
#include <variant>
#include <vector>

#include "kairos/base/diagnostics.hpp"

namespace kairos::base {

using Faults = std::vector<Fault>;

template <typename T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  Result(Fault fault) : state_(std::in_place_index<1>, Faults{std::move(fault)}) {}
  Result(Faults faults) : state_(std::in_place_index<1>, std::move(faults)) {
    assert(!this->faults().empty());
  }

  [[nodiscard]] bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }

  T& value() & { return std::get<0>(state_); }
  const T& value() const& { return std::get<0>(state_); }
  T&& value() && { return std::get<0>(std::move(state_)); }
  T& operator*() & { return value(); }
  const T& operator*() const& { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  T* operator->() { return &value(); }
  const T* operator->() const { return &value(); }

  [[nodiscard]] const Fault& fault() const { return faults().front(); }
  [[nodiscard]] const Faults& faults() const& { return std::get<1>(state_); }
  [[nodiscard]] Faults&& faults() && { return std::get<1>(std::move(state_)); }

 private:
  std::variant<T, Faults> state_;
};

struct Nothing {};

// For work that has no value to give: `return done();` or a Fault.
using Status = Result<Nothing>;
inline Status done() {
  return Nothing{};
}

}  // namespace kairos::base
