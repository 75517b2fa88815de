// Lines of answers as they come from people: who said what, and when.
//
// A line is one of (the first that fits)
//   {"name": "anna", "text": "Qxh7+", "time": "12:34"}    JSON Lines; `time` (text or number) may
//   be
//                                                         missing, other members are passed over
//   12:34<TAB>anna<TAB>Qxh7+     or     anna<TAB>Qxh7+    tabs
//   [12:34:56] anna: Qxh7+       or     anna: Qxh7+       a time stamp in front may have brackets
// Everything in it is hostile: names and times are cut and stripped (base/foreign.hpp), words are
// left to the reader of typed moves.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace kairos::audience {

struct AnswerLine {
  std::string name;  // at most `longest_name` bytes, stripped
  std::string time;  // as given, stripped; may be empty
  std::string words;
};

inline constexpr std::size_t longest_name = 60;    // bytes
inline constexpr std::size_t longest_line = 4096;  // bytes; what is behind them is passed over

// Nothing when the line has no name or no words.
std::optional<AnswerLine> read_answer_line(std::string_view line);

}  // namespace kairos::audience
