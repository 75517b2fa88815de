#include "kairos/rules/attacks.hpp"

#include <catch2/catch.hpp>
#include <cstdint>
#include <cstdlib>
#include <random>
#include <utility>
#include <vector>

#include "kairos/rules/fen.hpp"

using namespace kairos::rules;

namespace {

using Steps = std::vector<std::pair<int, int>>;
const Steps straight{{0, 1}, {1, 0}, {0, -1}, {-1, 0}};
const Steps diagonal{{1, 1}, {1, -1}, {-1, -1}, {-1, 1}};

// Walks each line square by square until something stands there.
Bitboard walked(Square s, const Steps& steps, Bitboard occupied) {
  Bitboard reached = 0;
  for (const auto& [file_step, rank_step] : steps) {
    int file = file_of(s) + file_step, rank = rank_of(s) + rank_step;
    while (file >= 0 && file < 8 && rank >= 0 && rank < 8) {
      const Square at = square_at(file, rank);
      reached |= bit(at);
      if (contains(occupied, at)) break;
      file += file_step;
      rank += rank_step;
    }
  }
  return reached;
}

template <typename Visit>
void for_each_square(Visit visit) {
  for (int n = 0; n < square_count; ++n) visit(static_cast<Square>(n));
}

int sign(int n) {
  return (n > 0) - (n < 0);
}

bool on_one_line(Square a, Square b) {
  const int files = std::abs(file_of(a) - file_of(b)), ranks = std::abs(rank_of(a) - rank_of(b));
  return a != b && (files == 0 || ranks == 0 || files == ranks);
}

}  // namespace

TEST_CASE("Sliding attacks are what walking the lines finds") {
  constexpr std::uint64_t seed = 11;
  INFO("seed " << seed);
  std::mt19937_64 random(seed);
  for (int round = 0; round < 400; ++round) {
    const Bitboard occupied = round % 2 == 0 ? random() & random() : random();
    for_each_square([&](Square s) {
      REQUIRE(rook_attacks(s, occupied) == walked(s, straight, occupied));
      REQUIRE(bishop_attacks(s, occupied) == walked(s, diagonal, occupied));
      REQUIRE(queen_attacks(s, occupied) ==
              (walked(s, straight, occupied) | walked(s, diagonal, occupied)));
    });
  }
}

TEST_CASE("Rook attacks are right for every way to occupy a rank and a file") {
  for_each_square([](Square s) {
    for (unsigned pattern = 0; pattern < 256; ++pattern) {
      const Bitboard on_rank = Bitboard{pattern} << 8 * rank_of(s);
      REQUIRE(rook_attacks(s, on_rank) == walked(s, straight, on_rank));
      Bitboard on_file = 0;
      for (int rank = 0; rank < 8; ++rank) {
        if ((pattern >> rank & 1) != 0) on_file |= bit(square_at(file_of(s), rank));
      }
      REQUIRE(rook_attacks(s, on_file) == walked(s, straight, on_file));
    }
  });
}

TEST_CASE("Steps of king, knight and pawn stay on the board") {
  for_each_square([](Square s) {
    for_each_square([s](Square to) {
      const int files = std::abs(file_of(s) - file_of(to));
      const int ranks = rank_of(to) - rank_of(s), up_or_down = std::abs(ranks);
      REQUIRE(contains(king_attacks(s), to) == (s != to && files <= 1 && up_or_down <= 1));
      REQUIRE(contains(knight_attacks(s), to) == (files * up_or_down == 2));
      REQUIRE(contains(pawn_attacks(white, s), to) == (files == 1 && ranks == 1));
      REQUIRE(contains(pawn_attacks(black, s), to) == (files == 1 && ranks == -1));
    });
  });
}

TEST_CASE("Attacks by type are those of the named functions, on an empty board too") {
  for_each_square([](Square s) {
    const Bitboard occupied = 0x00FF'0000'4200'FF00;
    CHECK(attacks_of(knight, s, occupied) == knight_attacks(s));
    CHECK(attacks_of(bishop, s, occupied) == bishop_attacks(s, occupied));
    CHECK(attacks_of(rook, s, occupied) == rook_attacks(s, occupied));
    CHECK(attacks_of(queen, s, occupied) == queen_attacks(s, occupied));
    CHECK(attacks_of(king, s, occupied) == king_attacks(s));
    for (const PieceType t : {knight, bishop, rook, queen, king}) {
      CHECK(attacks_on_empty_board(t, s) == attacks_of(t, s, 0));
    }
  });
}

TEST_CASE("Between and line hold the squares of one line and nothing otherwise") {
  for_each_square([](Square a) {
    for_each_square([a](Square b) {
      if (!on_one_line(a, b)) {
        REQUIRE(between(a, b) == 0);
        REQUIRE(line_through(a, b) == 0);
        return;
      }
      const int file_step = sign(file_of(b) - file_of(a)),
                rank_step = sign(rank_of(b) - rank_of(a));
      const Steps toward{{file_step, rank_step}}, away{{-file_step, -rank_step}};
      REQUIRE(between(a, b) == (walked(a, toward, bit(b)) & ~bit(b)));
      REQUIRE(line_through(a, b) == (bit(a) | walked(a, toward, 0) | walked(a, away, 0)));
    });
  });
}

TEST_CASE("Attackers of a square are found through the given occupation") {
  const Position p = parse_fen("k7/8/3p1n2/8/4R3/8/1B6/4RK2 w - - 0 1").value();
  CHECK(attackers_to(p, e5, p.occupied()) == (bit(e4) | bit(b2) | bit(d6)));
  CHECK(attackers_to(p, e5, p.occupied() & ~bit(e4)) == (bit(e1) | bit(e4) | bit(b2) | bit(d6)));
  CHECK(attackers_to(p, e4, p.occupied()) == (bit(e1) | bit(f6)));
}
