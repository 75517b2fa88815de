#include "kairos/rules/position.hpp"

#include <catch2/catch.hpp>
#include <map>
#include <string>

#include "kairos/rules/checks.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "oracles/rules_naive.hpp"
#include "rules/random_games.hpp"

using namespace kairos;
using namespace kairos::rules;

namespace {

Position position(const char* fen) {
  return parse_fen(fen).value();
}

Position after(Position p, std::initializer_list<const char*> moves) {
  for (const char* text : moves) p.play(parse_san(p, text).value());
  return p;
}

}  // namespace

TEST_CASE("Playing a move leaves the position of the oracle") {
  test::for_each_random_position(4, 160, [](const Position& p, const auto& board, Move, auto&) {
    REQUIRE(to_fen(p) == oracles::naive_fen(board));
    REQUIRE(p.in_check() == oracles::naive_in_check(board, board.white_to_move));
  });
}

TEST_CASE("The key kept while playing is the key made from scratch") {
  test::for_each_random_position(5, 160, [](const Position& p, const auto&, Move, auto&) {
    const auto rebuilt = make_position(p.setup());
    REQUIRE(rebuilt);
    REQUIRE(rebuilt->key() == p.key());
    REQUIRE(*rebuilt == p);
  });
}

TEST_CASE("Sets of men and the board say the same") {
  test::for_each_random_position(6, 40, [](const Position& p, const auto&, Move, auto&) {
    for (int n = 0; n < square_count; ++n) {
      const auto s = static_cast<Square>(n);
      const Piece man = p.piece_on(s);
      REQUIRE(p.is_empty(s) == !contains(p.occupied(), s));
      if (man != no_piece) REQUIRE(contains(p.pieces(color_of(man), type_of(man)), s));
    }
    REQUIRE((p.pieces(white) & p.pieces(black)) == 0);
    REQUIRE(count(p.pieces(king)) == 2);
  });
}

TEST_CASE("A move gives check when the other side is in check after it") {
  int checks = 0;
  test::for_each_random_position(7, 80, [&](const Position& p, const auto&, Move, auto&) {
    MoveList moves;
    legal_moves(p, moves);
    const Checks known(p);
    for (const Move m : moves) {
      Position next = p;
      next.play(m);
      INFO(oracles::naive_name(test::to_naive(m)));
      REQUIRE(p.gives_check(m) == next.in_check());
      REQUIRE(known.given_by(m) == next.in_check());
      checks += next.in_check();
    }
  });
  CHECK(checks > 1000);
}

TEST_CASE("Different positions of random games have different keys") {
  std::map<Key, std::string> seen;
  test::for_each_random_position(8, 80, [&](const Position& p, const auto&, Move, auto&) {
    const auto [entry, is_new] = seen.emplace(p.key(), to_epd_fields(p));
    if (!is_new) REQUIRE(entry->second == to_epd_fields(p));
  });
  CHECK(seen.size() > 2000);
}

// FIDE Laws, 9.2.3.1: a position is not the same if an en passant capture was possible.
TEST_CASE("The en passant square is kept only when a capture is legal") {
  CHECK(after(Position::start(), {"e4"}).en_passant() == no_square);
  CHECK(after(Position::start(), {"e4", "a6", "e5", "d5"}).en_passant() == d6);
  // The pawn that could take is pinned.
  const Position pinned = position("k3r3/3p4/8/4P3/8/8/8/4K3 b - - 0 1");
  CHECK(after(pinned, {"d5"}).en_passant() == no_square);
}

TEST_CASE("Two ways to one position give one key, and the right to castle tells them apart") {
  const Position a = after(Position::start(), {"Nf3", "Nf6", "Nc3", "Nc6"});
  const Position b = after(Position::start(), {"Nc3", "Nc6", "Nf3", "Nf6"});
  CHECK(a.key() == b.key());
  const Position moved =
      after(Position::start(), {"Nf3", "Nf6", "Rg1", "Rg8", "Rh1", "Rh8", "Nc3", "Nc6"});
  CHECK(moved.castling() == (white_long | black_long));
  CHECK(a.key() != moved.key());  // FIDE Laws, 9.2.3.2
}

TEST_CASE("A rook taken at home takes the right to castle with it") {
  const Position p = after(position("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"), {"Rxh8+"});
  CHECK(p.castling() == (white_long | black_long));
}

TEST_CASE("A null move passes the turn and ends the en passant right") {
  Position p = after(Position::start(), {"e4", "a6", "e5", "d5"});
  Position passed = p;
  passed.play(null_move);
  CHECK(passed.side_to_move() == black);
  CHECK(passed.en_passant() == no_square);
  CHECK(passed.halfmove_clock() == p.halfmove_clock() + 1);
  CHECK(make_position(passed.setup())->key() == passed.key());
  passed.play(null_move);
  CHECK(passed.side_to_move() == white);
  CHECK(passed.fullmove_number() == p.fullmove_number() + 1);
}

TEST_CASE("A double step is no capture and en passant is one") {
  const Position p = after(Position::start(), {"e4", "a6", "e5", "d5"});
  CHECK(p.is_capture(Move::en_passant(e5, d6)));
  CHECK_FALSE(p.is_capture(Move::normal(d2, d4)));
}
