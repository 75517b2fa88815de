// The runner: works off the schedule with threads, and puts what they find into the ledger.
//
// Each task gets a cleared searcher, so results do not depend on threads, order, or interruption,
// and they enter the ledger in the order of the schedule: its bytes do not depend on them either (a
// result that is ready before its turn waits in memory, a thousand at most, and a kill loses it). A
// run ends when all is done, at its deadline, or when `stop` becomes true (a signal): no new task
// is begun then, and those under way are finished. What is in the ledger by then is whole and
// valid, and the same command goes on from there. When the ledger cannot be written (disk full),
// all threads stop and the fault is returned.
#pragma once

#include <atomic>
#include <cstdint>
#include <optional>

#include "kairos/base/result.hpp"
#include "kairos/batch/clock.hpp"
#include "kairos/batch/ledger.hpp"
#include "kairos/batch/progress.hpp"
#include "kairos/batch/run.hpp"
#include "kairos/study/settings.hpp"

namespace kairos::batch {

struct RunPlan {
  study::Settings settings;
  Focus focus;
  unsigned threads = 1;
  std::optional<Clock::Time> deadline;
  const std::atomic<bool>* stop = nullptr;
};

enum class Ending : std::uint8_t { finished, out_of_time, interrupted };

// `clock` and `progress` are used by all threads, but never by two at once.
base::Result<Ending> run(Ledger& ledger, const Input& input, const RunPlan& plan, Clock& clock,
                         Progress& progress);

}  // namespace kairos::batch
