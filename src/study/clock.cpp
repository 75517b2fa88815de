#include "clock.hpp"

#include "kairos/base/text.hpp"
#include "kairos/study/study.hpp"

namespace kairos::study {

namespace {

constexpr std::int64_t most_of_part = 1000;
static_assert(most_of_part * (3600 + 60 + 1) == most_clock_seconds);

// "1:02:03" in seconds; -1 unless it is two or three numbers with colons between.
int seconds_of(std::string_view reading) {
  reading = reading.substr(0, reading.find('.'));
  const auto parts = base::split(reading, ':');
  if (parts.size() < 2 || parts.size() > 3) return -1;
  std::int64_t seconds = 0;
  for (const std::string_view part : parts) {
    const auto number = base::to_integer(part);
    if (!number || *number < 0 || *number > most_of_part) return -1;
    seconds = seconds * 60 + *number;
  }
  return static_cast<int>(seconds);
}

}  // namespace

int clock_seconds(std::string_view comment) {
  constexpr std::string_view opening = "[%clk ";
  const auto begin = comment.find(opening);
  if (begin == std::string_view::npos) return -1;
  const auto rest = comment.substr(begin + opening.size());
  const auto end = rest.find(']');
  if (end == std::string_view::npos) return -1;
  return seconds_of(base::trim(rest.substr(0, end)));
}

int clock_seconds(const pgn::Game& game, pgn::NodeId node) {
  const pgn::Annotation* annotation = game.annotation_of(node);
  if (annotation == nullptr) return -1;
  for (const std::string& comment : annotation->comments) {
    if (const int seconds = clock_seconds(comment); seconds >= 0) return seconds;
  }
  return -1;
}

}  // namespace kairos::study
