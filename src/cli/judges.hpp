// Moves judged in the background, in the order they are handed in, each by itself: the verdict on
// one depends neither on the others nor on how many threads there are. Where the system gives no
// thread, they are judged when the caller waits for them.
#pragma once

#include <condition_variable>
#include <deque>
#include <map>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "kairos/study/search_move.hpp"

namespace kairos::cli {

class Judges {
 public:
  // `nodes` for each move.
  Judges(const rules::Position& position, std::uint64_t nodes, int threads);
  ~Judges();  // waits for the moves under way, no others

  void hand_in(rules::Move move);  // each once
  // Waits until all are judged.
  void finish();
  // What is known so far, by the move's bits.
  [[nodiscard]] std::map<std::uint16_t, study::MoveVerdict> judged() const;

 private:
  struct Case {
    rules::Move move;
    bool is_taken = false;
    std::optional<study::MoveVerdict> judgement;
  };
  using Lock = std::unique_lock<std::mutex>;

  void work(const std::stop_token& end);
  Case* waiting();  // the first that nobody has taken, or nullptr
  void judge_next(Lock& lock, search::Searcher& searcher);

  rules::Position position_;
  std::uint64_t nodes_;
  mutable std::mutex mutex_;
  std::condition_variable_any changed_;
  std::deque<Case> cases_;             // as handed in; they do not move
  std::size_t open_ = 0;               // not judged
  std::size_t at_work_ = 0;            // threads
  std::vector<std::jthread> threads_;  // last: they use what stands above
};

}  // namespace kairos::cli
