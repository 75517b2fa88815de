// A PNG file read by the letter of ISO/IEC 15948, to see what was written. What it does not know
// (interlacing, palettes, other depths) the pictures of kairos have not, and fails.
#pragma once

#include <catch2/catch.hpp>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/checksum.hpp"
#include "kairos/pgn/gzip_source.hpp"

#include "packed.hpp"

namespace kairos::test {

struct Png {
  int width = 0, height = 0, channels = 0;
  std::vector<std::string> chunks;  // their types, in order
  std::string rows;                 // as inflated, with the filter's byte before each
  std::string pixels;               // channels side by side

  // "fffdf7", or with alpha "fffdf7ff".
  [[nodiscard]] std::string at(int x, int y) const {
    REQUIRE((x >= 0 && x < width && y >= 0 && y < height));
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (int c = 0; c < channels; ++c) {
      const auto byte = static_cast<unsigned char>(
          pixels[static_cast<std::size_t>((y * width + x) * channels + c)]);
      text += digits[byte >> 4];
      text += digits[byte & 15];
    }
    return text;
  }
};

inline std::uint32_t big_endian(std::string_view bytes) {
  std::uint32_t value = 0;
  for (const char c : bytes.substr(0, 4)) value = value << 8 | static_cast<unsigned char>(c);
  return value;
}

// RFC 1950, section 8.2.
inline std::uint32_t adler32(std::string_view bytes) {
  std::uint32_t a = 1, b = 0;
  for (const char c : bytes) {
    a = (a + static_cast<unsigned char>(c)) % 65521;
    b = (b + a) % 65521;
  }
  return b << 16 | a;
}

// A zlib stream (RFC 1950) unpacked by the reader of gzip files: its data put into a member whose
// check sum and size must be right as well.
inline std::string inflated(std::string_view zlib) {
  REQUIRE(zlib.size() > 6);
  CHECK((static_cast<unsigned char>(zlib[0]) & 15) == 8);  // deflate
  CHECK((static_cast<unsigned char>(zlib[0]) * 256 + static_cast<unsigned char>(zlib[1])) % 31 ==
        0);
  const std::string_view data = zlib.substr(2, zlib.size() - 6);
  std::string text;
  for (const bool checked : {false, true}) {  // first to learn what the check sum is
    std::string member("\x1F\x8B\x08\0\0\0\0\0\0\xFF", 10);
    member += data;
    member += little_endian(base::crc32(text), 4) +
              little_endian(static_cast<std::uint32_t>(text.size()), 4);
    text.clear();
    auto source = pgn::unpacked(std::make_unique<base::MemorySource>(member), "png");
    REQUIRE(source);
    std::vector<char> room(1 << 16);
    for (;;) {
      const auto n = (*source)->read(room);
      if (checked) REQUIRE(n);
      if (!n || *n == 0) break;
      text.append(room.data(), *n);
    }
  }
  CHECK(adler32(text) == big_endian(zlib.substr(zlib.size() - 4)));
  return text;
}

// The filters "none" and "up" (9.2).
inline void unfilter(Png& png) {
  const auto row_size = static_cast<std::size_t>(png.width * png.channels);
  REQUIRE(png.rows.size() == (row_size + 1) * static_cast<std::size_t>(png.height));
  std::string above(row_size, '\0');
  for (std::size_t at = 0; at < png.rows.size(); at += row_size + 1) {
    const int filter = png.rows[at];
    REQUIRE((filter == 0 || filter == 2));
    for (std::size_t i = 0; i < row_size; ++i) {
      above[i] = static_cast<char>(png.rows[at + 1 + i] + (filter == 2 ? above[i] : 0));
    }
    png.pixels += above;
  }
}

inline Png read_png(std::string_view bytes) {
  REQUIRE(bytes.starts_with("\x89PNG\r\n\x1A\n"));
  bytes.remove_prefix(8);
  Png png;
  std::string packed_pixels;
  while (!bytes.empty()) {
    REQUIRE(bytes.size() >= 12);
    const std::uint32_t size = big_endian(bytes);
    REQUIRE(bytes.size() - 12 >= size);
    const std::string_view type = bytes.substr(4, 4), data = bytes.substr(8, size);
    CHECK(base::crc32(bytes.substr(4, size + 4)) == big_endian(bytes.substr(8 + size)));
    png.chunks.emplace_back(type);
    if (type == "IHDR") {
      REQUIRE(size == 13);
      png.width = static_cast<int>(big_endian(data));
      png.height = static_cast<int>(big_endian(data.substr(4)));
      CHECK(data[8] == 8);
      REQUIRE((data[9] == 2 || data[9] == 6));
      png.channels = data[9] == 2 ? 3 : 4;
      CHECK(data.substr(10) == std::string(3, '\0'));
    }
    if (type == "IDAT") packed_pixels += data;
    bytes.remove_prefix(size + 12);
  }
  png.rows = inflated(packed_pixels);
  unfilter(png);
  return png;
}

}  // namespace kairos::test
