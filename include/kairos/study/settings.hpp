// The thresholds and efforts of a study that a user may set, with their defaults. Plain data.
//
// Efforts are nodes per position. Costs and gaps are expectations (0..1, see expectation.hpp),
// gains are centipawns of settled material. The definitions that use them stand at the top of
// src/study/moments/<kind>.cpp, and beside them the thresholds that nobody sets: what is plain,
// what tempts, how sure the iteration before must be.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace kairos::study {

// The version of the definitions: what a moment, a reason and a puzzle are beyond the settings
// here. Raised when a rule or a constant changes so that the same verdicts would tell of a game
// otherwise. Ledgers name it; those of different definitions are never mixed.
inline constexpr int definitions = 11;

struct Effort {
  std::uint64_t survey_nodes = 0;  // each position of each game
  std::uint64_t verify_nodes = 0;  // each candidate moment
  std::uint64_t puzzle_nodes = 0;  // each check of a puzzle
};

enum class EffortName : std::uint8_t { light, steady, deep };
Effort effort_of(EffortName name);
std::string_view to_string(EffortName name);

struct Settings {
  Effort effort;

  double swing_cost = 0.22;
  double only_move_least = 0.35;
  double only_move_gap = 0.28;
  int quiet_win_gain = 100;
  double trap_cost = 0.30;
  double resigned_least = 0.35;
  double agreed_least = 0.83;
  double claim_cost = 0.22;

  // A candidate from the survey is verified when it reaches this share of the kind's threshold.
  double candidate_share = 0.45;
  // No moment where the side to move expects more than this, or less than one minus this.
  double decided = 0.97;
  int from_move = 1;  // nothing is told about earlier moves
};

// The settings as one line of text, the same for equal settings: part of a run's fingerprint.
std::string to_text(const Settings& settings);

}  // namespace kairos::study
