// Answers one question about a position, ever more exactly.
//
// The position is searched for its best two moves, then these and the moves asked about each by
// itself from the position after it, with a searcher of its own: the same nodes give the same
// answer, whatever was asked before and however many threads share the work. One thread at a time
// may use it.
#pragma once

#include <atomic>
#include <functional>
#include <memory>

#include "kairos/audience/question.hpp"
#include "kairos/search/score.hpp"

namespace kairos::audience {

// What an answer comes to, to tell whether a longer look has changed it.
struct Opinion {
  rules::Move best;
  double best_expectation = 0;       // of the side to move
  std::vector<double> expectations;  // of the moves asked about
};
// Another best move by more than can be told, or another standing of the best or a move asked
// about.
bool changes(const Opinion& from, const Opinion& to);

class Responder {
 public:
  // `fewer` as of base::share_out.
  Responder(Question question, std::function<void()> fewer);
  ~Responder();

  // Searches each move with so many nodes (of `all` with an eighth), and twice as many to find the
  // best. False when it was stopped: what is told has not changed then.
  bool deepen(std::uint64_t nodes, int threads, const std::atomic<bool>* stop = nullptr);

  // After the first `deepen`.
  [[nodiscard]] Response response() const;  // with the reasons, which are proved anew
  [[nodiscard]] Opinion opinion() const;
  [[nodiscard]] const Question& question() const;
  [[nodiscard]] std::uint64_t effort() const;  // nodes of the last `deepen`; 0: none yet
  [[nodiscard]] std::uint64_t nodes() const;   // searched so far

 private:
  class Implementation;
  std::unique_ptr<Implementation> implementation_;
};

}  // namespace kairos::audience
