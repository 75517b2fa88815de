// What all writers share: names and numbers in words, one rule each.
//
// Scores and expectations of a Moment are from its side to move; what people read is from White's
// side, and the change of sign happens here only. Machine names are part of the file formats and
// never change; words for people may.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/puzzle/puzzle.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/turning_points.hpp"
#include "kairos/report/writer.hpp"
#include "kairos/study/study.hpp"

namespace kairos::report {

// "swing", "only_move", "quiet_win", "trap", "ended_early", "claim".
std::string_view machine_name(study::Kind kind);
// "white", "black".
std::string_view machine_name(rules::Color side);

// "better, 72 %".
std::string standing_text(double expectation);

// "Aronov, Pavel (2210)"; "unknown" for a missing name.
std::string player_text(std::string_view name, int elo = 0);
// "Aronov, Pavel - Bellini, Gia".
std::string players_text(const study::GameFacts& facts);
// "Club Open 2026, round 3, 2026.05.01": the parts that are known.
std::string occasion_text(const study::GameFacts& facts);
// "games.pgn:120": file (its last part) and line.
std::string place_text(const study::GameFacts& facts);

// "45 s", "12 min", "1 h 05 min".
std::string duration_text(int seconds);
// Seconds that the player took for the move of `ply`, from the clocks; -1 where they do not tell
// (an increment may make the true time a little longer).
int seconds_spent(const study::Study& study, std::size_t ply);
// The clock of the move that a moment is about, in seconds; -1 where it is not known. A claim may
// be about a variation and has none.
struct MoveTimes {
  int left = -1;
  int spent = -1;
};
MoveTimes times_of(const study::Study& study, const study::Moment& moment);

// "Move 20, Black": by number and side, so that it is found on the score sheet.
std::string place_title(const study::Moment& moment);
// White's expectation after each number of half-moves, 0 .. moves.size(), by the survey.
std::vector<double> white_expectations(const study::Study& study);
// The same with what was verified where something is told, so that graphs say what texts say.
std::vector<double> told_expectations(const study::Study& study,
                                      const std::vector<TurningPoint>& points);
// "Thimblewick, Greta (2105) - Marrowby, Silas (1980), 0-1".
std::string game_title(const study::GameFacts& facts);
// loss_words; empty unless all of the game was verified, for both players.
std::string loss_of(const RunFacts& facts, const study::Study& study);
// The story as one text.
std::string story_text(const RunFacts& facts, const study::Study& study,
                       const std::vector<TurningPoint>& points);

// The standard's evaluation sign ($10 level, $14..$19 slight to decisive) for an expectation of
// White; decisive from where study::standing_of says won.
std::uint8_t position_nag(double white_expectation);
// The sign in print: "=", "+/=", "+/-", "+-" and their mirrors.
std::string_view sign_of_nag(std::uint8_t nag);
// The move mark ($1 good, $2 poor, $4 very poor, $8 only move) of the move played; 0 for none.
std::uint8_t move_nag(const TurningPoint& point);

}  // namespace kairos::report
