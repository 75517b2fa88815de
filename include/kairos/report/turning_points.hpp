// Turning points: the places of a game at which something is told, each with all its moments.
//
// A place is a position of the main line. What several moments say of one place is told once, with
// one heading, one diagram and one text; claims are about the notes, not the game, and belong to no
// turning point (notes.hpp). Made from a study alone. The pointers point into the study, which must
// outlive them. Pure functions.
#pragma once

#include <span>
#include <vector>

#include "kairos/study/study.hpp"

namespace kairos::report {

struct TurningPoint {
  int ply = 0;                                // half-moves played before, as in study::Moment
  std::vector<const study::Moment*> moments;  // at least one; the first leads: what happened
  int number = 0;                             // of the game, in the order of play, from 1
  int rank = 0;                               // 1 mattered most

  [[nodiscard]] const study::Moment& lead() const { return *moments.front(); }
  // The moment of that kind; nullptr when there is none.
  [[nodiscard]] const study::Moment* find(study::Kind kind) const;
};

// In the order of play. What cost the mover (swings, games ended early, slides, turns) ranks before
// what was found or avoided, and of these what is explained before what is bare; within each, by
// how much of the expectation it cost or hung on it.
std::vector<TurningPoint> turning_points(const study::Study& study);

// Whether it was found or avoided and no reason is known: a sentence says all there is.
bool is_bare(const TurningPoint& point);

// One moment by itself, for formats that list each.
TurningPoint alone(const study::Moment& moment);

// The one of rank 1, unless it is only a trap that nobody walked into; nullptr when there is none.
const TurningPoint* decisive_point(std::span<const TurningPoint> points);

// How far the mover fell, in expectation: by the move played, by a slide from its first move to its
// last, by a game ended early from what the position was worth to what the result gave.
struct Fall {
  double from = 0, to = 0;
};
Fall fall_of(const study::Moment& moment);
// Whether what a moment is about made its side's expectation fall; a trap's move was left alone.
bool tells_fall(const study::Moment& moment);
// What hangs on the best move: its expectation over that of the next best, never below 0.
double stake(const study::Moment& moment);

}  // namespace kairos::report
