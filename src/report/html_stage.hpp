// What stage.html is put together from: lines of moves with the positions they go through, the
// style and the script of a stage.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/rules/position.hpp"

namespace kairos::report {

// A line that can be stepped through.
struct StageLine {
  std::string label;  // "Solution", "Try", "Played"
  rules::Position start = rules::Position::start();
  std::vector<rules::Move> moves;
  std::size_t asked = 0;  // so many are the answer, the rest is one way to go on
  std::string worth;      // its score in words
  bool right = true;      // an answer; false: what fails, and why
};

// An <li>: its moves in words, and in data-moves their steps (html_line.hpp).
std::string stage_line(const StageLine& line);

std::string_view stage_style();   // stage_style.cpp
std::string_view stage_keys();    // the line of keys at the foot, as buttons; stage_keys.cpp
std::string_view stage_script();  // with its <script> tags; stage_script.cpp

}  // namespace kairos::report
