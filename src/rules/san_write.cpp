// Moves in SAN as the standard wants them exported: shortest disambiguation, capture, promotion and
// check marks always, nothing else.
#include "kairos/base/text.hpp"
#include "kairos/rules/attacks.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "legality.hpp"

namespace kairos::rules {

namespace {

// The shortest addition that tells this man from all others of its kind that can legally go there.
std::string disambiguation(const Position& p, Move m, PieceType t) {
  const Square from = m.from(), to = m.to();
  Bitboard rivals = 0;
  Bitboard others = attacks_of(t, to, p.occupied()) & p.pieces(p.side_to_move(), t) & ~bit(from);
  while (others != 0) {
    const Square other = take_first(others);
    if (king_is_safe_after(p, other, to)) rivals |= bit(other);
  }
  if (rivals == 0) return {};
  const std::string name = to_string(from);
  if ((rivals & file_mask(file_of(from))) == 0) return name.substr(0, 1);
  if ((rivals & rank_mask(rank_of(from))) == 0) return name.substr(1, 1);
  return name;
}

// The move is played only if it checks, to tell mate.
std::string check_mark(const Position& p, Move m) {
  if (!p.gives_check(m)) return {};
  Position after = p;
  after.play(m);
  return has_legal_move(after) ? "+" : "#";
}

// PGN standard, 8.2.3.3 and 8.2.3.4: a pawn that takes always names its file, other men only as
// much as tells them apart.
std::string san_without_mark(const Position& p, Move m) {
  if (m.is_castling()) return file_of(m.to()) == 6 ? "O-O" : "O-O-O";
  const PieceType t = type_of(p.piece_on(m.from()));
  std::string text;
  if (t != pawn) {
    text += letter_of(make_piece(white, t));
    if (t != king) text += disambiguation(p, m, t);
  }
  if (p.is_capture(m)) {
    if (t == pawn) text += to_string(m.from())[0];
    text += 'x';
  }
  text += to_string(m.to());
  if (m.is_promotion()) {
    text += '=';
    text += letter_of(make_piece(white, m.promoted()));
  }
  return text;
}

}  // namespace

std::string to_san(const Position& p, Move m) {
  if (m == null_move) return "--";
  return san_without_mark(p, m) + check_mark(p, m);
}

std::vector<std::string> to_san(Position p, std::span<const Move> line) {
  std::vector<std::string> texts;
  texts.reserve(line.size());
  for (const Move m : line) {
    texts.push_back(to_san(p, m));
    p.play(m);
  }
  return texts;
}

// A number before each move of White, and before the first when that is Black's (8.2.2.2).
std::string to_numbered_san(Position p, std::span<const Move> line) {
  std::string text;
  for (const Move m : line) {
    const bool is_first = text.empty();
    if (!is_first) text += ' ';
    if (p.side_to_move() == white) {
      text += base::number(p.fullmove_number()) + ". ";
    } else if (is_first) {
      text += base::number(p.fullmove_number()) + "... ";
    }
    text += to_san(p, m);
    p.play(m);
  }
  return text;
}

}  // namespace kairos::rules
