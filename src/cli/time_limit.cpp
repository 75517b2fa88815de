#include "time_limit.hpp"

#include <chrono>

namespace kairos::cli {

TimeLimit::TimeLimit(double seconds, const std::atomic<bool>& interrupt)
    : watch_([this, seconds, &interrupt](const std::stop_token& done) {
        using clock = std::chrono::steady_clock;
        const auto begun = clock::now();
        while (!done.stop_requested()) {
          const std::chrono::duration<double> passed = clock::now() - begun;
          if (interrupt || (seconds > 0 && passed.count() >= seconds)) {
            over_ = true;
            return;
          }
          std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
      }) {}

}  // namespace kairos::cli
