#include "board_facts.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"

#include "played_line.hpp"

namespace kairos::study {

using rules::Bitboard;

namespace {

constexpr std::size_t minded_plies = 8;  // what falls later falls for other reasons

}  // namespace

search::Score profit_on(const rules::Position& p, rules::Square square) {
  rules::MoveList moves;
  rules::legal_moves(p, moves, rules::Moves::noisy);
  search::Score best = 0;
  for (const rules::Move m : moves) {
    if (m.to() == square && p.is_capture(m)) best = std::max(best, search::exchange_value(p, m));
  }
  return best;
}

std::optional<rules::Position> passed(const rules::Position& p) {
  if (p.in_check()) return std::nullopt;
  return p.after(rules::null_move);
}

void add_square(Reason& reason, const rules::Position& p, rules::Square square) {
  reason.squares.push_back(square);
  if (!p.is_empty(square)) reason.pieces.push_back(rules::type_of(p.piece_on(square)));
}

bool is_lost_in(const std::vector<rules::Move>& line, rules::Square square) {
  for (std::size_t i = 1; i < std::min(line.size(), minded_plies); i += 2) {
    const bool back = i + 1 < line.size() && line[i + 1].to() == square;
    if (line[i].to() == square && !back) return true;
  }
  return false;
}

bool trades_soon(const rules::Position& position, std::span<const rules::Move> line,
                 rules::PieceType man) {
  const PlayedLine played(position, line, {});
  for (std::size_t i = 0; i + 1 < std::min(played.size(), minded_plies); ++i) {
    const rules::Move take = played.move(i), back = played.move(i + 1);
    if (back.to() != take.to() || !played.at(i).is_capture(take)) continue;
    if (taken_type(played.at(i), take) == man && taken_type(played.at(i + 1), back) == man) {
      return true;
    }
  }
  return false;
}

bool is_given_up_in(const MoveFacts& facts, rules::Square square) {
  const PlayedLine line(facts.position, facts.line, {});
  const int stood = worth(line.after(0), square);
  for (std::size_t i = 1; i < std::min(line.size(), minded_plies); ++i) {
    if (line.move(i).from() == square) return false;  // it has gone
    if (line.move(i).to() != square) continue;
    const bool back = i + 1 < line.size() && line.move(i + 1).to() == square;
    return !back || worth(line.after(i), square) < stood - a_pawn / 2;
  }
  return false;
}

}  // namespace kairos::study
