#include "kairos/base/threads.hpp"

#include <exception>
#include <mutex>
#include <new>
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

}  // namespace kairos::base
