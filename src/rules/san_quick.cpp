// The shapes that nearly all moves have, without a branch that depends on which of them it is.
//
// What costs time in reading moves is wrong guesses of the processor, and whether the next move is
// a pawn's, a capture or a rook's cannot be guessed. So all of them are one case here: a letter
// names a row of squares from which such a man gets to the target, the rest of the text cuts that
// down, and who is left is the man. Tests are gathered and asked once, and whatever fails them, be
// it wrong or only unusual (castling, promotion, en passant, two men that a pin tells apart), is
// left to the full reader. Example: "exd5" is the row of White's captures at d5, that is c4 and e4,
// cut down to the e-file. Covered by tests/rules/san_test.cpp.
#include "san_quick.hpp"

#include <array>

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/san.hpp"

#include "legality.hpp"
#include "mover.hpp"

namespace kairos::rules {

namespace {

// Pawns' rows come first, a step and a capture for each colour, then the pieces'.
constexpr std::size_t step_row = 0, capture_row = 2, piece_row = 3;  // knight is 1, its row 4
constexpr std::size_t row_count = piece_row + king + 1;

// From where a step leads to the square: from behind it or, on the fourth rank, from two behind.
constexpr Bitboard step_starts(Color us, Square to) {
  const int rank = rank_seen_by(us, to);
  if (rank < 2 || rank > 6) return 0;  // promotions are not plain
  const Bitboard behind = forward(~us, bit(to));
  return rank == 3 ? behind | forward(~us, behind) : behind;
}

constexpr Bitboard capture_starts(Color us, Square to) {
  const int rank = rank_seen_by(us, to);
  if (rank < 2 || rank > 6) return 0;
  const Bitboard behind = forward(~us, bit(to));
  return east(behind) | west(behind);
}

using Rows = std::array<std::array<Bitboard, square_count>, row_count>;
Rows make_rows() {
  Rows rows{};
  for (int n = 0; n < square_count; ++n) {
    const auto to = static_cast<Square>(n);
    for (const Color us : {white, black}) {
      rows[step_row + us][to] = step_starts(us, to);
      rows[capture_row + us][to] = capture_starts(us, to);
    }
    for (const PieceType t : {knight, bishop, rook, queen, king}) {
      rows[piece_row + t][to] = attacks_on_empty_board(t, to);
    }
  }
  return rows;
}
const Rows rows = make_rows();

// The man that a move's first character names, no_piece_type for what begins no plain move.
constexpr std::array<PieceType, 256> make_men() {
  std::array<PieceType, 256> men{};
  men.fill(no_piece_type);
  for (unsigned char c = 'a'; c <= 'h'; ++c) men[c] = pawn;
  for (const PieceType t : {knight, bishop, rook, queen, king}) {
    men[static_cast<unsigned char>(letter_of(make_piece(white, t)))] = t;
  }
  return men;
}
constexpr std::array<PieceType, 256> men = make_men();

// The squares that a file or a rank in the text allows, none for other characters.
constexpr std::array<Bitboard, 256> make_named_squares() {
  std::array<Bitboard, 256> squares{};
  for (int n = 0; n < 8; ++n) {
    squares[static_cast<std::size_t>('a' + n)] = file_mask(n);
    squares[static_cast<std::size_t>('1' + n)] = rank_mask(n);
  }
  return squares;
}
constexpr std::array<Bitboard, 256> named_squares = make_named_squares();

Bitboard with_free_way(Bitboard men_left, Square to, Bitboard occupied) {
  Bitboard free = 0;
  while (men_left != 0) {
    const Square from = take_first(men_left);
    if ((between(from, to) & occupied) == 0) free |= bit(from);
  }
  return free;
}

// The one man that the text can mean, as a set, and where it goes; an empty set for none.
struct Plain {
  Bitboard start = 0;
  Square to = a1;
  PieceType man = pawn;
};

template <Color us>
[[gnu::always_inline]] inline Plain find_plain(const Position& p, std::string_view text) {
  if (text.size() < 2) return {};
  const auto byte = [text](std::size_t n) { return static_cast<unsigned char>(text[n]); };
  const unsigned last = byte(text.size() - 1);
  const bool is_check = (last == '+' || last == '#') && text.size() > 2;
  const std::size_t size = text.size() - is_check;
  const unsigned file = byte(size - 2) - unsigned{'a'}, rank = byte(size - 1) - unsigned{'1'};
  const PieceType man = men[byte(0)];
  if ((file | rank) > 7 || man == no_piece_type) return {};

  // Between the letter and the target stand a file or a rank or nothing, and then perhaps an "x".
  const bool is_pawn = man == pawn;
  const bool has_x = byte(size > 2 ? size - 3 : 0) == 'x';
  const std::size_t letter = !is_pawn;
  const std::size_t middle = size - 2 - letter - has_x;
  if (middle > 1) return {};
  const auto to = static_cast<Square>(file + 8 * rank);
  const std::size_t row = is_pawn ? us + (middle != 0 ? capture_row : step_row) : piece_row + man;
  const Bitboard allowed = middle != 0 ? named_squares[byte(letter)] : ~Bitboard{0};

  const Bitboard own = p.pieces(us), enemies = p.pieces(~us), occupied = own | enemies;
  Bitboard starts = rows[row][to] & p.pieces(man) & own & allowed;
  if (more_than_one(starts)) starts = with_free_way(starts, to, occupied);
  if (starts == 0 || more_than_one(starts)) return {};
  const Bitboard targets = is_pawn ? (middle != 0 ? enemies : ~occupied) : ~own;
  if (((between(first(starts), to) & occupied) | (bit(to) & ~targets)) != 0) return {};
  const Square king_at = man == king ? to : p.king_square(us);
  const Bitboard after = (occupied & ~starts) | bit(to);
  if (is_attacked(p, us, king_at, after, enemies & ~bit(to))) return {};
  return {starts, to, man};
}

template <Color us>
Move play_plain(Position& p, std::string_view text) {
  const Plain plain = find_plain<us>(p, text);
  if (plain.start == 0) return {};
  const Square from = first(plain.start);
  Mover::play_plain<us>(p, from, plain.to, plain.man);
  return Move::normal(from, plain.to);
}

}  // namespace

Move read_plain_move(const Position& p, std::string_view text) noexcept {
  const Plain plain =
      p.side_to_move() == white ? find_plain<white>(p, text) : find_plain<black>(p, text);
  return plain.start == 0 ? Move{} : Move::normal(first(plain.start), plain.to);
}

Move play_plain_san(Position& p, std::string_view text) noexcept {
  return p.side_to_move() == white ? play_plain<white>(p, text) : play_plain<black>(p, text);
}

}  // namespace kairos::rules
