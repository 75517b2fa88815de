#include "threads.hpp"

#include <CLI/CLI.hpp>
#include <atomic>

#include "log.hpp"
#include "numbers.hpp"

namespace kairos::cli {

void add_threads_option(CLI::App& command, int& threads) {
  add_number(command, "--threads", threads, "Threads at work; the results do not depend on it",
             {.least = 0, .most = 1024, .unit = "threads"})
      ->type_name("N")
      ->default_str("one a core");
}

void tell_fewer_threads() {
  static std::atomic<bool> told{false};
  if (told.exchange(true)) return;
  log_warning("the system gives no room for so many threads: going on with fewer");
}

}  // namespace kairos::cli
