// A moment: a place in a game worth stopping at. Plain data.
//
// Everything in it is verified: it comes from a search at the verify effort, not from the survey.
// `ply` counts the half-moves played before (0 is the first decision). Scores are centipawns from
// the side to move at `position`; costs and expectations follow from them (expectation.hpp).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

namespace kairos::study {

enum class Kind : std::uint8_t { swing, only_move, quiet_win, trap, ended_early, claim };
inline constexpr int kind_count = 6;
// "swing", "only move", "quiet win", ...
std::string_view words(Kind kind);

struct Moment {
  Kind kind = Kind::swing;
  int ply = 0;
  rules::Position position = rules::Position::start();
  rules::Move played;  // "no move" where none was (ended early)
  rules::Move best;
  search::Score best_score = 0;
  search::Score second_score = 0;  // of the best move but one; best_score when there is no other
  search::Score played_score = 0;  // searched with the same effort as the best
  bool found = false;              // the player made the best move, or one as good
  std::vector<rules::Move> line;   // best play from `position`
  std::vector<rules::Move>
      refutation;           // best play after the played (or tempting) move: replies first
  rules::Move tempting;     // trap: the move that was avoided
  bool punished = false;    // swing: the opponent's reply kept what the error gave
  int gain = 0;             // quiet win: settled material, centipawns
  std::string motif;        // of the key or of the punishment; empty when none is sure
  std::string sentence;     // what happened, in one plain sentence of verified facts
  std::uint64_t nodes = 0;  // spent to verify it

  [[nodiscard]] double best_expectation() const;
  [[nodiscard]] double played_expectation() const;
  // Expectation of the best move minus that of the move played, never below 0.
  [[nodiscard]] double cost() const;

  friend bool operator==(const Moment&, const Moment&) = default;
};

// "White" or "Black"; the full-move number at the moment.
std::string_view side_words(rules::Color c);

}  // namespace kairos::study
