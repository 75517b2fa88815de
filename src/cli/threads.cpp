#include "threads.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <atomic>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "kairos/base/threads.hpp"

#include "log.hpp"
#include "numbers.hpp"

namespace kairos::cli {

void add_threads_option(CLI::App& command, int& threads) {
  add_number(command, "--threads", threads, "Threads at work; the results do not depend on it",
             {.least = 0, .most = 1024, .unit = "threads"})
      ->type_name("N")
      ->default_str("one a core");
}

int thread_count(int asked, std::size_t things) {
  if (asked == 0) asked = static_cast<int>(std::thread::hardware_concurrency());
  return std::max(1, static_cast<int>(std::min(static_cast<std::size_t>(asked), things)));
}

void share_out(std::size_t tasks, int threads, const std::function<Worker()>& make_worker) {
  std::mutex mutex;
  std::size_t next = 0;
  std::vector<std::size_t> given_back;
  const auto wanted = static_cast<std::size_t>(thread_count(threads, tasks));
  given_back.reserve(wanted);  // when memory has run out is no time to ask for more
  const auto take = [&]() -> std::optional<std::size_t> {
    const std::lock_guard lock(mutex);
    if (given_back.empty()) return next < tasks ? std::optional(next++) : std::nullopt;
    const std::size_t task = given_back.back();
    given_back.pop_back();
    return task;
  };
  const auto work = [&] {
    const Worker worker = make_worker();
    while (const auto task = take()) {
      try {
        worker(*task);
      } catch (...) {
        const std::lock_guard lock(mutex);
        given_back.push_back(*task);
        throw;
      }
    }
  };
  base::in_threads(wanted, work, tell_fewer_threads);
}

void tell_fewer_threads() {
  static std::atomic<bool> told{false};
  if (told.exchange(true)) return;
  log_warning("the system gives no room for so many threads: going on with fewer");
}

}  // namespace kairos::cli
