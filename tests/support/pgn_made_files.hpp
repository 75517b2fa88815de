// PGN files made by chance, or by the bytes of a fuzzer, so that they cross every border of a
// reader that reads through a window: pieces of a structure as files have it (tags, moves of legal
// games, comments, variations, NAGs, escape lines, text between games, damage of every kind that
// the list in kairos/pgn/reader.hpp names), with lengths drawn around the sizes of blocks and
// windows.
//
// What reader and twin are known to read differently is not made; tests/pgn/twin_test.cpp lists it.
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <string_view>

namespace kairos::test {

// Numbers to choose by: without end from a seed, or from bytes until they are used up.
class Choices {
 public:
  explicit Choices(std::uint64_t seed) : random_(seed) {}
  explicit Choices(std::string_view bytes) : bytes_(bytes), from_bytes_(true) {}

  // Below n; 0 when the bytes are used up.
  std::size_t below(std::size_t n);
  // True once in n times; never when the bytes are used up.
  bool once_in(std::size_t n) { return below(n) == n - 1; }
  [[nodiscard]] bool used_up() const { return from_bytes_ && bytes_.empty(); }

 private:
  std::mt19937_64 random_;
  std::string_view bytes_;
  bool from_bytes_ = false;
};

// A file of about `size` bytes at most (its last piece may be longer).
std::string made_file(Choices& choices, std::size_t size);
// The file of a seed: most are small, one in a thousand is larger than any window.
std::string made_file(std::uint64_t seed);

}  // namespace kairos::test
