// A moment: a place in a game worth stopping at. Plain data.
//
// Everything in it is verified: it comes from a search at the verify effort, not from the survey.
// `ply` counts the half-moves played before (0 is the first decision). Scores are centipawns from
// the side to move at `position`; costs, expectations and standings follow from them
// (expectation.hpp). It holds facts alone: what is said of them, report words.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"
#include "kairos/study/reason.hpp"

namespace kairos::study {

// Slides and turns are made of slips when a game is told (told.hpp); a slip, a move that cost less
// than a swing, is never told by itself.
enum class Kind : std::uint8_t {
  swing,
  only_move,
  quiet_win,
  trap,
  ended_early,
  claim,
  slide,
  turn,
  slip
};
inline constexpr int kind_count = 9;

// Neither a capture nor a promotion nor a check, and no check is met: what makes a win a quiet one.
bool is_quiet(const rules::Position& position, rules::Move move);

// A move that a slide is made of.
struct Step {
  int ply = 0;
  rules::Position position = rules::Position::start();
  rules::Move move;
  search::Score best_score = 0, played_score = 0;  // as in Moment

  friend bool operator==(const Step&, const Step&) = default;
};

// The rating that a player without one is given; and of how many players a find rate is told. What
// more than `nearly_everyone` of them find is no trap and no puzzle.
inline constexpr int unrated = 2000, find_rate_of = 10'000, nearly_everyone = 8'500;

struct Moment {
  Kind kind = Kind::swing;
  int ply = 0;
  rules::Position position = rules::Position::start();
  rules::Move played;  // "no move" where none was (ended early)
  rules::Move best;
  rules::Move second;    // the best move but one; "no move" when there is no other
  rules::Move tempting;  // trap: the move that was avoided
  search::Score best_score = 0;
  search::Score second_score = 0;       // best_score when there is no other
  search::Score played_score = 0;       // searched with the same effort as the best
  search::Score tempting_score = 0;     // trap
  bool found = false;                   // the player made the best move, or one as good
  bool punished = false;                // swing: the opponent's reply kept what the error gave
  int gain = 0;                         // quiet win: settled material, centipawns
  std::vector<rules::Move> line;        // best play from `position`
  std::vector<rules::Move> refutation;  // best play after the move in question: replies first
  std::vector<rules::Move> second_refutation;  // after the second best; empty when not looked at
  std::vector<Reason> reasons;                 // what is proved, in no order that counts
  std::vector<Step> steps;                     // slide: all its moves, by ply
  std::uint64_t nodes = 0;                     // spent to verify it and to prove the reasons
  // Of `find_rate_of` players rated as the one to move (as `unrated` where that is not known), how
  // many would play `best` (people/shares.hpp); -1: not asked.
  int find_rate = -1;

  [[nodiscard]] double best_expectation() const;
  [[nodiscard]] double played_expectation() const;
  // Expectation of the best move minus that of the move played, never below 0.
  [[nodiscard]] double cost() const;

  friend bool operator==(const Moment&, const Moment&) = default;
};

// The move a moment speaks of: the tempting one of a trap, else the move played.
rules::Move move_in_question(const Moment& moment);

// The position in which the move of a reason of that role is made.
rules::Position position_of(const Moment& moment, Role role);

// The motif of a moment; nothing when none is sure.
std::optional<Motif> motif_of(const Moment& moment);

}  // namespace kairos::study
