// A pair of scores, one for the middlegame and one for the endgame, in centipawns.
//
// Both halves live in one 32-bit integer so that adding two pairs is one addition; each half must
// stay within +-32767, which sums of evaluation terms do by a wide margin.
#pragma once

#include <cstdint>

namespace kairos::search {

class Taper {
 public:
  constexpr Taper() = default;
  constexpr Taper(int middlegame, int endgame) : packed_(middlegame + endgame * 65536) {}

  [[nodiscard]] constexpr int middlegame() const {
    return static_cast<std::int16_t>(static_cast<std::uint16_t>(packed_));
  }
  // The lower half borrows from the upper one when negative; adding half a unit gives it back.
  [[nodiscard]] constexpr int endgame() const {
    return static_cast<std::int16_t>((packed_ + 0x8000) >> 16);
  }

  constexpr Taper& operator+=(Taper o) {
    packed_ += o.packed_;
    return *this;
  }
  constexpr Taper& operator-=(Taper o) {
    packed_ -= o.packed_;
    return *this;
  }
  friend constexpr Taper operator+(Taper a, Taper b) { return a += b; }
  friend constexpr Taper operator-(Taper a, Taper b) { return a -= b; }
  friend constexpr Taper operator*(Taper a, int n) {
    a.packed_ *= n;
    return a;
  }
  friend constexpr bool operator==(Taper, Taper) = default;

 private:
  std::int32_t packed_ = 0;
};

}  // namespace kairos::search
