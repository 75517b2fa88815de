#include "kairos/rules/movegen.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "kairos/rules/fen.hpp"

#include "oracles/rules_naive.hpp"
#include "rules/random_games.hpp"

using namespace kairos;
using namespace kairos::rules;

namespace {

std::vector<std::string> sorted_names(const Position& p, Moves sort = Moves::all) {
  MoveList list;
  legal_moves(p, list, sort);
  std::vector<std::string> names;
  for (const Move m : list) names.push_back(oracles::naive_name(test::to_naive(m)));
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> sorted_names(const oracles::NaiveBoard& board) {
  std::vector<std::string> names;
  for (const auto& move : oracles::naive_moves(board)) names.push_back(oracles::naive_name(move));
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> moves_of(const char* fen) {
  return sorted_names(parse_fen(fen).value());
}

bool has(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

TEST_CASE("Generated moves are those of the oracle on random games") {
  int positions = 0, castlings = 0, en_passants = 0, promotions = 0;
  test::for_each_random_position(1, 160, [&](const Position& p, const auto& board, Move m, auto&) {
    const auto names = sorted_names(p);
    REQUIRE(names == sorted_names(board));
    REQUIRE(count_legal_moves(p) == static_cast<int>(names.size()));
    REQUIRE(has_legal_move(p));
    ++positions;
    castlings += m.is_castling();
    en_passants += m.is_en_passant();
    promotions += m.is_promotion();
  });
  CHECK(positions > 5000);
  CHECK(castlings > 20);
  CHECK(en_passants > 20);
  CHECK(promotions > 100);
}

TEST_CASE("Noisy and quiet moves together are all moves, and noisy ones capture or promote") {
  test::for_each_random_position(2, 60, [&](const Position& p, const auto&, Move, auto&) {
    MoveList noisy, quiet, all;
    legal_moves(p, noisy, Moves::noisy);
    legal_moves(p, quiet, Moves::quiet);
    legal_moves(p, all);
    for (const Move m : noisy) REQUIRE((p.is_capture(m) || m.is_promotion()));
    for (const Move m : quiet) REQUIRE(!(p.is_capture(m) || m.is_promotion()));
    auto both = sorted_names(p, Moves::noisy);
    const auto rest = sorted_names(p, Moves::quiet);
    both.insert(both.end(), rest.begin(), rest.end());
    std::sort(both.begin(), both.end());
    REQUIRE(both == sorted_names(p));
  });
}

TEST_CASE("Of all 65536 patterns of a move, exactly the generated ones are legal") {
  test::for_each_random_position(3, 16, [&](const Position& p, const auto&, Move, auto& random) {
    if (random() % 8 != 0) return;
    MoveList list;
    legal_moves(p, list);
    int legal = 0;
    for (unsigned raw = 0; raw < 65536; ++raw) {
      const Move m = Move::from_raw(static_cast<std::uint16_t>(raw));
      if (!is_legal(p, m)) continue;
      ++legal;
      REQUIRE(std::find(list.begin(), list.end(), m) != list.end());
    }
    REQUIRE(legal == static_cast<int>(list.size()));
  });
}

TEST_CASE("A list keeps what it holds when more is appended") {
  MoveList list;
  legal_moves(Position::start(), list);
  legal_moves(Position::start(), list);
  CHECK(list.size() == 40);
  list.clear();
  CHECK(list.empty());
}

// The positions below are made for the article named beside each.
TEST_CASE("The king may not flee along the line of a check") {  // FIDE Laws, 3.9.2
  const auto moves = moves_of("4k3/8/8/8/8/8/8/r3K3 w - - 0 1");
  CHECK(moves == std::vector<std::string>{"e1d2", "e1e2", "e1f2"});
}

TEST_CASE("A double check is answered by the king alone") {  // 3.9.1 with 3.9.2
  const auto moves = moves_of("4k3/8/8/8/4r3/8/2n5/Q3K2Q w - - 0 1");
  CHECK(moves == std::vector<std::string>{"e1d1", "e1d2", "e1f1", "e1f2"});
}

TEST_CASE("En passant that bares the king on its rank is illegal") {  // 3.7.3.1 with 3.9.2
  CHECK_FALSE(has(moves_of("8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 1"), "e5d6"));
  CHECK(has(moves_of("8/8/8/3pP2r/8/K7/8/4k3 w - d6 0 1"), "e5d6"));
}

TEST_CASE("En passant may take the pawn that checks") {  // 3.7.3.1 with 3.9
  const auto moves = moves_of("8/8/8/2k5/3Pp3/8/8/4K3 b - d3 0 1");
  CHECK(has(moves, "e4d3"));
}

TEST_CASE("A pinned pawn may take the pinning man and nothing else") {  // 3.9.2
  const auto moves = moves_of("4k3/8/8/8/1b1p4/2P5/8/4K3 w - - 0 1");
  CHECK(has(moves, "c3b4"));
  CHECK_FALSE(has(moves, "c3d4"));
  CHECK_FALSE(has(moves, "c3c4"));
}

TEST_CASE("Castling is prevented by check, by an attacked way and by men between") {  // 3.8.2.2
  CHECK(has(moves_of("4k3/8/8/8/8/8/8/4K2R w K - 0 1"), "e1g1"));
  CHECK_FALSE(has(moves_of("4k3/8/8/8/4r3/8/8/4K2R w K - 0 1"), "e1g1"));
  CHECK_FALSE(has(moves_of("4k3/8/8/8/5r2/8/8/4K2R w K - 0 1"), "e1g1"));
  CHECK_FALSE(has(moves_of("4k3/8/8/8/6r1/8/8/4K2R w K - 0 1"), "e1g1"));
  CHECK_FALSE(has(moves_of("4k3/8/8/8/8/8/8/4KB1R w K - 0 1"), "e1g1"));
  CHECK_FALSE(has(moves_of("4k3/8/8/8/8/8/8/RN2K3 w Q - 0 1"), "e1c1"));
}

TEST_CASE(
    "Castling is not prevented by an attacked rook or an attacked b-file square") {  // 3.8.2.2
  CHECK(has(moves_of("4k3/8/8/8/7r/8/8/4K2R w K - 0 1"), "e1g1"));
  CHECK(has(moves_of("4k3/8/8/8/1r6/8/8/R3K3 w Q - 0 1"), "e1c1"));
}

// The figure of 218 is common knowledge among problemists; the position is from memory.
TEST_CASE("A position with 218 moves fits into a list") {
  const auto p = parse_fen("R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1");
  REQUIRE(p);
  CHECK(count_legal_moves(*p) == 218);
  CHECK(sorted_names(*p).size() == 218);
}
