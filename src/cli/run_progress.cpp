#include "run_progress.hpp"

#include "kairos/base/text.hpp"

#include "log.hpp"
#include "progress_line.hpp"
#include "terminal.hpp"
#include "threads.hpp"

namespace kairos::cli {

std::string run_progress_text(const batch::Snapshot& s) {
  const auto of = [](std::uint64_t done, std::uint64_t total, const char* what) {
    return base::grouped(done) + " of " + base::grouped(total) + " " + what;
  };
  std::string text = s.surveyed < s.games ? "survey: " + of(s.surveyed, s.games, "games")
                                          : "verify: " + of(s.verified, s.candidates, "places");
  text += ", " + base::grouped(s.moments) + " moments, " + base::grouped(s.puzzles) + " puzzles";
  if (s.seconds > 0) {
    const double rate = static_cast<double>(s.nodes) / s.seconds;
    text += ", " + base::grouped(static_cast<std::uint64_t>(rate)) + " nodes/s";
  }
  if (s.seconds_left) text += ", " + duration_text(*s.seconds_left) + " left";
  return text;
}

RunProgress::~RunProgress() {
  ErrorStream::get().clear();
  if (!last_.empty()) log_record(last_ + "; took " + duration_text(seconds_));
}

void RunProgress::go_on_with_fewer_threads() {
  tell_fewer_threads();
}

void RunProgress::go_on_without_reasons(const base::Fault& refused) {
  log_warning("going on without the reasons of a moment, which is a fault of kairos: " +
              refused.detail);
}

void RunProgress::show(const batch::Snapshot& snapshot) {
  constexpr std::chrono::milliseconds redraw{100};
  constexpr std::chrono::seconds plain_line{30};
  ErrorStream& stream = ErrorStream::get();
  const bool redraws = stream.looks().redraws;
  const Clock::time_point now = Clock::now();
  last_ = run_progress_text(snapshot);
  seconds_ = snapshot.seconds;
  if (now - recorded_ >= plain_line) {
    recorded_ = now;
    log_record(last_);
  }
  if (log_is_quiet() || now - shown_ < (redraws ? Clock::duration(redraw) : plain_line)) return;
  shown_ = now;
  redraws ? stream.draw(last_) : stream.line(last_);
}

}  // namespace kairos::cli
