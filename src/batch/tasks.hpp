// The two kinds of work, each from its arguments alone.
#pragma once

#include <atomic>
#include <optional>
#include <string>

#include "kairos/base/result.hpp"
#include "kairos/batch/record.hpp"
#include "kairos/pgn/game.hpp"
#include "kairos/study/examine.hpp"

namespace kairos::batch {

// The game whose export text this is, replayed.
base::Result<pgn::Game> read_game(const std::string& text);
// The survey of such a game; nothing when it was given up for `stop`.
base::Result<std::optional<study::Study>> survey_text(const std::string& text,
                                                      const study::Settings& settings,
                                                      search::Searcher& searcher,
                                                      const std::atomic<bool>* stop);

// Verifies a candidate of a surveyed game and composes puzzles of its moments.
Findings verify_and_compose(study::Study study, const study::Candidate& candidate,
                            const study::Settings& settings, search::Searcher& searcher);

}  // namespace kairos::batch
