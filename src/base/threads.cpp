#include "kairos/base/threads.hpp"

#include <algorithm>
#include <exception>
#include <mutex>
#include <new>
#include <optional>
#include <system_error>
#include <utility>

namespace kairos::base {

std::vector<std::jthread> start_threads(std::size_t wanted,
                                        const std::function<void(const std::stop_token&)>& work) {
  std::vector<std::jthread> threads;
  try {
    threads.reserve(wanted);
    while (threads.size() < wanted) threads.emplace_back(work);
  } catch (const std::system_error&) {  // a limit of threads, or no room for the stack
  } catch (const std::bad_alloc&) {
  }
  return threads;
}

void in_threads(std::size_t wanted, const std::function<void()>& work,
                const std::function<void()>& fewer) {
  std::mutex mutex;
  bool is_missing = false;
  std::exception_ptr failure;
  const auto miss = [&] {
    if (std::exchange(is_missing, true)) return;
    try {
      fewer();
    } catch (const std::bad_alloc&) {  // not even for the words
    }
  };
  const auto part = [&](const std::stop_token&) {
    try {
      work();
    } catch (const std::bad_alloc&) {
      const std::lock_guard lock(mutex);
      miss();
    } catch (...) {
      const std::lock_guard lock(mutex);
      failure = std::current_exception();
    }
  };
  if (wanted > 1) {
    const auto threads = start_threads(wanted, part);
    const std::lock_guard lock(mutex);
    if (threads.size() < wanted) miss();
  }
  if (failure) std::rethrow_exception(failure);
  if (wanted <= 1 || is_missing) work();
}

int thread_count(int asked, std::size_t things) {
  if (asked == 0) asked = static_cast<int>(std::thread::hardware_concurrency());
  return std::max(1, static_cast<int>(std::min(static_cast<std::size_t>(asked), things)));
}

void share_out(std::size_t tasks, int threads, const std::function<Worker()>& make_worker,
               const std::function<void()>& fewer) {
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
  in_threads(wanted, work, fewer);
}

}  // namespace kairos::base
