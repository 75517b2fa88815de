// A season: one player's studied games looked back on, without statistics. Plain data.
//
// Five lists of single decisions, each with the study that it stands in, so that whoever prints
// them has the board, the clock and what the report says of the place; and how the games went over
// time. All of it rests on verified moments (study/moment.hpp); nothing is searched again.
//
//   costliest       what cost the player most of the expectation: swings; of a slide or a turn its
//                   costliest move, by what that move alone cost; and games ended early, a draw by
//                   the side that stood better, a loss by the loser. The survey alone is no proof,
//                   so what no moment tells is not there.
//   finds           an only move or the move of a quiet win that the player made, where at most
//                   half of the players of that rating would have (study::Moment::find_rate): what
//                   most people find is no find. The rarest first.
//   traps           a tempting move that the player did not make (study::Kind::trap), the one that
//                   would have cost most first.
//   wins_let_slip   of a game that the player did not win, although the verdict was once a win at
//                   the player's turn (study::standing_of): the decision that let it go, which is
//                   the first behind the last such place that led from won to less or, where
//                   something was left of the win, from better to level or worse. What came before
//                   did not let it go for good: it was won again. The verdict is that of a moment
//                   of the player's, or of the opponent's error before. One of a game, those that
//                   gave most points away first.
//   losses_saved    the same seen from the other side: of a game that the opponent did not win the
//                   opponent's decision that let the win go, and the only move or quiet win that
//                   the player answered it with.
//   quick_errors    where clocks are given: a swing, or an only move or quiet win that was missed,
//                   after less than a two-hundredth of the starting time although a tenth of it
//                   was left. The costliest first.
//   long_thinks     where clocks are given: a tenth of the starting time or more for one move where
//                   by the survey little hung on it: the best two moves and the one played lie
//                   within `little` of one another. The longest first. No moment tells of them.
//
// A game without a result ("*") counts among no wins let slip and no losses saved. No list has one
// decision twice.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "kairos/base/interval.hpp"
#include "kairos/habits/habit.hpp"
#include "kairos/study/study.hpp"

namespace kairos::habits {

inline constexpr std::size_t most_entries = 10;  // of a list
// Of study::find_rate_of players: what more of them play is no find.
inline constexpr int most_who_find = 5'000;

inline constexpr double little = 0.03;  // of the expectation

// One decision.
struct Entry {
  std::size_t study = 0;  // an index into Season::studies
  int ply = 0;            // half-moves played before, as in study::Moment
  int won_ply = -1;       // wins_let_slip, losses_saved: the last place where it was won
  int answer_ply = -1;    // losses_saved: of the player's answer, where a moment tells of it

  friend bool operator==(const Entry&, const Entry&) = default;
};

struct List {
  std::vector<Entry> entries;
  std::uint64_t all = 0;  // how many there are, shown or not

  friend bool operator==(const List&, const List&) = default;
};

// Some of the games, in the order of time: those of one event, of a half-year or of several years.
struct Period {
  std::string event{};  // as in the tag; empty: not by event
  // Half-years, the first of year y being 2y and the second 2y + 1; 0: not known.
  int first_half = 0, last_half = 0;
  std::uint64_t games = 0;
  std::uint64_t with_result = 0, half_points = 0;  // of those with a result
  // A swing is an error; moves of one game hang together, so the interval is that of games.
  std::uint64_t swings = 0, games_with_swing = 0;

  [[nodiscard]] base::Interval interval() const {
    return base::wilson_interval(games_with_swing, games);
  }
  friend bool operator==(const Period&, const Period&) = default;
};

// Errors (habit.hpp) among the decisions made with so much time left, or after so much of it.
// Decisions of one game hang together, so the intervals of these rates are somewhat too narrow.
struct TimeBand {
  int least = 0, below = 0;         // seconds; `below` 0: no bound
  Rate one_good{}, several_good{};  // by whether the second best move would be an error

  [[nodiscard]] Rate all() const {
    return {one_good.errors + several_good.errors, one_good.decisions + several_good.decisions};
  }
};

// Of the games in which the clocks are given; an increment may make a time a little longer.
struct Clock {
  std::uint64_t games = 0;
  std::vector<TimeBand> by_left, by_spent;  // those with decisions, least time first
};

struct Season {
  std::uint64_t games = 0;                     // each once
  std::uint64_t won = 0, drawn = 0, lost = 0;  // the others have no result
  std::uint64_t open_games = 0;                // others that are known and have not been studied
  // Places in these games where a moment may be and nobody has looked again.
  std::uint64_t open_places = 0;
  List costliest, finds, traps, wins_let_slip, losses_saved, quick_errors, long_thinks;
  std::vector<study::Study> studies;  // those that an entry stands in
  Clock clock;
  std::vector<Period> periods;  // none where all games fall into one
};

}  // namespace kairos::habits
