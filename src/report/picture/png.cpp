#include "png.hpp"

#include <algorithm>
#include <cstdlib>
#include <zlib.h>

namespace kairos::report {

namespace {

void add_big_endian(std::string& bytes, std::uint64_t value) {
  for (const int shift : {24, 16, 8, 0}) bytes += static_cast<char>(value >> shift & 0xFF);
}

std::uint64_t checksum(std::string_view bytes) {
  return ::crc32(0, reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uInt>(bytes.size()));
}

// Length, type, data, and the CRC of type and data (5.3).
std::string chunk(std::string_view type, std::string_view data) {
  std::string bytes;
  add_big_endian(bytes, data.size());
  const std::string body = std::string(type) + std::string(data);
  bytes += body;
  add_big_endian(bytes, checksum(body));
  return bytes;
}

std::string header(const Canvas& canvas, bool has_alpha) {
  std::string data;
  add_big_endian(data, static_cast<std::uint64_t>(canvas.size()));
  add_big_endian(data, static_cast<std::uint64_t>(canvas.size()));
  data += '\x08';  // bits a channel
  data += has_alpha ? '\x06' : '\x02';
  return data + std::string(3, '\0');  // deflate, the standard's filters, not interlaced
}

std::string row_bytes(const Canvas& canvas, int y, bool has_alpha) {
  std::string bytes;
  bytes.reserve(static_cast<std::size_t>(canvas.size()) * (has_alpha ? 4 : 3));
  for (int x = 0; x < canvas.size(); ++x) {
    const Pixel& pixel = canvas.at(x, y);
    bytes += static_cast<char>(pixel.red);
    bytes += static_cast<char>(pixel.green);
    bytes += static_cast<char>(pixel.blue);
    if (has_alpha) bytes += static_cast<char>(pixel.alpha);
  }
  return bytes;
}

// Every row by the filter "up" (9.2): what it adds to the row above. Most rows of a board repeat
// the one above, and become zeros.
std::string filtered(const Canvas& canvas, bool has_alpha) {
  std::string all;
  std::string above(static_cast<std::size_t>(canvas.size()) * (has_alpha ? 4 : 3), '\0');
  all.reserve((above.size() + 1) * static_cast<std::size_t>(canvas.size()));
  for (int y = 0; y < canvas.size(); ++y) {
    const std::string row = row_bytes(canvas, y, has_alpha);
    all += '\x02';
    for (std::size_t i = 0; i < row.size(); ++i) all += static_cast<char>(row[i] - above[i]);
    above = row;
  }
  return all;
}

bool has_transparent_pixel(const Canvas& canvas) {
  for (int y = 0; y < canvas.size(); ++y) {
    for (int x = 0; x < canvas.size(); ++x) {
      if (canvas.at(x, y).alpha < 255) return true;
    }
  }
  return false;
}

}  // namespace

base::Result<std::string> to_png(const Canvas& canvas) {
  const bool has_alpha = has_transparent_pixel(canvas);
  const std::string raw = filtered(canvas, has_alpha);
  uLongf size = ::compressBound(static_cast<uLong>(raw.size()));
  std::string packed(size, '\0');
  constexpr int effort = 6;
  if (::compress2(reinterpret_cast<Bytef*>(packed.data()), &size,
                  reinterpret_cast<const Bytef*>(raw.data()), static_cast<uLong>(raw.size()),
                  effort) != Z_OK) {
    return base::Fault{base::Code::cannot_write, "no memory to pack the picture", {}};
  }
  packed.resize(size);
  return "\x89PNG\r\n\x1A\n" + chunk("IHDR", header(canvas, has_alpha)) +
         chunk("sRGB", std::string(1, '\0')) + chunk("IDAT", packed) + chunk("IEND", "");
}

}  // namespace kairos::report
