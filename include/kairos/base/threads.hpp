// Work in several threads, as far as the system gives them.
//
// A limit of threads, of processes or of memory is no failure: what a thread less cannot do the
// others do, and at the last the caller alone. So the number of threads may change how fast the
// work is, never what comes of it.
#pragma once

#include <functional>
#include <thread>
#include <vector>

namespace kairos::base {

// Threads that run `work`: so many, or as many as can be started. Being destroyed they are asked to
// stop, and waited for.
std::vector<std::jthread> start_threads(std::size_t wanted,
                                        const std::function<void(const std::stop_token&)>& work);

// Runs `work` in so many threads at once and waits for all. `work` takes up one piece after another
// until nothing is left. A thread that throws std::bad_alloc must have given back the piece it
// held; the others go on. When any was missing in the end, the caller runs `work` too, to do what
// is left; with one thread it does everything. `fewer` is called, never by two at once, when the
// first thread turns out to be missing. What else a thread throws is thrown when all have ended.
void in_threads(std::size_t wanted, const std::function<void()>& work,
                const std::function<void()>& fewer);

// How many threads are at work where `asked` were asked for: 0 for one on each core of the machine,
// at least 1 and not more than there are things to do.
int thread_count(int asked, std::size_t things);

// Does the tasks 0, 1, ... in so many threads at once (as above) and waits for all. Each thread
// makes itself a worker, with what that one needs of its own, and the worker does one task after
// another. A task that there was no memory for is done again. `fewer` as of in_threads.
using Worker = std::function<void(std::size_t task)>;
void share_out(std::size_t tasks, int threads, const std::function<Worker()>& make_worker,
               const std::function<void()>& fewer);

}  // namespace kairos::base
