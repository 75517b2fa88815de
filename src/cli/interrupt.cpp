#include "interrupt.hpp"

#include <csignal>
#include <sys/time.h>
#include <unistd.h>

#include "exit_codes.hpp"

namespace kairos::cli {

namespace {

std::atomic<bool> caught{false};  // the first signal does not end the program
std::atomic<bool> interrupted{false};
std::atomic<bool> over{false};  // interrupted, or the time is up
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may set it");

void take(int) {
  if (!caught || interrupted.exchange(true)) ::_exit(exit_interrupted);
  over = true;
}

void take_alarm(int) {
  over = true;
}

// Calls that wait are broken off (there is no SA_RESTART), also where the caller of the program had
// the signal blocked.
void handle(int signal_number, void (*handler)(int)) {
  struct sigaction action {};
  action.sa_handler = handler;
  ::sigaction(signal_number, &action, nullptr);
  sigset_t signals;
  ::sigemptyset(&signals);
  ::sigaddset(&signals, signal_number);
  ::sigprocmask(SIG_UNBLOCK, &signals, nullptr);
}

}  // namespace

void end_at_interrupts() {
  handle(SIGINT, take);
  handle(SIGTERM, take);
}

const std::atomic<bool>& catch_interrupts() {
  caught = true;
  return interrupted;
}

bool is_interrupted() {
  return interrupted;
}

const std::atomic<bool>& catch_interrupts_or_stop_after(double seconds) {
  caught = true;
  handle(SIGALRM, take_alarm);
  over = false;
  if (interrupted) over = true;  // looked at last: a signal may come at any time
  const auto whole = static_cast<time_t>(seconds);
  const auto micro = static_cast<suseconds_t>((seconds - static_cast<double>(whole)) * 1e6);
  const itimerval timer{.it_interval = {}, .it_value = {whole, micro}};
  ::setitimer(ITIMER_REAL, &timer, nullptr);
  return over;
}

}  // namespace kairos::cli
