#include "move_picker.hpp"

#include <catch2/catch.hpp>
#include <random>
#include <set>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"

#include "oracles/search_naive.hpp"
#include "support/games.hpp"

using namespace kairos;
using rules::Move;
using rules::Position;
using search::Histories;
using search::MovePicker;
using support::position;

namespace {

using Random = std::mt19937_64;

rules::MoveList legal_moves(const Position& p) {
  rules::MoveList moves;
  rules::legal_moves(p, moves);
  return moves;
}

// Any 16 bits, as they may stand in an entry of another position.
Move garbage(Random& random) {
  return Move::from_raw(static_cast<std::uint16_t>(random()));
}

// A move from elsewhere: none, a legal one, or garbage.
Move remembered(Random& random, const Position& p) {
  const auto moves = legal_moves(p);
  switch (random() % 4) {
    case 0:
      return {};
    case 1:
      return garbage(random);
    default:
      return moves[random() % moves.size()];
  }
}

// What a picker needs beside the position: histories that learnt something, killers, hash move.
struct Surroundings {
  Histories histories;
  search::OrderingHints hints;
  Move table_move;

  Surroundings(Random& random, const Position& p) {
    for (int i = 0; i < 200; ++i) {
      const int bonus = static_cast<int>(random() % 4001) - 2000;
      histories.learn_quiet(p.side_to_move(), garbage(random), bonus);
      Histories::learn(histories.after(rules::white_knight, rules::f3)[random() % (14 * 64)],
                       bonus);
    }
    hints.one = &histories.after(rules::white_knight, rules::f3);
    hints.two = hints.four = &histories.after_nothing();
    do {
      hints.killers = {remembered(random, p), remembered(random, p)};
    } while (hints.killers[0] == hints.killers[1] && hints.killers[0]);
    // As the search does: what is not legal here is of another position.
    table_move = remembered(random, p);
    if (!rules::is_legal(p, table_move)) table_move = {};
  }

  [[nodiscard]] bool is_killer(Move m) const {
    return m == hints.killers[0] || m == hints.killers[1];
  }
};

// Calls `check(position, random)` for positions of all sorts.
template <typename Check>
void for_positions(unsigned seed, Check check) {
  Random random(seed);
  INFO("seed " << seed);
  const char* starts[] = {
      "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
      "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",  // castling
      "n1n5/PPPk4/8/8/8/8/4Kppp/5N1N b - - 0 1",                               // promotions
      "8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1",                             // en passant, checks
  };
  for (int i = 0; i < 600; ++i) {
    const auto plies = static_cast<int>(random() % 60);
    const auto p = oracles::random_play(random, position(starts[i % 4]), plies);
    if (rules::has_legal_move(p)) check(p, random);
  }
}

std::vector<std::uint16_t> sorted(std::vector<Move> moves) {
  std::vector<std::uint16_t> raw;
  for (const Move m : moves) raw.push_back(m.raw());
  std::sort(raw.begin(), raw.end());
  return raw;
}

std::vector<Move> all_of(MovePicker& picker) {
  std::vector<Move> given;
  while (const Move m = picker.next()) given.push_back(m);
  return given;
}

bool is_quiet_check(const Position& p, Move m) {
  return !search::is_noisy(p, m) && p.gives_check(m);
}

// Captures and promotions that quiescence is meant to look at.
bool is_promising(const Position& p, Move m) {
  const bool minor = m.is_promotion() && m.promoted() != rules::queen;
  return search::is_noisy(p, m) && !minor && search::exchange_value(p, m) >= 0;
}

}  // namespace

TEST_CASE("the picker hands out every legal move once, the table's first", "[picker]") {
  int in_check = 0;
  for_positions(20240620, [&](const Position& p, Random& random) {
    const Surroundings s(random, p);
    const rules::Checks checks(p);
    MovePicker picker(p, s.histories, s.hints, s.table_move, MovePicker::Mode::full, p.in_check(),
                      checks);
    const auto given = all_of(picker);
    const auto legal = legal_moves(p);
    INFO(rules::to_fen(p) << " killers " << s.hints.killers[0].raw() << ' '
                          << s.hints.killers[1].raw() << " table " << s.table_move.raw());
    CHECK(sorted(given) == sorted({legal.begin(), legal.end()}));
    if (s.table_move) CHECK(given.front() == s.table_move);
    CHECK(picker.take_passed_over() == 0);
    in_check += p.in_check() ? 1 : 0;
  });
  CHECK(in_check > 20);
}

TEST_CASE("quiet moves passed over are counted, and none that checks is among them", "[picker]") {
  int passed_over = 0;
  for_positions(20240621, [&](const Position& p, Random& random) {
    if (p.in_check()) return;
    const Surroundings s(random, p);
    const rules::Checks checks(p);
    MovePicker picker(p, s.histories, s.hints, s.table_move, MovePicker::Mode::full, false, checks);
    const auto legal = legal_moves(p);
    const Move left_out = legal[random() % legal.size()];
    picker.leave_out(left_out);
    const auto from = random() % 12;  // from this move on only checks are wanted
    std::set<std::uint16_t> given;
    while (const Move m = picker.next(given.size() >= from)) CHECK(given.insert(m.raw()).second);
    INFO(rules::to_fen(p) << " from move " << from);
    int missing = 0;
    for (const Move m : legal) {
      if (given.contains(m.raw()) || m == left_out) continue;
      CHECK_FALSE(search::is_noisy(p, m));
      CHECK_FALSE(p.gives_check(m));
      CHECK_FALSE(s.is_killer(m));
      CHECK(m != s.table_move);
      ++missing;
    }
    CHECK(picker.take_passed_over() == missing);
    passed_over += missing;
  });
  CHECK(passed_over > 1000);
}

TEST_CASE("for quiescence the picker hands out what does not lose by exchanges, and quiet checks",
          "[picker]") {
  using Mode = MovePicker::Mode;
  for_positions(20240622, [&](const Position& p, Random& random) {
    if (p.in_check()) return;
    Surroundings s(random, p);
    if (s.table_move && !search::is_noisy(p, s.table_move)) s.table_move = {};
    const rules::Checks checks(p);
    for (const Mode mode : {Mode::noisy, Mode::with_checks}) {
      MovePicker picker(p, s.histories, s.hints, s.table_move, mode, false, checks);
      std::vector<Move> expected;
      for (const Move m : legal_moves(p)) {
        const bool check = mode == Mode::with_checks && is_quiet_check(p, m);
        if (m == s.table_move || check || is_promising(p, m)) expected.push_back(m);
      }
      INFO(rules::to_fen(p) << (mode == Mode::noisy ? "" : " with checks"));
      CHECK(sorted(all_of(picker)) == sorted(expected));
    }
  });
}
