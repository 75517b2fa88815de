// Worker threads of a command: how many, and running the same work in each.
//
// The number of threads changes how fast a command is, never what it prints.
#pragma once

#include <cstddef>
#include <functional>

namespace CLI {
class App;
}

namespace kairos::cli {

// --threads N, 0 for one on each core of the machine.
void add_threads_option(CLI::App& command, int& threads);

// What --threads asks for, at least 1 and not more than there are things to do.
int thread_count(int asked, std::size_t things);

// Runs `work` in so many threads at once and waits for all.
void in_threads(int threads, const std::function<void()>& work);

}  // namespace kairos::cli
