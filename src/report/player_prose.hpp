// What player.html and player.txt say, the same words for both: the lists with their entries, the
// periods, the counts. The sentences about a place are those of the report (words.hpp).
//
// Pointers point into the page, which must outlive what is made of it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/report/player.hpp"
#include "kairos/report/turning_points.hpp"

namespace kairos::report {

struct ToldEntry {
  const study::Study* study = nullptr;
  TurningPoint point{};  // whose board, marks and lines are shown
  std::string anchor{};  // "costliest-3"
  std::string title{};   // "Move 31, White: swing, punished"
  std::string clock{};   // "after 12 min, 3 min left"; "" where it is not known
  std::string game{};    // "White - Black, 1-0; Club Open, round 3, 2026.03.14"
  std::string text{};
  // Where a list before has told it in full: `text` is one sentence.
  std::string above{}, above_anchor{};  // "the costliest decisions, 3"
};

struct ToldList {
  std::string anchor{};   // "costliest"
  std::string title{};    // "The costliest decisions"
  std::string meaning{};  // what stands in it, and how many of them are shown
  std::vector<ToldEntry> entries{};
};

// What is shown of an entry's place: all that is told there, or of `traps` the trap alone.
TurningPoint shown_point(const study::Study& study, const habits::Entry& entry, bool traps);

// Those that hold something, in their order.
std::vector<ToldList> told_lists(const habits::Season& season);
// That the others hold nothing; "" where all do.
std::string empty_lists_words(const habits::Season& season);

// The name to head the page with, the longest spelling; and the others, "" where there are none.
std::string heading_name(const PlayerPage& page);
std::string other_names_words(const PlayerPage& page);
// "26 games: 9 won, 12 drawn, 5 lost." and that one game is no season.
std::string counts_words(const habits::Season& season);
// What has not been looked at; "" where all has.
std::string open_words(const habits::Season& season);

// "Linares, 1994", "2026, January to June", "2019 to 2021", "date not known".
std::string period_words(const habits::Period& period);
// "6.5 of 13"; "-" where no game has a result.
std::string score_words(const habits::Period& period);
// "5 of 13, 18 to 65 %": games with a swing; without the interval for a single game.
std::string share_words(const habits::Period& period);
inline constexpr std::string_view periods_meaning =
    "A swing is a move that cost at least the set part of the expected score. Moves of one game "
    "hang together, so the interval (95 %, Wilson) is that of the share of games with a swing. "
    "Where intervals overlap, chance may be all that differs.";

// What is counted by the clock.
std::string clock_meaning(const PlayerPage& page);
// "under 10 s", "10 s to 1 min", "30 min and more".
std::string band_words(const habits::TimeBand& band);
// "12 of 180, 3.9 to 11.3 %"; "-" of no decisions, no interval where `games` are fewer than two.
std::string errors_words(const habits::Rate& rate, std::uint64_t games);

// A long think on which little hung.
struct ToldThink {
  rules::Position position = rules::Position::start();
  rules::Move last{}, played{};
  std::string text{}, game{};
};
std::vector<ToldThink> told_thinks(const habits::Season& season);
inline constexpr std::string_view thinks_title = "Long thinks on which little hung";
std::string thinks_meaning(const habits::Season& season);

// The name where the page is written for somebody who prepares to play this player; else "".
std::string opponent_name(const PlayerPage& page);
// What such a page is for, and what it is not; "" of others.
std::string preparation_words(const PlayerPage& page);

std::string_view training_title(const PlayerPage& page);
// How the puzzles were chosen, and what to do with them.
std::string training_words(const PlayerPage& page);

}  // namespace kairos::report
