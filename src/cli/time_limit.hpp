// A flag that becomes true when time is up, or when a person asks for the end.
#pragma once

#include <atomic>
#include <thread>

namespace kairos::cli {

class TimeLimit {
 public:
  // 0 seconds: no limit but the interrupt.
  TimeLimit(double seconds, const std::atomic<bool>& interrupt);
  [[nodiscard]] const std::atomic<bool>& is_over() const { return over_; }

 private:
  std::atomic<bool> over_{false};
  std::jthread watch_;  // last: it uses what stands above
};

}  // namespace kairos::cli
