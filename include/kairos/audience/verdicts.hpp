// Verdicts on the moves that people name, found in the background: in the order they are handed in,
// each by itself, so that none depends on the others or on how many threads there are. Where the
// system gives no thread, they are found when the caller waits for them.
#pragma once

#include <condition_variable>
#include <deque>
#include <map>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "kairos/audience/tally.hpp"
#include "kairos/puzzle/exercise.hpp"
#include "kairos/study/search_move.hpp"

namespace kairos::audience {

class Verdicts {
 public:
  // `nodes` for each move, in so many threads (0: one on each core; 8 at most). Begins with the
  // keys. The exercise must outlive the object.
  Verdicts(const puzzle::Exercise& exercise, std::uint64_t nodes, int threads);
  ~Verdicts();  // waits for the moves under way, no others

  // Whether there are fewer threads than were asked for.
  [[nodiscard]] bool lacks_threads() const { return lacks_threads_; }
  void hand_in(rules::Move move);  // each once, no key
  // Waits until all are known.
  void finish();
  // Weighs the moves of the tally whose verdict is known by now; none before the keys' are.
  void complete(Tally& tally);

 private:
  struct Task {
    rules::Move move;
    bool is_taken = false;
    std::optional<study::MoveVerdict> verdict{};
  };
  using Lock = std::unique_lock<std::mutex>;
  using Known = std::map<std::uint16_t, study::MoveVerdict>;  // by the move's bits

  void work(const std::stop_token& end);
  Task* waiting();  // the first that nobody has taken, or nullptr
  void do_next(Lock& lock, search::Searcher& searcher);
  [[nodiscard]] Known known() const;

  const puzzle::Exercise& exercise_;
  std::uint64_t nodes_;
  bool lacks_threads_ = false;
  std::map<std::uint16_t, study::Weighed> weighed_;  // by the move's bits
  mutable std::mutex mutex_;
  std::condition_variable_any changed_;
  std::deque<Task> tasks_;             // as handed in; they do not move
  std::size_t open_ = 0;               // without a verdict
  std::size_t at_work_ = 0;            // threads
  std::vector<std::jthread> threads_;  // last: they use what stands above
};

}  // namespace kairos::audience
