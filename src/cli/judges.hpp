// Moves judged in the background, in the order they are handed in, each by itself: the verdict on
// one depends neither on the others nor on how many threads there are.
#pragma once

#include <condition_variable>
#include <deque>
#include <map>
#include <mutex>
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
  void work(const std::stop_token& end);

  rules::Position position_;
  std::uint64_t nodes_;
  mutable std::mutex mutex_;
  std::condition_variable_any changed_;
  std::deque<rules::Move> waiting_;
  std::size_t open_ = 0;  // handed in and not judged
  std::map<std::uint16_t, study::MoveVerdict> judged_;
  std::vector<std::jthread> threads_;  // last: they use what stands above
};

}  // namespace kairos::cli
