// The kinds of moments: each has a rule that reads the survey (may there be such a moment at this
// ply? by cheap tests, at a share of the threshold) and one that reads the evidence of the close
// look (is there one?). The definition of a kind stands at the top of its .cpp file.
//
// Between the two stands the first look: `may_hold_moment` and `traps_in_sight` say whether a close
// one could find a moment, at a slack.
//
// A hint is the expectation that the moment may be about, 0 when there is no sign of it; the
// greatest hint of a ply is its promise.
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "evidence.hpp"

namespace kairos::study {

// What the cheap tests look at: one ply of a survey.
struct SurveyedPly {
  SurveyedPly(const Scoresheet& of, const Study& surveyed, int at)
      : sheet(of),
        study(surveyed),
        ply(at),
        position(of.positions[static_cast<std::size_t>(at)]),
        before(of.positions[static_cast<std::size_t>(std::max(at - 1, 0))]) {}

  const Scoresheet& sheet;
  const Study& study;
  int ply;
  const rules::Position& position;  // at the ply
  const rules::Position& before;    // one ply earlier (the same position at ply 0)

  [[nodiscard]] const Note& note() const { return study.notes[static_cast<std::size_t>(ply)]; }
  // "No move" at the end of the game.
  [[nodiscard]] rules::Move played() const { return sheet.move_at(ply); }
  [[nodiscard]] rules::Move last() const { return sheet.move_at(ply - 1); }  // "no move" at ply 0
};

double swing_hint(const SurveyedPly& g, const Settings& s);
std::optional<Moment> find_swing(const Scoresheet& sheet, const Evidence& e, const Settings& s,
                                 search::Searcher& searcher);

// What the move played cost by the survey; may be negative.
double surveyed_cost(const Note& note);
// Of the side that moves at `mover_ply`, at another place by the survey; nothing where the game is
// over.
std::optional<double> surveyed_expectation(const Study& study, int mover_ply, int at);
double slip_hint(const SurveyedPly& g);
std::optional<Moment> find_slip(const Evidence& e);  // where no swing is

double only_move_hint(const SurveyedPly& g, const Settings& s);
// Whether nobody needs to be told of it, were it one.
bool is_plain_only_move(const Study& study, const Evidence& e, const Settings& s);
std::optional<Moment> find_only_move(const Study& study, const Evidence& e, const Settings& s);

double quiet_win_hint(const SurveyedPly& g, const Settings& s);
// Whether the best move mates by force and no other does.
bool mates_alone(const Evidence& e);
std::optional<Moment> find_quiet_win(const Evidence& e, const Settings& s,
                                     search::Searcher& searcher);

double trap_hint(const SurveyedPly& g, const Settings& s);
// The tempting moves that seem to be refuted, by a short search of each.
std::vector<rules::Move> traps_in_sight(const Evidence& e, const Settings& s,
                                        search::Searcher& searcher);
std::optional<Moment> find_trap(const Scoresheet& sheet, const Evidence& e,
                                const std::vector<rules::Move>& in_sight, const Settings& s,
                                search::Searcher& searcher);

// nearness.cpp: whether the evidence of a first look, or the survey, leaves any kind but a trap
// possible; whether that of a close one is too near a threshold to tell, and whether it is still
// after another.
bool may_hold_moment(const Study& study, const Evidence& e, const Settings& s);
bool is_close_call(const Study& study, const Evidence& e, const Settings& s);
bool is_closer_call(const Evidence& e, const Settings& s);

double ended_early_hint(const SurveyedPly& g, const Settings& s);
std::optional<Moment> find_ended_early(const Scoresheet& sheet, const Evidence& e,
                                       const Settings& s);

// 0 unless the players' notes say something at the ply that may be studied.
double claim_hint(const SurveyedPly& g, const Settings& s);
std::vector<Moment> find_claims(const Scoresheet& sheet, int ply, const Settings& s,
                                search::Searcher& searcher);

}  // namespace kairos::study
