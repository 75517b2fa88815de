// Lots drawn the same way with every standard library: a counter whose bits are mixed (G. Steele,
// D. Lea, C. Flood, Fast splittable pseudorandom number generators, 2014).
#pragma once

#include <cstdint>

namespace kairos::learn {

class Chance {
 public:
  explicit Chance(std::uint64_t seed) : state_(seed * 0xD1342543DE82EF95U + 1) {}
  std::uint64_t next() {
    std::uint64_t z = state_ += 0x9E3779B97F4A7C15U;
    z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9U;
    z = (z ^ z >> 27) * 0x94D049BB133111EBU;
    return z ^ z >> 31;
  }
  // 0 .. limit - 1; limits far below 2^64, so that the remainder is as good as even.
  std::uint64_t below(std::uint64_t limit) { return next() % limit; }
  // 0 .. 1, 1 left out
  double share() { return static_cast<double>(next() >> 11) * 0x1p-53; }

 private:
  std::uint64_t state_;
};

}  // namespace kairos::learn
