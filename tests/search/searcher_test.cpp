#include "kairos/search/searcher.hpp"

#include <catch2/catch.hpp>
#include <random>
#include <set>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/search/mate.hpp"

#include "oracles/search_naive.hpp"
#include "support/games.hpp"

using namespace kairos;
using search::Limits;
using search::Searcher;
using search::Verdict;
using support::position;

namespace {

constexpr std::size_t small_table = std::size_t{1} << 20;

Limits nodes(std::uint64_t n, int lines = 1) {
  Limits limits;
  limits.nodes = n;
  limits.lines = lines;
  return limits;
}

Verdict search_fresh(const rules::Position& p, const Limits& limits) {
  return Searcher(small_table).search(p, {}, limits);
}

std::string best_of(const rules::Position& p, const Verdict& v) {
  return rules::to_san(p, v.lines.front().moves.front());
}

const char* const middlegames[] = {
    "r1bq1rk1/pp2bppp/2n1pn2/2pp4/3P1B2/2PBPN2/PP1N1PPP/R2QK2R w KQ - 4 8",
    "r4rk1/1bq1bppp/p2ppn2/1p6/3NPP2/1BN1B3/PPP3PP/R2Q1RK1 b - - 0 13",
    "2r3k1/p4ppp/1p2p3/3pP3/1P1P4/P4N2/5PPP/2R3K1 w - - 0 25",
    "r2q1rk1/ppp2ppp/2n1bn2/2b1p3/3pP3/3P1NPP/PPP1NPB1/R1BQ1RK1 b - - 2 9",
};

}  // namespace

TEST_CASE("every line is legal, distinct, in order and not empty, however few the nodes",
          "[searcher]") {
  for (const char* fen : middlegames) {
    const auto p = position(fen);
    for (const std::uint64_t n : {1U, 2U, 10U, 100U, 1000U, 20000U}) {
      INFO(fen << " nodes " << n);
      const Verdict v = search_fresh(p, nodes(n, 5));
      CHECK(v.nodes <= n + 8);
      REQUIRE(v.lines.size() == 5);
      std::set<std::uint16_t> first_moves;
      for (std::size_t i = 0; i < v.lines.size(); ++i) {
        const auto& line = v.lines[i];
        REQUIRE(!line.moves.empty());
        first_moves.insert(line.moves.front().raw());
        if (i > 0) CHECK(line.score <= v.lines[i - 1].score);
        rules::Position at = p;
        for (const rules::Move m : line.moves) {
          REQUIRE(rules::is_legal(at, m));
          at.play(m);
        }
      }
      CHECK(first_moves.size() == 5);
    }
  }
}

TEST_CASE("a verdict tells of each iteration it finished", "[searcher]") {
  const auto p = position(middlegames[1]);
  const Verdict v = search_fresh(p, nodes(60000, 2));
  REQUIRE(!v.history.empty());
  CHECK(v.history.back().depth == v.depth);
  for (std::size_t i = 0; i < v.history.size(); ++i) {
    CHECK(v.history[i].depth == static_cast<int>(i) + 1);
    CHECK(v.history[i].second_score <= v.history[i].score);
    if (i > 0) CHECK(v.history[i].nodes > v.history[i - 1].nodes);
  }
  CHECK(v.history.back().nodes <= v.nodes);
  CHECK(v.history.back().score == v.lines[0].score);
  CHECK(v.history.back().second_score == v.lines[1].score);
}

TEST_CASE("there is no line where there is no move", "[searcher]") {
  CHECK(search_fresh(position("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1"), nodes(1000)).lines.empty());
  CHECK(search_fresh(position("7k/6Q1/6K1/8/8/8/8/8 b - - 0 1"), nodes(1000)).lines.empty());
}

TEST_CASE("the same search gives the same verdict, node for node", "[searcher]") {
  for (const char* fen : middlegames) {
    const auto p = position(fen);
    const Limits limits = nodes(50000, 3);
    Searcher one(small_table), other(small_table);
    const Verdict first = one.search(p, {}, limits);
    CHECK(first == other.search(p, {}, limits));
    // After other work, `clear` makes it as good as new.
    one.search(position(middlegames[0]), {}, nodes(30000));
    one.clear();
    CHECK(first == one.search(p, {}, limits));
  }
}

TEST_CASE("a search held to some moves reports only those", "[searcher]") {
  const auto p = position(middlegames[0]);
  Limits limits = nodes(30000, 4);
  for (const char* san : {"O-O", "h3", "Qc2"}) {
    const auto m = rules::parse_san(p, san);
    REQUIRE(m);
    limits.root_moves.push_back(*m);
  }
  const Verdict v = search_fresh(p, limits);
  REQUIRE(v.lines.size() == 3);
  std::set<std::string> seen;
  for (const auto& line : v.lines) seen.insert(rules::to_san(p, line.moves.front()));
  CHECK(seen == std::set<std::string>{"O-O", "Qc2", "h3"});
}

