#include <catch2/catch.hpp>
#include <random>
#include <unordered_map>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"

#include "oracles/search_naive.hpp"

using namespace kairos;
using rules::Position;
using search::Limits;
using search::Searcher;

namespace {

struct Visit {
  Position before;
  Position position;
};

// Positions that share the half of the key by which a table of one cluster tells them apart.
std::vector<std::pair<Visit, Visit>> find_collisions(std::mt19937_64& random) {
  std::vector<std::pair<Visit, Visit>> pairs;
  std::unordered_map<std::uint32_t, Visit> seen;
  for (int game = 0; game < 4000; ++game) {
    Position p = Position::start();
    for (int ply = 0; ply < 80 && rules::has_legal_move(p); ++ply) {
      const Position next = oracles::random_play(random, p, 1);
      const auto [place, fresh] =
          seen.try_emplace(static_cast<std::uint32_t>(next.key()), Visit{p, next});
      const Visit& other = place->second;
      if (!fresh && other.position.key() != next.key()) pairs.push_back({other, {p, next}});
      p = next;
    }
  }
  return pairs;
}

// Searches `first`, so that its move lies in the table, then what leads to `second`, where the
// entry is taken for its own. Returns whether the move cannot be played there.
bool search_after(const Visit& first, const Visit& second) {
  Searcher searcher(0);
  Limits limits;
  limits.nodes = 100'000;
  limits.depth = 8;
  const auto left_behind = searcher.search(first.position, {}, limits);
  limits.depth = 3;
  const auto verdict = searcher.search(second.before, {}, limits);
  INFO(rules::to_fen(first.position) << " then " << rules::to_fen(second.before));
  Position at = second.before;
  for (const rules::Move m : verdict.lines.front().moves) {
    REQUIRE(rules::is_legal(at, m));
    at.play(m);
  }
  return !left_behind.lines.empty() &&
         !rules::is_legal(second.position, left_behind.lines.front().moves.front());
}

}  // namespace

TEST_CASE("a move that the table holds of another position is never played", "[searcher]") {
  constexpr unsigned seed = 20240625;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  int illegal = 0;
  for (const auto& [one, other] : find_collisions(random)) {
    illegal += search_after(one, other) ? 1 : 0;
    illegal += search_after(other, one) ? 1 : 0;
  }
  CHECK(illegal >= 10);
}
