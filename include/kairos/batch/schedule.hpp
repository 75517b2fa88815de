// The order of work over a whole collection: every game is surveyed first, in order; then the
// stretches of candidates of all games are verified, most promising first (ties by game, then ply).
//
// Knows from the ledger what is done already; a stretch of which a part is done is done again.
// Stretches are handed out when the last survey is
// done, so the order of all tasks is the same with any number of threads. It changes no result,
// only what is there when a deadline ends the run. Not thread-safe.
#pragma once

#include <cstdint>
#include <deque>
#include <optional>
#include <queue>
#include <tuple>
#include <vector>

#include "kairos/batch/ledger.hpp"
#include "kairos/batch/run.hpp"

namespace kairos::batch {

// Whether anything may be told about the decision at `ply` of a surveyed game: not about a shared
// opening move, nor about what the focus leaves out.
bool is_open_to_moments(const Ledger& ledger, const InputGame& game, const Focus& focus, int ply);

struct Task {
  enum class What : std::uint8_t { survey, verify };
  What what = What::survey;
  std::size_t game = 0;      // index into Input::games
  study::Stretch stretch{};  // to verify, and
  std::uint64_t places = 0;  // how many of its places are asked for and not done
};

// The place of a stretch in the order of those of all games: most promising first, then by game and
// ply.
std::tuple<double, std::size_t, int> order_of(std::size_t game, const study::Stretch& stretch);

class Schedule {
 public:
  // What is there to be done of the ledger's part, in sight of `focus`, and how much of it is done.
  struct Counts {
    std::uint64_t games = 0;
    std::uint64_t surveyed = 0;
    std::uint64_t candidates = 0;  // of surveyed games, where something may be told
    std::uint64_t verified = 0;
  };

  // All three must outlive the schedule.
  Schedule(const Input& input, const Ledger& ledger, const Focus& focus);

  // The next task to begin; nothing while none is known (`is_over` tells whether more may come).
  std::optional<Task> next();
  // A task that `next` gave is done and in the ledger.
  void finish(const Task& task);
  // Nothing is left to begin, and nothing under way that could bring more.
  [[nodiscard]] bool is_over() const { return !can_begin() && surveys_under_way_ == 0; }
  [[nodiscard]] const Counts& counts() const { return counts_; }

 private:
  // A stretch in few bytes: there may be millions.
  struct Waiting {
    double promise = 0;
    std::uint32_t game = 0;
    std::int32_t ply = 0;  // its first
  };
  struct LessPromising {
    bool operator()(const Waiting& a, const Waiting& b) const;
  };
  [[nodiscard]] bool can_begin() const {
    return next_survey_ < surveys_.size() || !waiting_.empty();
  }
  void add_stretches(std::size_t game);
  // Places of the stretch that are asked for, and how many of them are done.
  struct Places {
    std::uint64_t open = 0, done = 0;
  };
  [[nodiscard]] Places places_of(std::size_t game, const study::Stretch& stretch) const;

  const Input& input_;
  const Ledger& ledger_;
  const Focus& focus_;
  std::vector<std::size_t> surveys_;
  std::size_t next_survey_ = 0;
  std::size_t surveys_under_way_ = 0;
  std::priority_queue<Waiting, std::deque<Waiting>, LessPromising> waiting_;
  Counts counts_;
};

}  // namespace kairos::batch
