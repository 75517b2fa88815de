// Several moves of one position weighed side by side, ever more exactly.
//
// Each move has a searcher of its own that looks at the position after it, so the judgement of one
// depends neither on the others nor on how many threads share the work: the same nodes give the
// same words. The best move is looked for too, unless all legal moves are weighed anyway or the
// best is known.
#pragma once

#include <atomic>
#include <memory>
#include <optional>
#include <vector>

#include "kairos/study/weigh.hpp"

namespace kairos::cli {

class Scales {
 public:
  enum class Best { search, among_the_moves };

  // `moves`: how many will be added at the most, so that all their tables find room.
  Scales(const rules::Position& position, std::vector<rules::Key> earlier, std::size_t moves,
         Best best);
  ~Scales();

  // A legal move, once. A known refutation is looked at beside what the search finds.
  void add(rules::Move move, const std::vector<rules::Move>& refutation = {});
  // Judges every move with so many nodes, twice as many to find the best. False when it was
  // stopped: nothing has changed then.
  bool deepen(std::uint64_t nodes, int threads, const std::atomic<bool>* stop = nullptr);

  // After the first `deepen`: the moves in the order they were added, and the best, which may be
  // none of them. Each is proved anew.
  [[nodiscard]] std::vector<study::Weighed> weighed() const;
  [[nodiscard]] rules::Move best_move() const;
  [[nodiscard]] study::Weighed weighed_best() const;
  [[nodiscard]] std::uint64_t nodes() const;  // searched for what is told now

 private:
  struct Pan;

  [[nodiscard]] const Pan& best_pan() const;
  Pan* unasked_best();
  void find_best(std::uint64_t nodes, const std::atomic<bool>* stop);

  rules::Position position_;
  std::vector<rules::Key> earlier_;
  std::size_t table_bytes_;
  Best how_best_;
  std::vector<std::unique_ptr<Pan>> pans_;    // as added
  std::vector<std::unique_ptr<Pan>> hidden_;  // best moves that nobody asked about
  search::Searcher searcher_;                 // for the best
  rules::Move found_;                         // by it
};

}  // namespace kairos::cli
