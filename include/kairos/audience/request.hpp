// What a line asks for in a conversation about a position (kairos weigh).
//
// A move asks about it, several of one position about each ("Nf3 or Nc3"). Moves that follow one on
// another play on ("26... Nxe5 27. Rxg8 Nxc4+"). "and Rxg8?", a number that says so ("27. Rxg8") or
// a move that only the other side can make ask of the position after the move last asked about.
// Words go elsewhere or ask otherwise: best, why, all, show, flip, back, start, next, played, a
// number of a move ("27w", "move 27"), a FEN, help, quit; each in a few wordings (the table in
// src/audience/request.cpp). Moves are read as in typed.hpp. The text may hold any bytes; of it the
// first `longest_typed` are read. Pure.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "kairos/audience/comparison.hpp"
#include "kairos/base/result.hpp"
#include "kairos/rules/letters.hpp"

namespace kairos::audience {

// The moment before a move of a game: 27 of White, by the numbers of its score sheet.
struct MoveNumber {
  int number = 1;  // 1 .. most_move_number
  rules::Color side = rules::white;

  friend bool operator==(const MoveNumber&, const MoveNumber&) = default;
};
inline constexpr int most_move_number = 9'999;

// "27w", "27b", "27", "27.", "27...", "move 27w": the whole text. Of White where no side is told.
std::optional<MoveNumber> read_move_number(std::string_view text);

// Where the line is read.
struct Scene {
  rules::Position position = rules::Position::start();
  rules::Move asked{};  // the move of it last asked about; "no move" where there is none
  rules::Letters letters = rules::Letters::english;  // of the tongue that goes first (typed.hpp)
};

struct Request {
  enum class Kind : std::uint8_t {
    nothing,  // an empty line
    ask,      // about `moves`, each for itself
    play,     // `moves`, one after the other
    best,
    why,
    all,
    show,
    flip,
    back,    // `plies` half-moves
    start,   // where the conversation began
    next,    // the game's next move is played
    played,  // the game's move here is asked about
    go,      // to the move `number` of the game
    place,   // to another position, `place`
    help,
    quit,
    refused  // nothing of the line can be played: `refused`, or `faults` of a FEN; or neither
  };
  Kind kind = Kind::nothing;
  bool after_asked = false;  // the moves belong to the position after the one last asked about
  std::vector<rules::Move> moves{};
  // Moves that cannot be played: alone, beside those asked about, or behind those played.
  std::vector<CalledMove> refused{};
  int plies = 1;
  MoveNumber number{};
  std::optional<rules::Position> place{};
  base::Faults faults{};
};

inline constexpr std::size_t most_asked = 6;  // moves of one line

Request read_request(const Scene& scene, std::string_view text);

}  // namespace kairos::audience
