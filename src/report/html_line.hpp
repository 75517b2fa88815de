// Lines of moves in a page: each move in words, so that they are read without a script, and in an
// attribute the steps that a script needs to show them without knowing the rules.
//
// A step is what changes on the board: "e2e4" a man goes there (and takes what stands there),
// "e7e8Q" and becomes what the letter says (as in FEN), "e5d6d5" and the pawn on d5 is taken in
// passing, "e1g1h1f1" castling, "--" nobody moves. board_script() plays them. Pure functions.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "kairos/rules/position.hpp"

namespace kairos::report {

// "r1bqkbnr/pp..": the men alone, the first field of FEN.
std::string placement(const rules::Position& position);
// "e2e4"; "" for no move.
std::string squares_of(rules::Move move);

// "e2e4 e7e5 g1f3".
std::string steps_of(rules::Position position, std::span<const rules::Move> moves);

// A move as <span class="ply">, with its number or without.
std::string ply_html(const rules::Position& position, rules::Move move, bool is_numbered);
// The moves as such spans, numbered as in a score. From the move number `then` on they are one way
// to go on, and told so; 0: all belong to the line.
std::string plies_html(rules::Position position, std::span<const rules::Move> moves,
                       std::size_t then = 0);

// The start of a line that can be played through: "PLACEMENT w 12", with the number of the move.
std::string start_of(const rules::Position& position);

// A line as it is told, cut after shown_plies, that can be played through. One that starts at the
// position of its turning point needs no start of its own.
std::string line_html(const rules::Position& position, std::span<const rules::Move> moves,
                      bool own_start);

// Of all scripts that show boards: what a step does, and a board with its marks as SVG
// (html_board_script.cpp).
std::string_view board_script();

}  // namespace kairos::report
