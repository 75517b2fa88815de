// Parts of sentences that several texts share: who stands how, what a move cost its side, what a
// reason says. Standings are told by side ("White is lost"), so that they can be said aloud.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/report/turning_points.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::report {

// "White is winning", "White is only better" (`only`), "the position is level".
std::string state_of(rules::Color side, double expectation, bool only = false);
// "loses", "lets the win slip", "gives the advantage away", ...: what a move did to its side.
std::string cost_words(double from, double to);
// "12. a3", "12. a3 and 14. Rb1", "12. a3, 14. Rb1 and 16. h4".
std::string listed(const std::vector<std::string>& items);
// "It" for "it".
std::string capital(std::string text);

// The reason that the text of a point tells for a role: the first that has words. nullptr when
// nothing is proved. Of the second best move's reply none that the best move allows as well.
// With `after` the next one of the same moment.
const study::Reason* told_reason(const TurningPoint& point, study::Role role,
                                 const study::Reason* after = nullptr);
// Their words, of two at the most: "wins a pawn and threatens mate on h7"; or "".
std::string told_effect(const TurningPoint& point, study::Role role);

// What happened at a point, in one sentence, without what should have been.
std::string gist_of(const study::Study& study, const TurningPoint& point);
// The same, and of what was to be found whether it was.
std::string brief_of(const study::Study& study, const TurningPoint& point);
// What was right, in one sentence; "" where the gist says it.
std::string right_of(const TurningPoint& point);

// A hole in the notes, in one sentence.
std::string claim_sentence(const study::Moment& claim);

}  // namespace kairos::report
