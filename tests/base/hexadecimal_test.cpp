#include "kairos/base/hexadecimal.hpp"

#include <catch2/catch.hpp>

using namespace kairos::base;

TEST_CASE("a number is written in so many small hexadecimal digits and read back") {
  CHECK(to_hexadecimal(0x1A2B3C4D, 8) == "1a2b3c4d");
  CHECK(to_hexadecimal(0xF, 4) == "000f");
  CHECK(to_hexadecimal(~std::uint64_t{0}, 16) == "ffffffffffffffff");
  for (int shift = 0; shift < 64; ++shift) {
    const std::uint64_t value = ~std::uint64_t{0} >> shift;
    CHECK(parse_hexadecimal(to_hexadecimal(value, 16)) == value);
  }
}

TEST_CASE("no hexadecimal number is read from what is never written") {
  for (const char* text : {"", "1A", "-1", "+1", " 1", "1 ", "0x1", "g", "10000000000000000"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_hexadecimal(text));
  }
}
