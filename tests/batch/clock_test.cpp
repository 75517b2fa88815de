#include "kairos/batch/clock.hpp"

#include <catch2/catch.hpp>
#include <ctime>

using namespace std::chrono_literals;
using kairos::batch::Clock;
using kairos::batch::hours_later;
using kairos::batch::next_time_of_day;

namespace {

Clock::Time local_time(int hour, int minute) {
  std::tm time{};
  time.tm_year = 2026 - 1900;
  time.tm_mon = 4;
  time.tm_mday = 12;
  time.tm_hour = hour;
  time.tm_min = minute;
  time.tm_isdst = -1;
  return std::chrono::system_clock::from_time_t(std::mktime(&time));
}

}  // namespace

TEST_CASE("a time of day is the next one, today or tomorrow") {
  const Clock::Time evening = local_time(22, 30);
  CHECK(next_time_of_day("23:15", evening).value() == evening + 45min);
  CHECK(next_time_of_day("7:00", evening).value() == evening + 8h + 30min);
  CHECK(next_time_of_day("22:30", evening).value() == evening + 24h);
  CHECK(next_time_of_day("22:30", evening - 1s).value() == evening);
  CHECK(next_time_of_day("00:00", evening).value() == evening + 1h + 30min);
}

TEST_CASE("what is no time of day is refused") {
  for (const char* text : {"", "7", "24:00", "12:60", "7:5", "07:00:00", "a:bc", "-1:00"}) {
    CAPTURE(text);
    CHECK(next_time_of_day(text, local_time(1, 0)).fault().code == kairos::base::Code::usage);
  }
}

TEST_CASE("hours are counted from now, and must be sensible") {
  const Clock::Time now = local_time(1, 0);
  CHECK(hours_later(8, now).value() == now + 8h);
  CHECK(hours_later(0.5, now).value() == now + 30min);
  for (const double hours : {0.0, -1.0, 1e9, std::numeric_limits<double>::quiet_NaN()}) {
    CHECK_FALSE(hours_later(hours, now).ok());
  }
}
