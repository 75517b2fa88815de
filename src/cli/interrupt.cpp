#include "interrupt.hpp"

#include <csignal>

namespace kairos::cli {

namespace {

std::atomic<bool> interrupted{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may set it");

void take(int signal_number) {
  interrupted.store(true);
  std::signal(signal_number, SIG_DFL);
}

}  // namespace

const std::atomic<bool>& catch_interrupts() {
  std::signal(SIGINT, take);
  std::signal(SIGTERM, take);
  return interrupted;
}

}  // namespace kairos::cli
