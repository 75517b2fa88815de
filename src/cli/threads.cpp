#include "threads.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <thread>
#include <vector>

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

void in_threads(int threads, const std::function<void()>& work) {
  std::vector<std::thread> workers;
  for (int i = 1; i < threads; ++i) workers.emplace_back(work);
  work();
  for (std::thread& worker : workers) worker.join();
}

}  // namespace kairos::cli
