// player.html and player.txt: one player's season (habits/season.hpp) with the habits (habit.hpp)
// and puzzles to train with, in one page that needs nothing else.
//
// For somebody who prepares to play this player the same is told in other words, and what keeps
// coming back comes first.
//
// Order: the games counted, the lists of single decisions, each with diagram, clock and the
// report's sentences, how it went over time, what keeps coming back, the puzzles. What was told in
// full in one list is told in one sentence in the next. Text is 80 columns, UTF-8. The same page
// gives the same bytes; faults are those of the sink.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/bytes.hpp"
#include "kairos/habits/habit.hpp"
#include "kairos/habits/season.hpp"
#include "kairos/puzzle/puzzle.hpp"

namespace kairos::report {

struct PlayerPage {
  std::vector<std::string> names;  // the spellings, as in the tags; at least one
  habits::Season season{};
  habits::Habits habits{};
  // In the order in which they are asked: so many of the habits named, so many whose answer the
  // player did not find at the board, then the others of these games.
  std::vector<puzzle::Puzzle> training{};
  std::size_t training_of_habits = 0, training_missed = 0;
  std::string training_file{};         // its name; empty: none is written
  bool for_opponent = false;           // written for somebody who prepares to play this player
  std::vector<std::string> efforts{};  // how the games were studied, in words
  std::string version{};               // of kairos
};

base::Status write_player_html(const PlayerPage& page, base::ByteSink& sink);
base::Status write_player_text(const PlayerPage& page, base::ByteSink& sink);
// What the page holds as one JSON object, in a line without its end: fields in DEVELOPERS.md.
std::string player_json(const PlayerPage& page);
// Whether a text is that of a player with one of these names, whatever it says of him.
bool is_player_text(std::string_view text, const std::vector<std::string>& names);

}  // namespace kairos::report
