// The terms of the model: what may make a player choose a move, each as a number of the size of 1.
//
// A term's weight depends on the rating in a straight line between two ratings (model.hpp). The
// three groups: what the move costs in the end, what it costs in shorter looks, and how it looks on
// the board. A cost's weight is never positive, so a move that is worth more is played more.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "kairos/people/share.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::people {

enum class Group : std::uint8_t { in_the_end, short_looks, board };
enum class Sign : std::uint8_t { any, cost };

struct Term {
  std::string_view name;
  Group group;
  Sign sign = Sign::any;
};

// A look of a length gives nine terms (verdict_terms.cpp), in this order.
inline constexpr std::size_t look_terms = 9;

// clang-format off
inline constexpr std::array terms = {
    // Costs: expectation of the best move minus that of the move; and how far its log odds are behind
    // those of the best.
    Term{"end: cost up to 0.02", Group::in_the_end, Sign::cost},
    Term{"end: cost up to 0.06", Group::in_the_end, Sign::cost},
    Term{"end: cost up to 0.15", Group::in_the_end, Sign::cost},
    Term{"end: cost up to 0.35", Group::in_the_end, Sign::cost},
    Term{"end: cost beyond", Group::in_the_end, Sign::cost},
    Term{"end: log odds up to 0.4", Group::in_the_end, Sign::cost},
    Term{"end: log odds up to 1.2", Group::in_the_end, Sign::cost},
    Term{"end: log odds up to 3", Group::in_the_end, Sign::cost},
    Term{"end: log odds beyond", Group::in_the_end, Sign::cost},
    Term{"soon: cost up to 0.02", Group::short_looks, Sign::cost},
    Term{"soon: cost up to 0.06", Group::short_looks, Sign::cost},
    Term{"soon: cost up to 0.15", Group::short_looks, Sign::cost},
    Term{"soon: cost up to 0.35", Group::short_looks, Sign::cost},
    Term{"soon: cost beyond", Group::short_looks, Sign::cost},
    Term{"soon: log odds up to 0.4", Group::short_looks, Sign::cost},
    Term{"soon: log odds up to 1.2", Group::short_looks, Sign::cost},
    Term{"soon: log odds up to 3", Group::short_looks, Sign::cost},
    Term{"soon: log odds beyond", Group::short_looks, Sign::cost},
    Term{"glance: cost up to 0.02", Group::short_looks, Sign::cost},
    Term{"glance: cost up to 0.06", Group::short_looks, Sign::cost},
    Term{"glance: cost up to 0.15", Group::short_looks, Sign::cost},
    Term{"glance: cost up to 0.35", Group::short_looks, Sign::cost},
    Term{"glance: cost beyond", Group::short_looks, Sign::cost},
    Term{"glance: log odds up to 0.4", Group::short_looks, Sign::cost},
    Term{"glance: log odds up to 1.2", Group::short_looks, Sign::cost},
    Term{"glance: log odds up to 3", Group::short_looks, Sign::cost},
    Term{"glance: log odds beyond", Group::short_looks, Sign::cost},
    // The man that moves; the king is what they are measured by.
    Term{"pawn", Group::board},
    Term{"knight", Group::board},
    Term{"bishop", Group::board},
    Term{"rook", Group::board},
    Term{"queen", Group::board},
    Term{"king among queens", Group::board},
    Term{"castles", Group::board},
    Term{"promotes to a queen", Group::board},
    Term{"promotes to less", Group::board},
    // What it takes.
    Term{"takes", Group::board},
    Term{"value taken", Group::board},
    Term{"takes more than it is worth", Group::board},
    Term{"takes what is not guarded", Group::board},
    Term{"takes its like", Group::board},
    Term{"takes back", Group::board},
    Term{"takes the man just moved", Group::board},
    Term{"checks", Group::board},
    // Where it goes.
    Term{"steps forward", Group::board},
    Term{"piece goes back", Group::board},
    Term{"piece goes sideways", Group::board},
    Term{"long way", Group::board},
    Term{"towards the centre", Group::board},
    Term{"towards the enemy king", Group::board},
    Term{"distance from the last move", Group::board},
    Term{"develops", Group::board},
    Term{"rook to an open file", Group::board},
    Term{"piece to the edge", Group::board},
    // Pawns.
    Term{"two steps", Group::board},
    Term{"central pawn", Group::board},
    Term{"edge pawn", Group::board},
    Term{"pawn before the king", Group::board},
    Term{"passed pawn", Group::board},
    Term{"pawn attacks a piece", Group::board},
    // What was moved before.
    Term{"the man moved last", Group::board},
    Term{"back where it came from", Group::board},
    // Men in danger: attacked by less, or attacked and not guarded.
    Term{"leaves danger", Group::board},
    Term{"goes into danger", Group::board},
    Term{"another man in danger", Group::board},
    Term{"new danger to others", Group::board},
    Term{"offers an exchange", Group::board},
    Term{"on a square a pawn attacks", Group::board},
};
// clang-format on
inline constexpr std::size_t term_count = terms.size();

using Row = std::array<double, term_count>;

// One row for each of `judged`: all legal moves of the position.
std::vector<Row> rows_of(const rules::Position& position, const Before& before,
                         std::span<const Judged> judged);

// The parts of it: terms of the first two groups, and those of the board.
void add_verdict_terms(std::span<const Judged> judged, std::vector<Row>& rows);
void add_board_terms(const rules::Position& position, const Before& before,
                     std::span<const Judged> judged, std::vector<Row>& rows);

}  // namespace kairos::people
