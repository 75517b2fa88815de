// Small questions about sets of 64 bits that the tokenizer asks. Private to it.
#pragma once

#include <bit>
#include <cstdint>

namespace kairos::pgn {

// All bits below the lowest (highest) one of a set; of the empty set all (none).
constexpr std::uint64_t below_lowest(std::uint64_t bits) {
  return ~bits & (bits - 1);
}
constexpr std::uint64_t below_highest(std::uint64_t bits) {
  return bits == 0 ? 0 : (~std::uint64_t{0} >> std::countl_zero(bits)) >> 1;
}

constexpr std::uint64_t lowest(std::uint64_t bits) {
  return bits & (~bits + 1);
}

}  // namespace kairos::pgn
