// The transposition table: what earlier visits found out about a position.
//
// Fixed size, clusters of one cache line. An entry may belong to another position with the same
// 32 key bits in the same cluster, so a move from here must be checked for legality before use.
// Mate scores are kept relative to the entry's own position (see to_table / from_table).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "kairos/rules/move.hpp"
#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

namespace kairos::search {

enum class Bound : std::uint8_t { none = 0, upper = 1, lower = 2, exact = 3 };

inline constexpr Score no_score = infinite_score + 1;

// What a probe found; `bound` none when nothing.
struct Found {
  rules::Move move;
  Score score = no_score;
  Score evaluation = no_score;
  int depth = -1;
  Bound bound = Bound::none;
  bool was_pv = false;
  bool hit = false;
};

// Whether a score found with that bound decides a search of the window: what lies outside of it
// need not be known better.
constexpr bool decides(Bound bound, Score score, Score alpha, Score beta) {
  return bound == Bound::exact || (bound == Bound::lower && score >= beta) ||
         (bound == Bound::upper && score <= alpha);
}

class Table {
 public:
  explicit Table(std::size_t bytes);
  ~Table();
  Table(const Table&) = delete;
  Table& operator=(const Table&) = delete;

  void clear();
  // Never 0, so that an entry in use has some bit of `info` set.
  void next_generation() { generation_ = static_cast<std::uint8_t>(generation_ % generations + 1); }
  void prefetch(rules::Key key) const { __builtin_prefetch(&clusters_[slot(key)]); }

  [[nodiscard]] Found probe(rules::Key key) const;
  void store(rules::Key key, rules::Move move, Score score, Score evaluation, int depth,
             Bound bound, bool pv);

 private:
  struct Entry {
    std::uint32_t check = 0;
    std::uint16_t move = 0;
    std::int16_t score = 0;
    std::int16_t evaluation = 0;
    std::int8_t depth = 0;
    std::uint8_t info = 0;  // bound in 2 bits, pv in 1, generation in 5
  };
  static constexpr std::size_t cluster_size = 5;
  static constexpr int generations = 31;
  struct alignas(64) Cluster {
    std::array<Entry, cluster_size> entries;
  };
  static_assert(sizeof(Cluster) == 64);

  [[nodiscard]] std::size_t slot(rules::Key key) const {
    // The upper bits of key times count: any number of clusters is reached evenly.
    __extension__ using Wide = unsigned __int128;
    return static_cast<std::size_t>((static_cast<Wide>(key) * count_) >> 64);
  }
  [[nodiscard]] int worth(const Entry& e) const;

  Cluster* clusters_ = nullptr;
  std::size_t count_ = 0;
  std::size_t bytes_ = 0;
  std::uint8_t generation_ = 1;
};

constexpr Score to_table(Score s, int ply) {
  if (s >= min_mate_score) return s + ply;
  if (s <= -min_mate_score) return s - ply;
  return s;
}
constexpr Score from_table(Score s, int ply) {
  if (s == no_score) return s;
  if (s >= min_mate_score) return s - ply;
  if (s <= -min_mate_score) return s + ply;
  return s;
}

}  // namespace kairos::search
