#include "kairos/base/threads.hpp"

#include <algorithm>
#include <atomic>
#include <catch2/catch.hpp>
#include <mutex>
#include <new>
#include <optional>
#include <stdexcept>

using namespace kairos::base;

namespace {

// A hundred pieces of work. The first `failing` times that one is taken up there is no memory for
// it.
class Pieces {
 public:
  explicit Pieces(int failing) : failing_(failing) {
    for (int i = 0; i < 100; ++i) left_.push_back(i);
  }
  void work() {
    while (const auto piece = take()) {
      if (failing_-- > 0) {
        const std::lock_guard lock(mutex_);
        left_.push_back(*piece);
        throw std::bad_alloc();
      }
      const std::lock_guard lock(mutex_);
      done.push_back(*piece);
    }
  }

  std::vector<int> done;

 private:
  std::optional<int> take() {
    const std::lock_guard lock(mutex_);
    if (left_.empty()) return std::nullopt;
    const int piece = left_.back();
    left_.pop_back();
    return piece;
  }

  std::mutex mutex_;
  std::atomic<int> failing_;
  std::vector<int> left_;
};

}  // namespace

TEST_CASE("what threads have no memory for is done by the others, and at the last by the caller") {
  for (const int threads : {1, 2, 7}) {
    for (int failing = 0; failing <= (threads == 1 ? 0 : threads); ++failing) {
      CAPTURE(threads, failing);
      Pieces pieces(failing);
      int told = 0;
      in_threads(
          static_cast<std::size_t>(threads), [&pieces] { pieces.work(); }, [&told] { ++told; });
      std::sort(pieces.done.begin(), pieces.done.end());
      CHECK(pieces.done.size() == 100);
      CHECK(std::adjacent_find(pieces.done.begin(), pieces.done.end()) == pieces.done.end());
      CHECK(told == (failing > 0 ? 1 : 0));
    }
  }
}

TEST_CASE("what the caller too has no memory for is thrown, and so is any other failure") {
  Pieces pieces(1'000);
  const auto nobody = [] {};
  CHECK_THROWS_AS(in_threads(
                      3, [&pieces] { pieces.work(); }, nobody),
                  std::bad_alloc);
  CHECK_THROWS_AS(in_threads(
                      3, [] { throw std::length_error("too long"); }, nobody),
                  std::length_error);
}
