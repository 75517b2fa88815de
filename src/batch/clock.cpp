#include "kairos/batch/clock.hpp"

#include <cmath>
#include <ctime>

#include "kairos/base/text.hpp"

namespace kairos::batch {

base::Result<Clock::Time> next_time_of_day(std::string_view hh_mm, Clock::Time now) {
  const auto parts = base::split(hh_mm, ':');
  const auto hour = base::to_integer(parts.front()), minute = base::to_integer(parts.back());
  if (parts.size() != 2 || !hour || !minute || *hour < 0 || *hour > 23 || *minute < 0 ||
      *minute > 59 || parts.back().size() != 2) {
    return base::Fault{
        base::Code::usage,
        "a time of day is written HH:MM, for instance 07:00; not " + std::string(hh_mm),
        {}};
  }
  const std::time_t seconds = Clock::Time::clock::to_time_t(now);
  std::tm local{};
  ::localtime_r(&seconds, &local);
  for (int day = 0; day <= 1; ++day) {
    std::tm then = local;
    then.tm_mday += day;
    then.tm_hour = static_cast<int>(*hour);
    then.tm_min = static_cast<int>(*minute);
    then.tm_sec = 0;
    then.tm_isdst = -1;  // let the system find out
    const auto time = Clock::Time::clock::from_time_t(std::mktime(&then));
    if (time > now) return time;
  }
  return now;  // not reached: tomorrow's is always later
}

base::Result<Clock::Time> hours_later(double hours, Clock::Time now) {
  constexpr double most = 24.0 * 366;
  if (!std::isfinite(hours) || hours <= 0 || hours > most) {
    return base::Fault{base::Code::usage, "hours must be more than 0 and at most a year", {}};
  }
  const auto seconds = std::chrono::duration<double>(hours * 3600);
  return now + std::chrono::duration_cast<Clock::Time::duration>(seconds);
}

}  // namespace kairos::batch
