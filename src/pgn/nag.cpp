// The NAGs of the PGN standard, section 10, by number. Below 10 they judge the move, up to 135 the
// position, from 136 the clock; in every pair from 14 on the even one speaks of White. Nothing is
// defined above 139. Covered by tests/pgn/nag_test.cpp, which checks the pairs.
#include "kairos/pgn/nag.hpp"

#include <array>
#include <string_view>

namespace kairos::pgn {

namespace {

constexpr std::array<std::string_view, 7> marks = {"", "!", "?", "!!", "??", "!?", "?!"};

// Section 10 in own words. The standard prints 94 to 97 (rook placement) as 84 to 87, a misprint.
constexpr std::array<std::string_view, 140> meanings = {
    "nothing",
    "good move",
    "poor move",
    "very good move",
    "very poor move",
    "speculative move",
    "questionable move",
    "forced move, all others lose quickly",
    "only move, no reasonable alternative",
    "worst move",
    "likely draw",
    "level, quiet",
    "level, lively",
    "unclear",
    "White is slightly better",
    "Black is slightly better",
    "White is better",
    "Black is better",
    "White has a decisive advantage",
    "Black has a decisive advantage",
    "White has a crushing advantage, Black should resign",
    "Black has a crushing advantage, White should resign",
    "White is in zugzwang",
    "Black is in zugzwang",
    "White has slightly more space",
    "Black has slightly more space",
    "White has more space",
    "Black has more space",
    "White has much more space",
    "Black has much more space",
    "White is slightly ahead in development",
    "Black is slightly ahead in development",
    "White is ahead in development",
    "Black is ahead in development",
    "White is far ahead in development",
    "Black is far ahead in development",
    "White has the initiative",
    "Black has the initiative",
    "White has a lasting initiative",
    "Black has a lasting initiative",
    "White attacks",
    "Black attacks",
    "White has too little for the material",
    "Black has too little for the material",
    "White has enough for the material",
    "Black has enough for the material",
    "White has more than enough for the material",
    "Black has more than enough for the material",
    "White has slight control of the centre",
    "Black has slight control of the centre",
    "White controls the centre",
    "Black controls the centre",
    "White has decisive control of the centre",
    "Black has decisive control of the centre",
    "White has slight control of the king's side",
    "Black has slight control of the king's side",
    "White controls the king's side",
    "Black controls the king's side",
    "White has decisive control of the king's side",
    "Black has decisive control of the king's side",
    "White has slight control of the queen's side",
    "Black has slight control of the queen's side",
    "White controls the queen's side",
    "Black controls the queen's side",
    "White has decisive control of the queen's side",
    "Black has decisive control of the queen's side",
    "White has a weak first rank",
    "Black has a weak first rank",
    "White has a well guarded first rank",
    "Black has a well guarded first rank",
    "White's king is poorly guarded",
    "Black's king is poorly guarded",
    "White's king is well guarded",
    "Black's king is well guarded",
    "White's king stands badly",
    "Black's king stands badly",
    "White's king stands well",
    "Black's king stands well",
    "White's pawns are very weak",
    "Black's pawns are very weak",
    "White's pawns are weak",
    "Black's pawns are weak",
    "White's pawns are strong",
    "Black's pawns are strong",
    "White's pawns are very strong",
    "Black's pawns are very strong",
    "White's knight stands badly",
    "Black's knight stands badly",
    "White's knight stands well",
    "Black's knight stands well",
    "White's bishop stands badly",
    "Black's bishop stands badly",
    "White's bishop stands well",
    "Black's bishop stands well",
    "White's rook stands badly",
    "Black's rook stands badly",
    "White's rook stands well",
    "Black's rook stands well",
    "White's queen stands badly",
    "Black's queen stands badly",
    "White's queen stands well",
    "Black's queen stands well",
    "White's pieces work together badly",
    "Black's pieces work together badly",
    "White's pieces work together well",
    "Black's pieces work together well",
    "White has played the opening very badly",
    "Black has played the opening very badly",
    "White has played the opening badly",
    "Black has played the opening badly",
    "White has played the opening well",
    "Black has played the opening well",
    "White has played the opening very well",
    "Black has played the opening very well",
    "White has played the middlegame very badly",
    "Black has played the middlegame very badly",
    "White has played the middlegame badly",
    "Black has played the middlegame badly",
    "White has played the middlegame well",
    "Black has played the middlegame well",
    "White has played the middlegame very well",
    "Black has played the middlegame very well",
    "White has played the ending very badly",
    "Black has played the ending very badly",
    "White has played the ending badly",
    "Black has played the ending badly",
    "White has played the ending well",
    "Black has played the ending well",
    "White has played the ending very well",
    "Black has played the ending very well",
    "White has slight counterplay",
    "Black has slight counterplay",
    "White has counterplay",
    "Black has counterplay",
    "White has decisive counterplay",
    "Black has decisive counterplay",
    "White is short of time",
    "Black is short of time",
    "White is very short of time",
    "Black is very short of time",
};

}  // namespace

std::optional<std::uint8_t> nag_of_suffix(std::string_view mark) {
  for (std::size_t nag = 1; nag < marks.size(); ++nag) {
    if (mark == marks[nag]) return static_cast<std::uint8_t>(nag);
  }
  return std::nullopt;
}

std::string_view suffix_of_nag(std::uint8_t nag) {
  return nag < marks.size() ? marks[nag] : std::string_view{};
}

std::string_view meaning_of_nag(std::uint8_t nag) {
  return nag < meanings.size() ? meanings[nag] : std::string_view{};
}

}  // namespace kairos::pgn
