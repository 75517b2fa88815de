#include "progress_line.hpp"

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

#include "log.hpp"
#include "terminal.hpp"

namespace kairos::cli {

namespace {

constexpr double redraw_seconds = 0.1;
constexpr double plain_line_seconds = 30;

std::string rate_text(double per_second, std::string_view unit) {
  std::string text = per_second >= 100 ? base::grouped(static_cast<std::uint64_t>(per_second))
                                       : base::fixed(per_second, 1);
  return (text += ' ').append(unit) += "/s";
}

std::string two_digits(std::int64_t value) {
  std::string text = base::number(value);
  if (value < 10) text.insert(text.begin(), '0');
  return text;
}

}  // namespace

std::string duration_text(double seconds) {
  const auto all = static_cast<std::int64_t>(seconds + 0.5);
  const std::string minutes_seconds = two_digits(all % 60);
  if (all < 3600) return base::number(all / 60) + ":" + minutes_seconds;
  return base::number(all / 3600) + ":" + two_digits(all / 60 % 60) + ":" + minutes_seconds;
}

std::string progress_text(const ProgressState& state) {
  std::string text;
  if (!state.note.empty()) text += base::visible(state.note) + ": ";
  text += base::grouped(state.done);
  if (state.total != 0) text += " of " + base::grouped(state.total);
  (text += ' ').append(state.unit);
  if (state.seconds <= 0 || state.done <= state.done_at_start) return text;
  const double rate = static_cast<double>(state.done - state.done_at_start) / state.seconds;
  text += ", " + rate_text(rate, state.unit);
  if (state.total > state.done) {
    text += ", " + duration_text(static_cast<double>(state.total - state.done) / rate) + " left";
  }
  return text;
}

ProgressLine::ProgressLine(std::string unit) : unit_(std::move(unit)) {
  restart();
}

ProgressLine::~ProgressLine() {
  ErrorStream::get().clear();
}

void ProgressLine::restart() {
  const std::lock_guard lock(mutex_);
  start_ = shown_ = Clock::now();
  started_ = false;
}

double ProgressLine::seconds_since(Clock::time_point then) const {
  return std::chrono::duration<double>(Clock::now() - then).count();
}

void ProgressLine::update(std::uint64_t done, std::uint64_t total, std::string_view note) {
  const std::lock_guard lock(mutex_);
  if (!started_) done_at_start_ = done;
  started_ = true;
  ErrorStream& stream = ErrorStream::get();
  const bool redraws = stream.looks().redraws;
  if (log_is_quiet() || seconds_since(shown_) < (redraws ? redraw_seconds : plain_line_seconds)) {
    return;
  }
  shown_ = Clock::now();
  const std::string text = progress_text({.done = done,
                                          .total = total,
                                          .done_at_start = done_at_start_,
                                          .seconds = seconds_since(start_),
                                          .unit = unit_,
                                          .note = note});
  redraws ? stream.draw(text) : stream.line(text);
}

}  // namespace kairos::cli
