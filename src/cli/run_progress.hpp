// The progress of a run, as one line on a terminal or a plain line now and then elsewhere.
#pragma once

#include <chrono>
#include <string>

#include "kairos/batch/progress.hpp"

namespace kairos::cli {

// "survey 12 of 91 games, 85 candidates, 1,234,567 nodes/s, 3:20 left". Pure.
std::string run_progress_text(const batch::Snapshot& snapshot);

class RunProgress final : public batch::Progress {
 public:
  RunProgress() = default;
  RunProgress(const RunProgress&) = delete;
  RunProgress& operator=(const RunProgress&) = delete;
  ~RunProgress() override;

  void show(const batch::Snapshot& snapshot) override;
  void go_on_with_fewer_threads() override;
  void go_on_without_reasons(const base::Fault& refused) override;

 private:
  using Clock = std::chrono::steady_clock;
  Clock::time_point shown_ = Clock::now();
  Clock::time_point recorded_ = Clock::now();
  std::string last_;  // as it would be shown now
  double seconds_ = 0;
};

}  // namespace kairos::cli
