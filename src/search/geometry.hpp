// Geometry of the board that the endings ask for, beyond what rules has: how far
// apart squares lie, and which squares are ahead of a set.
#pragma once

#include "kairos/rules/bitboard.hpp"

namespace kairos::search {

// The square with the board turned upside down for Black.
constexpr rules::Square relative(rules::Color c, rules::Square s) {
  return c == rules::white ? s : rules::mirrored(s);
}
// In moves of a king on an empty board.
constexpr int distance(rules::Square a, rules::Square b) {
  const int files = rules::file_of(a) - rules::file_of(b);
  const int ranks = rules::rank_of(a) - rules::rank_of(b);
  const int f = files < 0 ? -files : files;
  const int r = ranks < 0 ? -ranks : ranks;
  return f > r ? f : r;
}
// Files between the square and the nearer edge.
constexpr int files_from_edge(rules::Square s) {
  const int file = rules::file_of(s);
  return file < 4 ? file : 7 - file;
}
// All squares ahead of the set on its files, the set itself left out.
constexpr rules::Bitboard ahead(rules::Color c, rules::Bitboard set) {
  if (c == rules::white) {
    set <<= 8;
    set |= set << 8;
    set |= set << 16;
    return set | set << 32;
  }
  set >>= 8;
  set |= set >> 8;
  set |= set >> 16;
  return set | set >> 32;
}

}  // namespace kairos::search
