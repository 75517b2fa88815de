// The searcher: alpha-beta with iterative deepening over one position at a time; and what the
// exchanges on one square come to.
//
// Same position, history, limits and table state give the same verdict, node for node. The object
// owns its transposition table and statistics and keeps them between searches; `clear` forgets
// everything, after which results depend on nothing searched before. One object per thread.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>

#include "kairos/rules/position.hpp"
#include "kairos/search/limits.hpp"
#include "kairos/search/verdict.hpp"

namespace kairos::search {

inline constexpr std::size_t default_table_bytes = std::size_t{16} << 20;

class Searcher {
 public:
  explicit Searcher(std::size_t table_bytes = default_table_bytes);
  ~Searcher();
  Searcher(Searcher&&) noexcept;
  Searcher& operator=(Searcher&&) noexcept;

  // `earlier` are the keys of the game's positions before `root`, oldest first, for repetitions.
  Verdict search(const rules::Position& root, std::span<const rules::Key> earlier,
                 const Limits& limits);
  void clear();
  // Nodes of all searches so far; not forgotten by `clear`.
  [[nodiscard]] std::uint64_t nodes() const;

 private:
  class Implementation;
  std::unique_ptr<Implementation> implementation_;
};

// What a capture (or any move) wins by exchanges on its target square alone, in centipawns.
Score exchange_value(const rules::Position& position, rules::Move move);

}  // namespace kairos::search
