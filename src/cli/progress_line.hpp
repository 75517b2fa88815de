// Progress for people who wait: how much is done, how fast, how long it may still take.
//
// On a terminal one line is drawn over again (ten times a second at most); elsewhere a plain line
// comes now and then (every 30 seconds), so that a log stays readable. Always on standard error.
// Thread-safe. Rate and time left count from what was done at the first update, so that a resumed
// run is not taken for a fast one.
#pragma once

#include <chrono>
#include <cstdint>
#include <mutex>
#include <string>
#include <string_view>

namespace kairos::cli {

struct ProgressState {
  std::uint64_t done = 0;
  std::uint64_t total = 0;          // 0: not known
  std::uint64_t done_at_start = 0;  // before this run
  double seconds = 0;               // since the start of this run
  std::string_view unit = "games";  // what is counted
  std::string_view note;            // what is being done; may be empty
};

// "survey: 12 of 91 games, 3.4 games/s, 0:23 left". Pure.
std::string progress_text(const ProgressState& state);
// "0:23", "12:05", "3:04:05".
std::string duration_text(double seconds);

class ProgressLine {
 public:
  explicit ProgressLine(std::string unit);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  void update(std::uint64_t done, std::uint64_t total, std::string_view note = {});
  // Starts counting anew, for the next stage of the work.
  void restart();

 private:
  using Clock = std::chrono::steady_clock;
  [[nodiscard]] double seconds_since(Clock::time_point then) const;

  std::string unit_;
  std::mutex mutex_;
  Clock::time_point start_;
  Clock::time_point shown_;
  std::uint64_t done_at_start_ = 0;
  bool started_ = false;
};

}  // namespace kairos::cli
