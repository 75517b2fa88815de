#include "kairos/base/checksum.hpp"

#include <array>

namespace kairos::base {

namespace {

constexpr std::array<std::uint32_t, 256> make_table() {
  std::array<std::uint32_t, 256> table{};
  for (std::uint32_t byte = 0; byte < 256; ++byte) {
    std::uint32_t rest = byte;
    for (int i = 0; i < 8; ++i) rest = (rest >> 1) ^ ((rest & 1) != 0 ? 0xEDB88320u : 0u);
    table[byte] = rest;
  }
  return table;
}

constexpr auto table = make_table();

}  // namespace

std::uint32_t crc32(std::string_view bytes, std::uint32_t seed) {
  std::uint32_t crc = ~seed;
  for (const char c : bytes) crc = (crc >> 8) ^ table[(crc ^ static_cast<unsigned char>(c)) & 0xFF];
  return ~crc;
}

std::uint64_t hash64(std::string_view bytes) {
  constexpr std::uint64_t offset_basis = 0xCBF29CE484222325;
  constexpr std::uint64_t prime = 0x100000001B3;
  std::uint64_t hash = offset_basis;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * prime;
  return hash;
}

}  // namespace kairos::base
