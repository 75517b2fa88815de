// The clock, behind an interface that tests can move, and the times at which a run must end.
//
// Time of day of this machine, its zone and summer time included. Only a deadline and the estimate
// of the time left depend on it, never what a study says.
#pragma once

#include <chrono>
#include <string_view>

#include "kairos/base/result.hpp"

namespace kairos::batch {

class Clock {
 public:
  using Time = std::chrono::system_clock::time_point;

  virtual ~Clock() = default;
  virtual Time now() = 0;
};

class SystemClock final : public Clock {
 public:
  Time now() override { return std::chrono::system_clock::now(); }
};

// "07:00": the next time that it is seven o'clock here.
base::Result<Clock::Time> next_time_of_day(std::string_view hh_mm, Clock::Time now);
// More than 0 hours, a year at most.
base::Result<Clock::Time> hours_later(double hours, Clock::Time now);

}  // namespace kairos::batch
