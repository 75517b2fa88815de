// The network in integers against a twin from its definition (network_shape.hpp): plain loops over
// the board, 64 bits wide, nothing remembered. The vector code that the compiler makes of the
// network differs from build to build, and the twin's answers do not.
#include "network.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <random>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"

#include "oracles/search_naive.hpp"

using namespace kairos;
using search::network_weights;

namespace {

// [region][kind][square], as the side sees it.
int naive_feature(rules::Color side, rules::Square king, rules::Piece man, rules::Square square) {
  int king_rank = king / 8, king_file = king % 8, rank = square / 8, file = square % 8;
  if (side == rules::black) {
    king_rank = 7 - king_rank;
    rank = 7 - rank;
  }
  if (king_file > 3) {
    king_file = 7 - king_file;
    file = 7 - file;
  }
  int region = 3;
  if (king_rank == 0) region = king_file <= 1 ? 0 : 1;
  if (king_rank == 1 || king_rank == 2) region = 2;
  const int kind = rules::type_of(man) + (rules::color_of(man) == side ? 0 : 6);
  return (region * 12 + kind) * 64 + rank * 8 + file;
}

std::int64_t naive_sum(const rules::Position& p, rules::Color side, std::size_t bucket,
                       std::size_t view) {
  const search::NetworkWeights& w = network_weights();
  std::int64_t total = 0;
  for (std::size_t column = 0; column < std::size_t{search::network_width}; ++column) {
    std::int64_t x = w.bias[column];
    for (int s = 0; s < 64; ++s) {
      const auto square = static_cast<rules::Square>(s);
      const rules::Piece man = p.piece_on(square);
      if (man == rules::no_piece) continue;
      const int feature = naive_feature(side, p.king_square(side), man, square);
      x += w.layer[static_cast<std::size_t>(feature)][column];
    }
    x = std::clamp<std::int64_t>(x, 0, 255);
    total += x * x / 64 * w.output[bucket][view][column];
  }
  return total;
}

int naive_evaluate(const rules::Position& p) {
  const int men = rules::count(p.occupied());
  const auto bucket = static_cast<std::size_t>((men - 2) * 8 / 31);
  const rules::Color us = p.side_to_move();
  const std::int64_t sum = naive_sum(p, us, bucket, 0) + naive_sum(p, ~us, bucket, 1);
  const std::int64_t out = sum * 64 / 255 + network_weights().output_bias[bucket];
  return static_cast<int>(out * 400 / (255 * 1024));
}

}  // namespace

TEST_CASE("fresh and brought up from other positions the network says what its twin says",
          "[network]") {
  constexpr unsigned seed = 20261128;
  std::mt19937_64 random(seed);
  search::Network incremental;
  std::vector<rules::Position> line;
  for (int game = 0; game < 40; ++game) {
    line.assign(1, oracles::random_play(random, rules::Position::start(), game * 5));
    for (int step = 0; step < 40; ++step) {
      rules::MoveList moves;
      rules::legal_moves(line.back(), moves);
      if (line.size() > 1 && (moves.empty() || random() % 3 == 0)) {
        line.pop_back();
      } else if (!moves.empty()) {
        line.push_back(line.back().after(moves[random() % moves.size()]));
      }
      const rules::Position& p = line.back();
      INFO("seed " << seed << ": " << rules::to_fen(p));
      const int expected = naive_evaluate(p);
      REQUIRE(incremental.evaluate(p, static_cast<int>(line.size()) - 1) == expected);
      if (step % 10 == 0) REQUIRE(search::Network().evaluate(p, 0) == expected);
    }
  }
}

TEST_CASE("the weights are such that no sum overflows", "[network]") {
  const search::NetworkWeights& w = network_weights();
  CHECK(std::string_view(w.head.data()) == "kairos net 2");
  // Each column: its bias and 32 men at most, in 16 bits.
  int most = 0, most_bias = 0, most_output = 0;
  for (const search::Columns& feature : w.layer) {
    for (const std::int16_t x : feature) most = std::max(most, std::abs(x));
  }
  for (const std::int16_t x : w.bias) most_bias = std::max(most_bias, std::abs(x));
  for (const auto& bucket : w.output) {
    for (const search::Columns& view : bucket) {
      for (const std::int16_t x : view) most_output = std::max(most_output, std::abs(x));
    }
  }
  CHECK(most > 0);
  CHECK(32 * most + most_bias <= 32'767);
  CHECK(most_output > 0);
  CHECK(most_output <= 2'032);
}
