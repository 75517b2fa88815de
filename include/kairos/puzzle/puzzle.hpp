// A puzzle: a position with one right answer, its solution, and why other answers fail. Plain data.
//
// The solver is the side to move. `line` starts with the key, alternates solver and opponent, and
// ends with a solver's move, where the reward is on the board. Of its first `asked` plies every
// solver's move is unique; those behind are shown, not asked. Scores are centipawns from the
// solver's side. Themes and hints are words made of these facts by report.
//
// Positions are those of the game, but for a why-not: there the position follows `avoided`, a
// tempting move that was not played in the position `before` of the game, and the key refutes it.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/puzzle/rates.hpp"
#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"
#include "kairos/study/moment.hpp"

namespace kairos::puzzle {

// A tempting wrong first move and the replies that show why it is wrong (the first is the
// refutation).
struct Try {
  rules::Move move;
  search::Score score = 0;
  std::vector<rules::Move> refutation;
  Rates shares{};  // of the players who would choose it

  friend bool operator==(const Try&, const Try&) = default;
};

enum class Reward : std::uint8_t { mate, material, save, advantage };
inline constexpr int reward_count = 4;
std::string_view name_of(Reward reward);  // "mate", ...: a theme in files, so it never changes

struct Puzzle {
  rules::Position position = rules::Position::start();
  rules::Move last;     // led to it in the game; "no move" in a why-not, or at ply 0
  rules::Move avoided;  // why-not; else "no move"
  rules::Position before = rules::Position::start();  // why-not: of the game, at `ply`
  std::vector<rules::Move> line;
  int asked = 1;  // plies, an odd number
  // The man that made the key taken where it went, if the line answers otherwise, and best play
  // after that; ends with a solver's move, or empty.
  std::vector<rules::Move> if_taken;
  search::Score score = 0;         // of the key
  search::Score second_score = 0;  // of the best other first move
  Reward reward = Reward::material;
  int mate_moves = 0;                // proved mate in exactly this many moves; 0: no such claim
  std::vector<Try> tries;            // at most four, most tempting first
  std::vector<study::Motif> motifs;  // of the key, most telling first
  Rates find_rates{};                // of the key
  Rates solve_rates{};               // of every move that is asked
  int difficulty = 1;                // 1 easy .. 5 very hard (rates.hpp)
  study::Kind kind = study::Kind::swing;
  bool found = false;       // the player found the key
  std::uint64_t game = 0;   // its number in the run
  std::string game_label;   // "Aronov - Bellini, Club Open 2026, round 3"
  int ply = 0;              // of the position, of a why-not that of `before`
  std::uint64_t nodes = 0;  // spent to verify it

  friend bool operator==(const Puzzle&, const Puzzle&) = default;
};

// Why a moment makes no puzzle.
enum class Drop : std::uint8_t {
  none,
  not_a_puzzle,  // the moment is of a kind that asks no question
  cook,          // a second solution at the first move
  no_reward,     // nothing tangible at the end of the unique line
  not_stable,    // the last iterations disagree
  trivial,       // the only legal move, a plain recapture, or what nearly everyone finds
};
inline constexpr int drop_count = 6;

// The position of the game: of a why-not the one before the move that was not played.
const rules::Position& shown_position(const Puzzle& puzzle);

// The moves that are asked of the solver, with the replies between them.
std::span<const rules::Move> asked_of(const Puzzle& puzzle);

// The surname of the one who plays that side, by the label of the game: "Aronov" of "Aronov, Pavel
// - Bellini, Gia, Club Open"; "" where the label leaves it open or nobody is named.
std::string_view surname_in(std::string_view game_label, rules::Color side);

// "g12-m23w": stable name of a puzzle in its run (game, move number, side).
std::string id_of(const Puzzle& puzzle);

}  // namespace kairos::puzzle
