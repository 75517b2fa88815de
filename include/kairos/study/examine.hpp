// The way from a game to its moments, in two passes that can run far apart in time.
//
// 1. `survey` searches every position of the main line at the survey effort.
// 2. `candidates` reads the survey and names the plies where a moment may be, most promising first.
// 3. `stretches` groups candidates that stand next to each other.
// 4. `verify` searches a stretch again at the verify effort and returns the moments that hold.
// Each call clears the searcher first, so its result depends on its arguments alone: the order in
// which games and stretches are examined, and on which thread, changes nothing.
//
//   const Scoresheet sheet = scoresheet_of(game);
//   Study study = survey(sheet, settings, searcher);
//   for (const auto& stretch : stretches(candidates(sheet, study, settings)))
//     for (const Verified& v : verify(sheet, study, stretch, settings, searcher))
//       append(study.moments, v.moments);
#pragma once

#include <atomic>
#include <cstddef>
#include <optional>
#include <vector>

#include "kairos/search/searcher.hpp"
#include "kairos/study/scoresheet.hpp"
#include "kairos/study/settings.hpp"
#include "kairos/study/study.hpp"

namespace kairos::study {

struct Candidate {
  int ply = 0;
  double promise = 0;  // what the moment may cost or gain, in expectation; greater goes first

  friend bool operator==(const Candidate&, const Candidate&) = default;
};

Study survey(const Scoresheet& sheet, const Settings& settings, search::Searcher& searcher);
// The same, for whoever cannot wait for a game of thousands of moves: one of more than
// `most_waited_for` plies is given up, with nothing, when `stop` (may be null) becomes true.
inline constexpr std::size_t most_waited_for = 400;
std::optional<Study> survey(const Scoresheet& sheet, const Settings& settings,
                            search::Searcher& searcher, const std::atomic<bool>* stop);

// Of a game with more places than that, several hundred moves, the most promising.
inline constexpr std::size_t most_candidates = 100;
// `study` is the survey of that game, here and below.
std::vector<Candidate> candidates(const Scoresheet& sheet, const Study& study,
                                  const Settings& settings);

// Candidates that are verified together, by ply. What is found of one is used for those before it,
// and what is told of neighbours agrees (verify.cpp).
struct Stretch {
  std::vector<int> plies;
  double promise = 0;  // the greatest of its candidates

  friend bool operator==(const Stretch&, const Stretch&) = default;
};
inline constexpr int stretch_step = 2;  // plies from one to the next, at most
// Every candidate is in one of them; by ply.
std::vector<Stretch> stretches(std::vector<Candidate> candidates);

// What verifying a ply has brought.
struct Verified {
  int ply = 0;
  std::vector<Moment> moments{};
  std::uint64_t nodes = 0;  // of the searcher
};
// One for each ply of the stretch, ascending.
std::vector<Verified> verify(const Scoresheet& sheet, const Study& study, const Stretch& stretch,
                             const Settings& settings, search::Searcher& searcher);

}  // namespace kairos::study
