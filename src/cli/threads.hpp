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

// Does the tasks 0, 1, ... in so many threads at once, or in fewer where the system gives no more
// (which is told), and waits for all. Each thread makes itself a worker, with what that one needs
// of its own, and the worker does one task after another. A task that there was no memory for is
// done again.
using Worker = std::function<void(std::size_t task)>;
void share_out(std::size_t tasks, int threads, const std::function<Worker()>& make_worker);

// Warns, but once a process, that there are fewer threads than were asked for.
void tell_fewer_threads();

}  // namespace kairos::cli
