// A small generator of pseudo-random bits that the compiler can run too: SplitMix64 (G. Steele,
// D. Lea, C. Flood, "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014). Used for the
// position keys and for the search for magic factors, always from a fixed seed.
#pragma once

#include <cstdint>

namespace kairos::rules {

class RandomBits {
 public:
  constexpr explicit RandomBits(std::uint64_t seed) : state_(seed) {}
  constexpr std::uint64_t next() {
    state_ += 0x9E3779B97F4A7C15;
    std::uint64_t z = state_;
    z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9;
    z = (z ^ z >> 27) * 0x94D049BB133111EB;
    return z ^ z >> 31;
  }

 private:
  std::uint64_t state_;
};

}  // namespace kairos::rules
