// Sentences about a moment, for every report that people read.
//
// The study writes the sentence from facts it verified; where it has none, one is made here from
// the moment's own figures and nothing else. All functions are pure.
#pragma once

#include <string>
#include <vector>

#include "kairos/study/study.hpp"

namespace kairos::report {

// What happened, in one sentence that ends with a full stop.
std::string sentence_of(const study::Study& study, const study::Moment& moment);

// "found", "missed", or "" for kinds that are neither.
std::string_view outcome_words(const study::Moment& moment);

// The moment as a question that gives the answer away neither in words nor by its kind.
std::string question_of(const study::Moment& moment);

// The lines worth showing, each with what it is: "Played", "Better", ... and White's score.
struct ShownLine {
  std::string label;
  std::string text;    // numbered SAN, cut to a readable length
  std::string score;   // from White's side
  std::string move;    // its first move alone
  bool answer = true;  // the best line; false: a move it is measured against
};
std::vector<ShownLine> shown_lines(const study::Moment& moment);

// "White: won, 88 % -> level, 48 %"; one state only where nothing was lost.
std::string change_text(const study::Moment& moment);

}  // namespace kairos::report
