// The kinds of moments: each has a rule that reads the survey (may there be such a moment at this
// ply? by cheap tests, at a share of the threshold) and one that reads the evidence of the close
// look (is there one?). The definition of a kind stands at the top of its .cpp file.
//
// A hint is the expectation that the moment may be about, 0 when there is no sign of it; the
// greatest hint of a ply is its promise.
#pragma once

#include <optional>
#include <vector>

#include "kairos/pgn/game.hpp"

#include "evidence.hpp"

namespace kairos::study {

// What the cheap tests look at: one ply of a survey.
struct SurveyedPly {
  const Study& study;
  int ply;
  const rules::Position& position;  // at the ply
  const rules::Position& before;    // one ply earlier (the same position at ply 0)

  [[nodiscard]] const Note& note() const { return study.notes[static_cast<std::size_t>(ply)]; }
  // "No move" at the end of the game.
  [[nodiscard]] rules::Move played() const;
  [[nodiscard]] rules::Move last() const;  // "no move" at ply 0
};

double swing_hint(const SurveyedPly& g, const Settings& s);
std::optional<Moment> find_swing(const Study& study, const Evidence& e, const Settings& s,
                                 search::Searcher& searcher);

double only_move_hint(const SurveyedPly& g, const Settings& s);
std::optional<Moment> find_only_move(const Study& study, const Evidence& e, const Settings& s);

double quiet_win_hint(const SurveyedPly& g, const Settings& s);
std::optional<Moment> find_quiet_win(const Evidence& e, const Settings& s,
                                     search::Searcher& searcher);

double trap_hint(const SurveyedPly& g, const Settings& s);
std::optional<Moment> find_trap(const Evidence& e, const Settings& s, search::Searcher& searcher);

double ended_early_hint(const SurveyedPly& g, const Settings& s);
std::optional<Moment> find_ended_early(const Study& study, const Evidence& e, const Settings& s);

// Reads the game's own text; one pass over it serves all plies.
class Claims {
 public:
  explicit Claims(const Study& study);
  // 0 unless the player's notes say something at the ply that may be studied.
  [[nodiscard]] double hint(const SurveyedPly& g, const Settings& s) const;
  [[nodiscard]] std::vector<Moment> find(const Study& study, int ply, const Settings& s,
                                         search::Searcher& searcher) const;

 private:
  std::optional<pgn::Game> game_;
  std::vector<pgn::NodeId> main_line_;
};

}  // namespace kairos::study