TEST_CASE("the depth limit is kept", "[searcher]") {
  Limits limits = nodes(10'000'000);
  limits.depth = 4;
  const Verdict v = search_fresh(position(middlegames[0]), limits);
  CHECK(v.depth == 4);
  CHECK(v.nodes < limits.nodes);
}

TEST_CASE("a stop that is already set ends the search with a line", "[searcher]") {
  const std::atomic<bool> stop{true};
  Limits limits = nodes(100'000'000);
  limits.stop = &stop;
  const Verdict v = search_fresh(position(middlegames[0]), limits);
  CHECK(v.lines.size() == 1);
  CHECK(v.nodes < 100'000);
}

TEST_CASE("each of several lines has the score it has when searched alone", "[searcher]") {
  // Where everything is forced the scores are exact, so they must be equal.
  struct Case {
    const char* fen;
    const char* source;
  };
  const Case cases[] = {
      {"4k2r/8/8/8/8/8/8/R3K3 w - - 0 1", "common practice: one rook each"},
      {"6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1", "common practice: back-rank mate"},
  };
  for (const Case& c : cases) {
    const auto p = position(c.fen);
    Limits limits = nodes(400'000, 3);
    limits.depth = 6;
    const Verdict all = search_fresh(p, limits);
    for (const auto& line : all.lines) {
      INFO(c.source << ' ' << rules::to_san(p, line.moves.front()));
      Limits alone = limits;
      alone.lines = 1;
      alone.root_moves = {line.moves.front()};
      const Verdict v = search_fresh(p, alone);
      CHECK(std::abs(v.lines.front().score - line.score) <= (search::is_mate(line.score) ? 0 : 60));
    }
  }
}

TEST_CASE("published mates are found with their length", "[searcher]") {
  struct Case {
    const char* fen;
    const char* key;
    int moves;
    const char* source;
  };
  const Case cases[] = {
      {"4kb1r/p2n1ppp/4q3/4p1B1/4P3/1Q6/PPP2PPP/2KR4 w k - 0 16", "Qb8+", 2, "facts.md M01"},
      {"rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9", "Qd8+", 3, "facts.md M02"},
      {"2k1rb1r/ppp3pp/2n2q2/3B1b2/5P2/2P1BQ2/PP1N1P1P/2KR3R b - - 0 14", "Qxc3+", 2,
       "facts.md M03"},
      {"r1b2rk1/pppp1ppp/8/2b1P3/2B3n1/5N2/PP3qPP/RNBQR2K b - - 1 12", "Qg1+", 2, "facts.md M04"},
      {"r1b1k1nr/p2p1ppp/n2B4/1p1NPN1P/6P1/3P1Q2/P1P1K3/q5b1 w kq - 2 21", "Nxg7+", 3,
       "facts.md M05"},
      {"1r2k1r1/pbppnp1p/1b3P2/8/Q7/B1PB1q2/P4PPP/3R2K1 w - - 0 21", "Qxd7+", 4, "facts.md M07"},
      {"rn1qkbnr/ppp2p1p/3p2p1/4N3/2B1P3/2N5/PPPP1PPP/R1BbK2R w KQkq - 0 6", "Bxf7+", 2,
       "facts.md M08"},
      {"8/pp2R2p/4Nkb1/3P1p2/1B5p/8/PP1rr2P/5R1K b - - 2 32", "Rxh2+", 2, "facts.md M09"},
      {"4r2k/2pRP1pp/2p5/p4pN1/2Q3n1/q5P1/P3PP1P/6K1 w - - 0 27", "Nf7+", 4, "facts.md M10"},
  };
  for (const Case& c : cases) {
    INFO(c.source);
    const auto p = position(c.fen);
    const Verdict v = search_fresh(p, nodes(300'000));
    CHECK(best_of(p, v) == c.key);
    CHECK(search::mate_moves(v.lines.front().score) == c.moves);
    rules::Position last = p;
    for (const rules::Move m : v.lines.front().moves) last.play(m);
    CHECK(rules::is_checkmate(last));
  }
}

TEST_CASE("no mate is claimed shorter than the proven one", "[searcher]") {
  constexpr unsigned seed = 20240616;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  const char* starts[] = {"7k/8/5K2/8/8/8/8/R7 w - - 0 1", "6k1/5ppp/8/8/8/8/5PPP/3RR1K1 w - - 0 1",
                          "5rk1/5ppp/8/6N1/2Q5/8/8/6K1 w - - 0 1"};
  for (const char* start : starts) {
    for (int i = 0; i < 12; ++i) {
      const auto p = oracles::random_play(random, position(start), static_cast<int>(random() % 6));
      if (!rules::has_legal_move(p)) continue;
      INFO(rules::to_fen(p));
      const auto proof = search::prove_mate(p, 3, 5'000'000);
      const Verdict v = search_fresh(p, nodes(200'000));
      const int claimed = search::mate_moves(v.lines.front().score);
      if (proof) {
        CHECK(claimed == proof->moves);
      } else {
        CHECK((claimed <= 0 || claimed > 3));
      }
    }
  }
}

TEST_CASE("exact endgame studies are solved", "[searcher]") {
  struct Case {
    const char* fen;
    const char* key;
    int sign;  // of the score: 1 won, 0 drawn
    const char* source;
  };
  const Case cases[] = {
      {"7K/8/k1P5/7p/8/8/8/8 w - - 0 1", "Kg7", 0, "facts.md O01, Reti 1921 (4-man table)"},
      {"8/6K1/k1P5/8/7p/8/8/8 w - - 0 2", "Kf6", 0, "facts.md O02"},
      {"8/8/1kP2K2/8/7p/8/8/8 w - - 2 3", "Ke5", 0, "facts.md O03"},
      {"8/8/1KP5/3r4/8/8/8/k7 w - - 0 1", "c7", 1, "facts.md O04, Saavedra 1895 (4-man table)"},
      {"8/2P5/1K1r4/8/8/8/8/k7 w - - 1 2", "Kb5", 1, "facts.md O05"},
      {"8/2P5/8/8/8/1K1r4/8/k7 w - - 7 5", "Kc2", 1, "facts.md O06"},
      {"2R5/8/8/8/r7/8/2K5/k7 w - - 1 7", "Kb3", 1, "facts.md O07"},
      {"8/3k4/3P4/4K3/8/8/8/8 b - - 0 1", "Kd8", 0, "facts.md O08 (3-man table)"},
      {"4k3/8/8/8/8/1P6/8/2K5 w - - 0 1", "Kb2", 1, "facts.md O09 (3-man table)"},
      {"8/8/8/3K4/8/1Q6/2p5/1k6 b - - 0 1", "Ka1", 0, "facts.md O10 (4-man table)"},
      {"8/8/8/8/8/3K4/R3p3/3k4 b - - 0 1", "e1=N+", 0, "facts.md O11 (4-man table)"},
  };
  for (const Case& c : cases) {
    INFO(c.source);
    const auto p = position(c.fen);
    const Verdict v = search_fresh(p, nodes(1'000'000));
    CHECK(best_of(p, v) == c.key);
    const int score = v.lines.front().score;
    CHECK((c.sign > 0 ? score > 300 : std::abs(score) < 150));
  }
}

TEST_CASE("repetition, fifty moves and bare material are draws to the search", "[searcher]") {
  SECTION("a position of the game met again counts") {
    // A queen up, White could win, but every move but one repeats for the third time.
    const auto p = position("7k/8/8/8/8/8/8/KQ6 w - - 10 40");
    const auto m = rules::parse_san(p, "Qb7");
    REQUIRE(m);
    const auto next = p.after(*m);
    const std::vector<rules::Key> earlier = {1, next.key(), 2, 3, 4, next.key(), 5, 6};
    Limits limits = nodes(20'000);
    limits.root_moves = {*m};
    const Verdict v = Searcher(small_table).search(p, earlier, limits);
    CHECK(v.lines.front().score == search::draw_score);
    CHECK(Searcher(small_table).search(p, {}, limits).lines.front().score > 300);
  }
  SECTION("with a hundred plies behind it nothing is won") {
    const auto p = position("7k/8/8/8/8/8/8/KQ6 w - - 99 90");
    CHECK(search_fresh(p, nodes(20'000)).lines.front().score == search::draw_score);
  }
  SECTION("mate on the hundredth ply still counts") {
    const auto p = position("7k/R7/6K1/8/8/8/8/8 w - - 99 90");
    CHECK(search::mate_moves(search_fresh(p, nodes(20'000)).lines.front().score) == 1);
  }
  SECTION("taking the last man that could mate draws") {
    const auto p = position("8/8/8/8/8/2k5/1r6/K1B5 w - - 0 1");
    const Verdict v = search_fresh(p, nodes(20'000));
    CHECK(best_of(p, v) == "Bxb2+");
    CHECK(v.lines.front().score == search::draw_score);
  }
}

TEST_CASE("mating material is driven home", "[searcher][.long]") {
  // Play on from positions that published theory calls won (facts.md 6.6: KQK 10, KRK 16, KBBK 19,
  // KBNK 33 moves at most); the mate must come inside the fifty-move rule.
  const char* starts[] = {"8/8/8/3k4/8/8/8/KQ6 w - - 0 1", "8/8/8/3k4/8/8/8/KR6 w - - 0 1",
                          "8/8/8/3k4/8/8/8/KBB5 w - - 0 1", "8/8/8/8/8/8/2k5/KNB5 w - - 0 1"};
  for (const char* start : starts) {
    INFO(start);
    rules::Position p = position(start);
    std::vector<rules::Key> earlier;
    Searcher searcher(std::size_t{8} << 20);
    while (rules::game_status(p, earlier) == rules::GameStatus::open) {
      const Verdict v = searcher.search(p, earlier, nodes(100'000));
      earlier.push_back(p.key());
      p.play(v.lines.front().moves.front());
    }
    CHECK(rules::game_status(p, earlier) == rules::GameStatus::checkmate);
  }
}
