// Moves as people type them: SAN in any case, words, coordinates, with other talk around.
//
// `read_san` reads one move of a file; here is a whole message of which any part may be a move:
// "I'd go bishop takes d4!", "castles", "rook to e4 mate?", "e4e5", "exd", "knight b d2", "0-0". A
// phrase names a man, where it comes from, that it takes, where it goes and what it becomes, in the
// order in which people say it, and whatever of it they say; it is a move when exactly one legal
// move fits. Whether a small b is the bishop or the b-pawn is told by what is legal; where both
// are, only a capital B in otherwise proper notation ("Bxc3") is the bishop.
//
// Other tongues: letters of men of all languages of the PGN standard (rules/letters.hpp) and
// figures; names of men and words of moving in German, French, Spanish, Italian, Portuguese, Dutch,
// Polish and Russian ("Springer nach e5", "cavallo in f3"). A letter that is another man
// elsewhere is what is legal; where several are, it is that of the tongue asked for, then English,
// then these eight.
//
// Every rule has rows in tests/audience/typed_test.cpp and tongues_test.cpp. The text may hold any
// bytes; work and memory are bounded by its first `longest_typed` bytes, and what lies behind them
// is not read.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/diagnostics.hpp"
#include "kairos/rules/letters.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::audience {

inline constexpr std::size_t longest_typed = 500;  // bytes

// One phrase, read in one position.
struct TypedMove {
  rules::Move move;  // "no move" where the phrase is none that can be played
  // Meaningful without a move: illegal_move, ambiguous_move, no_such_piece, or not_a_move where
  // nothing in the text is a move at all.
  base::Code problem = base::Code::not_a_move;
  std::string
      text;         // the phrase in short, letters and squares alone ("Rxe4"); empty for not_a_move
  std::string why;  // of a problem, in plain words ("the way from e1 to e4 is blocked")
};

// The moves of a message, one after the other: the first phrase that can be played in `p` and what
// follows on it, as far as that can be played. "or" ends the line: who says "Nf3 or Nc3" has said
// Nf3. `known` is a line that may stand behind a question: whoever gives only his own moves of it
// has them read as if the replies between them had been said.
struct TypedLine {
  std::vector<rules::Move> moves;
  TypedMove refused;   // with `moves` empty: the first phrase that could not be played, and why
  TypedMove ended_by;  // else the phrase behind them that cannot follow; empty where there is none
};
TypedLine read_typed_line(const rules::Position& p, std::string_view text,
                          std::span<const rules::Move> known = {},
                          rules::Letters letters = rules::Letters::english);

// The same for a text that names several moves of one position, each for itself, as on the command
// line of `weigh`: all phrases, in order, each a move or a refusal; one that is not a move at all
// only where the whole text holds no phrase.
std::vector<TypedMove> read_typed_moves(const rules::Position& p, std::string_view text,
                                        rules::Letters letters = rules::Letters::english);

}  // namespace kairos::audience
