#include "kairos/base/checksum.hpp"

#include <catch2/catch.hpp>

using namespace kairos::base;

TEST_CASE("CRC-32 gives the check value of its standard") {
  CHECK(crc32("123456789") == 0xCBF43926);  // ITU-T V.42, the usual check value
  CHECK(crc32("") == 0);
}

TEST_CASE("a checksum in pieces is that of the whole") {
  const std::string_view text = "1. e4 e5 2. Nf3 Nc6 3. Bb5";
  for (std::size_t cut = 0; cut <= text.size(); ++cut) {
    CHECK(crc32(text.substr(cut), crc32(text.substr(0, cut))) == crc32(text));
  }
}

TEST_CASE("a checksum notices every single bit") {
  const std::string text = "Na4 Bg7 0-0 = 1/2";
  for (std::size_t bit = 0; bit < text.size() * 8; ++bit) {
    std::string damaged = text;
    damaged[bit / 8] = static_cast<char>(damaged[bit / 8] ^ (1 << bit % 8));
    CHECK(crc32(damaged) != crc32(text));
  }
}

TEST_CASE("the 64-bit hash gives the published values of FNV-1a") {
  // RFC 9923, test vectors for FNV-1a 64 (from memory; the first is the offset basis by
  // definition).
  CHECK(hash64("") == 0xCBF29CE484222325);
  CHECK(hash64("a") == 0xAF63DC4C8601EC8C);
  CHECK(hash64("foobar") == 0x85944171F73967E8);
}
