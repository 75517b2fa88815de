// The moves beside the best, and why they are not right: the next best one, the tempting one; and
// what the sentences about them share with those about the best. For src/report/words/ alone.
#pragma once

#include <string>
#include <vector>

#include "kairos/report/turning_points.hpp"

namespace kairos::report {

// "White", the side to move.
std::string mover_of(const study::Moment& m);
// As adjectives: "from winning to level".
std::string adjective(double expectation);
// The first move of `replies`; "" when there is none.
std::string reply_in(const study::Moment& m, study::Role role,
                     const std::vector<rules::Move>& replies);
// ": 4. Qxf7# is mate", " to 4. Qxf7" (of what `loses`), ": after 4. Qf3 Black is worse": what
// answers a move that leaves its side `left`.
std::string answered(rules::Color mover, double left, const std::string& reply,
                     const std::string& effect, bool loses);

// The reason that proves what a quiet win wins; nullptr where none does.
const study::Reason* proved_win(const study::Moment& m);

// The moment on whose second best move something hangs: the only move, or a quiet win that leads;
// nullptr where there is none, or no other move.
const study::Moment* with_second(const TurningPoint& point);
// The same where the text tells of that move: not where it was told otherwise, where the win is
// proved to be the only one, or where the tempting move says better that nothing else would do.
const study::Moment* second_told(const TurningPoint& point);

// `told`: what the text says before.
std::string second_sentence(const TurningPoint& point, const study::Moment& m,
                            const std::string& told);
std::string trap_sentence(const study::Moment& m, const std::string& told);

}  // namespace kairos::report
