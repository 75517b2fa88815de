// Scans as `kairos scan` does, at a tiny effort with one thread, and without its reports.
#pragma once

#include <atomic>
#include <string>

#include "kairos/batch/intake.hpp"
#include "kairos/batch/runner.hpp"

#include "support/small_games.hpp"

namespace kairos::test {

class NoProgress final : public batch::Progress {
 public:
  void show(const batch::Snapshot&) override {}
};

inline base::Result<batch::Ending> small_scan(const std::string& folder, const std::string& games,
                                              const batch::Part& part = {}) {
  static const std::atomic<bool> go{false};
  const study::Settings settings = tiny_settings();
  base::FaultList told;
  auto ledger =
      batch::Ledger::open(folder, {"1.0", "0a1b2c3d", 1, study::to_text(settings), part}, told);
  if (!ledger) return std::move(ledger).faults();
  auto input = batch::take_in({games}, *ledger, go);
  if (!input) return std::move(input).faults();
  if (auto put = ledger->put_input(*input); !put) return std::move(put).faults();
  batch::RunPlan plan;
  plan.settings = settings;
  batch::SystemClock clock;
  NoProgress progress;
  return batch::run(*ledger, *input, plan, clock, progress);
}

}  // namespace kairos::test
