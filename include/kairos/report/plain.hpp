// Scores, moves and lines in plain text, as all reports show them: also for commands that speak of
// a single position.
//
// Scores and expectations of the search are from the side to move; what people read is from White's
// side. Pure functions, ASCII only.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

namespace kairos::report {

// A score of `side`, as White sees it.
search::Score from_white(search::Score score, rules::Color side);
double from_white(double expectation, rules::Color side);

// "+1.35", "-0.20", "0.00"; "White mates in 3", "Black mates in 3". The score is White's.
std::string score_text(search::Score white_score);
// "72 %", rounded to the nearest.
std::string percent(double expectation);
// "23. Qxb7", "23... Qxb7"; "" for no move.
std::string numbered(const rules::Position& position, rules::Move move);
// "Qxb7"; "" for no move.
std::string plain_san(const rules::Position& position, rules::Move move);
// "23. Qxb7 Rb8 24. Qa6 ...", cut after `most` half-moves; 0: never cut.
std::string numbered_line(const rules::Position& position, std::span<const rules::Move> line,
                          std::size_t most = 0);
// `move` and what follows it, as one line.
std::vector<rules::Move> joined(rules::Move move, std::span<const rules::Move> rest);

}  // namespace kairos::report
