// Forsyth-Edwards Notation (PGN standard, section 16.1): six fields, in and out.
//
// Reading is lenient where files are, and a FEN that cannot be read or is not a legal position
// gives its faults at once: the first `most_fen_faults`, then the number of the others, for there
// may be one a letter. Leniencies (each has a row in tests/rules/fen_test.cpp):
//   1. any run of spaces or tabs between fields, and around the text
//   2. counters left out (0 and 1 are taken), as in EPD
//   3. an en passant square where no capture is legal, or that no double step passed over: dropped
//   4. castling rights in any order or twice; without the king or rook they need: dropped
//   5. a move number of 0: read as 1
//   6. rights by the rook's file (HAha) that mean the corner rooks and a king on e1 or e8; by any
//      other they belong to chess with shuffled starts, which is refused (variant_unsupported)
//   7. the halfmove clock without the move number
//   8. a counter written as "-": taken as left out
//   9. the side to move as a capital letter
// Writing gives the en passant square only when a capture is legal.
//
//   Result<Position> read = parse_fen("8/8/8/8/8/8/8/K6k w - - 0 1");
//   if (!read) for (const Fault& fault : read.faults()) tell(describe(fault));
#pragma once

#include <string>
#include <string_view>

#include "kairos/base/result.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

inline constexpr std::string_view start_fen =
    "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";

inline constexpr std::size_t most_fen_faults = 16;

base::Result<Setup> parse_setup(std::string_view fen);
base::Result<Position> parse_fen(std::string_view fen);
std::string to_fen(const Position& p);
// The first four fields, as EPD writes a position.
std::string to_epd_fields(const Position& p);

}  // namespace kairos::rules
