// What a person means by the moves in a line of chat: which of them is the vote.
//
// `read_typed_line` (typed.hpp) reads every move of a message; here those are passed over that the
// person refuses ("I don't like a4, Nxe5"), tells of ("he played a4") or asks about ("why not
// a4?"), and a move that is taken back within the line gives way to the one behind it ("Rf1 no wait
// Rd1"). The rules stand at the top of src/audience/meaning.cpp, the words that they go by in
// src/audience/cues.cpp. Where the rules leave it open the first playable move is the vote. Of
// other tongues the moves are read as in typed.hpp, and plain words of refusal. The text may hold
// any bytes; bounded as in typed.hpp.
#pragma once

#include <span>
#include <string_view>

#include "kairos/audience/typed.hpp"

namespace kairos::audience {

struct Meant {
  TypedLine line;              // as of read_typed_line, of the moves that are meant
  bool names_unmeant = false;  // no move is meant or refused, but some are named
};
Meant read_meant(const rules::Position& p, std::string_view text,
                 std::span<const rules::Move> known = {},
                 rules::Letters letters = rules::Letters::english);

}  // namespace kairos::audience
