// What a run tells about itself while it works; shown by whoever implements Progress.
//
// `show` is called after each piece of work (a game surveyed, a candidate verified), from the
// threads that did it but never from two at once, and must return quickly. Nothing that is written
// to a report depends on it.
#pragma once

#include <cstdint>
#include <optional>

#include "kairos/base/diagnostics.hpp"

namespace kairos::batch {

struct Snapshot {
  std::uint64_t games = 0;  // to survey, those of earlier runs included
  std::uint64_t surveyed = 0;
  std::uint64_t candidates = 0;  // known so far
  std::uint64_t verified = 0;
  std::uint64_t moments = 0;  // found in this run, by this process
  std::uint64_t puzzles = 0;
  std::uint64_t nodes = 0;             // of what was kept, by this process
  double seconds = 0;                  // since this process began
  std::optional<double> seconds_left;  // once there is something to reckon with
};

class Progress {
 public:
  virtual ~Progress() = default;
  virtual void show(const Snapshot& snapshot) = 0;
  // The system gives fewer threads, or less memory for them, than was asked for. Called once or
  // twice.
  virtual void go_on_with_fewer_threads() {}
  // The moments of one place are told without their reasons, which the ledger refused: a fault of
  // this program.
  virtual void go_on_without_reasons(const base::Fault& /*refused*/) {}
};

}  // namespace kairos::batch
