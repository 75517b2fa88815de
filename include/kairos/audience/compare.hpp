// Compares moves of one position, ever more exactly.
//
// Each move has a searcher of its own that looks at the position after it, so the verdict on one
// depends neither on the others nor on how many threads share the work: the same nodes give the
// same words. The best move is looked for too, unless all legal moves are compared anyway or the
// best is known.
#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "kairos/audience/comparison.hpp"
#include "kairos/base/result.hpp"
#include "kairos/people/share.hpp"
#include "kairos/puzzle/exercise.hpp"
#include "kairos/rules/letters.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/study/search_move.hpp"

namespace kairos::audience {

// The moves named in several words or phrases ("rook" "e4" is one, "Nf3" "rook" "e4" are two), each
// once, refused ones among them. Fault: a word names no move.
base::Result<std::vector<CalledMove>> called_moves(const rules::Position& position,
                                                   const std::vector<std::string>& words,
                                                   rules::Letters letters);

// What players of that rating would play of the moves compared. `before` is what was played before
// the position, `earlier` the keys of the positions before it.
Level level_of(const Comparison& comparison, std::span<const rules::Key> earlier,
               const people::Before& before, int rating);

class Comparer {
 public:
  enum class Best { search, among_the_moves };

  // Legal moves, each once. A refutation that is known of one, from `tries`, is looked at beside
  // what the search finds. `fewer` is called where there are fewer threads than were asked for.
  Comparer(const rules::Position& position, std::vector<rules::Key> earlier,
           const std::vector<rules::Move>& moves, const std::vector<puzzle::Try>& tries, Best best,
           std::function<void()> fewer);
  ~Comparer();

  // Searches every move with so many nodes, and twice as many to find the best. False when it was
  // stopped: what is told has not changed then.
  bool deepen(std::uint64_t nodes, int threads, const std::atomic<bool>* stop = nullptr);

  // After the first `deepen`; each move is proved anew.
  [[nodiscard]] std::vector<study::Weighed> weighed() const;  // in the order of the moves
  [[nodiscard]] Comparison comparison(const std::vector<CalledMove>& called) const;
  [[nodiscard]] std::uint64_t nodes() const;  // searched so far

 private:
  struct Entry;

  [[nodiscard]] const Entry& best_entry() const;
  Entry* uncalled_best();
  void find_best(std::uint64_t nodes, const std::atomic<bool>* stop);
  [[nodiscard]] study::Weighed weighed(const Entry& entry, search::Score best) const;

  rules::Position position_;
  std::vector<rules::Key> earlier_;
  std::size_t table_bytes_;  // of each move's searcher
  Best how_best_;
  std::function<void()> fewer_;
  std::vector<std::unique_ptr<Entry>> entries_;   // of the moves
  std::vector<std::unique_ptr<Entry>> uncalled_;  // best moves that nobody named
  search::Searcher searcher_;                     // for the best
  rules::Move found_;                             // by it
};

}  // namespace kairos::audience
