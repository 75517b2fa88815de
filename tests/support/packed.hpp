// Text as gzip data. zlib has its homes in the sources (src/pgn/gzip_source.cpp unpacks), so packed
// bytes for tests come from a small packer here that only stores (RFC 1951, 3.2.4, in members of
// RFC 1952).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "kairos/base/checksum.hpp"

namespace kairos {

inline std::string little_endian(std::uint32_t value, int bytes) {
  std::string text;
  for (int i = 0; i < bytes; ++i) text += static_cast<char>(value >> (8 * i) & 0xFF);
  return text;
}

// One gzip member that holds `text` in stored blocks.
inline std::string packed(std::string_view text) {
  std::string member("\x1F\x8B\x08\0\0\0\0\0\0\xFF", 10);
  std::size_t at = 0;
  do {
    const auto part = text.substr(at, 60000);
    at += part.size();
    const auto size = static_cast<std::uint32_t>(part.size());
    member += at == text.size() ? '\x01' : '\0';
    member += little_endian(size, 2) + little_endian(~size & 0xFFFF, 2);
    member += part;
  } while (at != text.size());
  return member + little_endian(base::crc32(text), 4) +
         little_endian(static_cast<std::uint32_t>(text.size()), 4);
}

}  // namespace kairos
