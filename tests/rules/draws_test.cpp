#include "kairos/rules/draws.hpp"

#include <catch2/catch.hpp>
#include <initializer_list>
#include <set>
#include <string>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

using namespace kairos;
using namespace kairos::rules;

namespace {

Position position(const char* fen) {
  INFO(fen);
  auto read = parse_fen(fen);
  REQUIRE(read);
  return *read;
}

// A game as its positions: the present one and the keys of those before.
struct Played {
  Position now;
  std::vector<Key> earlier;

  explicit Played(const Position& start) : now(start) {}
  Played& play(std::initializer_list<const char*> moves) {
    for (const char* text : moves) {
      earlier.push_back(now.key());
      now.play(parse_san(now, text).value());
    }
    return *this;
  }
  [[nodiscard]] GameStatus game_status() const { return rules::game_status(now, earlier); }
  [[nodiscard]] int occurrences() const { return rules::occurrences(now, earlier); }
};

GameStatus status_of(const char* fen) {
  return game_status(position(fen), {});
}

}  // namespace

// Articles are those of the FIDE Laws of Chess in force from 1 January 2023.

TEST_CASE("Mate ends the game") {  // 5.1.1
  const Played mate = Played(Position::start()).play({"f3", "e5", "g4", "Qh4#"});
  CHECK(mate.game_status() == GameStatus::checkmate);
  CHECK(is_checkmate(mate.now));
  CHECK_FALSE(is_stalemate(mate.now));
}

TEST_CASE("No legal move without check is stalemate") {  // 5.2.1
  const Position p = position("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1");
  CHECK(is_stalemate(p));
  CHECK_FALSE(is_checkmate(p));
  CHECK(game_status(p, {}) == GameStatus::stalemate);
}

TEST_CASE("Material alone makes a position dead only where no series of moves can mate") {  // 5.2.2
  struct Row {
    const char* fen;
    bool bare;
  };
  // The Laws name no list of men; these follow from 5.2.2 (two knights can mate with help).
  const Row rows[] = {
      {"4k3/8/8/8/8/8/8/4K3 w - - 0 1", true},
      {"4k3/8/8/8/8/8/8/4KN2 w - - 0 1", true},
      {"4kb2/8/8/8/8/8/8/4K3 w - - 0 1", true},
      {"4kb2/8/8/8/8/8/8/2B1K3 w - - 0 1", true},    // f8 and c1 are both dark
      {"2b1k3/8/8/8/8/8/8/2B1K3 w - - 0 1", false},  // c8 is light, c1 dark
      {"4kb2/8/3b4/8/8/4B3/8/2B1K3 w - - 0 1", true},
      {"4k3/8/8/8/8/8/8/3NKN2 w - - 0 1", false},
      {"4kn2/8/8/8/8/8/8/4KN2 w - - 0 1", false},
      {"4kb2/8/8/8/8/8/8/4KN2 w - - 0 1", false},
      {"4k3/8/8/8/8/8/4P3/4K3 w - - 0 1", false},
      {"4k3/8/8/8/8/8/8/4K2R w - - 0 1", false},
      {"4k3/8/8/8/8/8/8/3QK3 w - - 0 1", false},
  };
  for (const Row& row : rows) {
    INFO(row.fen);
    CHECK(is_bare_material(position(row.fen)) == row.bare);
    CHECK((status_of(row.fen) == GameStatus::bare_material) == row.bare);
  }
}

TEST_CASE("The third occurrence may be claimed, the fifth ends the game") {  // 9.2.2, 9.6.1
  Played game(Position::start());
  CHECK(game.occurrences() == 1);
  for (int round = 2; round <= 5; ++round) {
    game.play({"Nf3", "Nf6", "Ng1", "Ng8"});
    INFO("occurrence " << round);
    CHECK(game.occurrences() == round);
    CHECK(game.game_status() == (round < 3   ? GameStatus::open
                                 : round < 5 ? GameStatus::threefold
                                             : GameStatus::fivefold));
  }
}

TEST_CASE("Occurrences need not follow one another") {  // 9.2.2
  Played game(Position::start());
  game.play({"Nf3", "Nf6", "Ng1", "Ng8"});
  game.play({"Nc3", "Nc6", "Nb1", "Nb8"});
  CHECK(game.occurrences() == 3);
}

TEST_CASE("A position with an en passant capture is not the same without it") {  // 9.2.3.1
  Played game(Position::start());
  game.play({"e4", "a6", "e5", "d5"});
  game.play({"Nf3", "Nf6", "Ng1", "Ng8"});
  CHECK(game.occurrences() == 1);
  game.play({"Nf3", "Nf6", "Ng1", "Ng8"});
  CHECK(game.occurrences() == 2);
}

TEST_CASE("A double step that no pawn can take does not make a position another") {  // 9.2.3
  Played game(Position::start());
  game.play({"e4", "e5"});
  game.play({"Nf3", "Nf6", "Ng1", "Ng8"});
  CHECK(game.occurrences() == 2);
}

TEST_CASE("A position is not the same once the right to castle is lost") {  // 9.2.3.2
  Played game(position("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"));
  game.play({"Rb1", "Rb8", "Ra1", "Ra8"});
  CHECK(game.occurrences() == 1);
  game.play({"Rb1", "Rb8", "Ra1", "Ra8"});
  CHECK(game.occurrences() == 2);
}

TEST_CASE("Fifty moves each may be claimed, seventy-five end the game") {  // 9.3.2, 9.6.2
  CHECK(status_of("4k3/8/8/8/8/8/8/R3K3 w - - 99 80") == GameStatus::open);
  CHECK(status_of("4k3/8/8/8/8/8/8/R3K3 w - - 100 80") == GameStatus::fifty_moves);
  CHECK(status_of("4k3/8/8/8/8/8/8/R3K3 w - - 149 80") == GameStatus::fifty_moves);
  CHECK(status_of("4k3/8/8/8/8/8/8/R3K3 w - - 150 80") == GameStatus::seventy_five_moves);
}

TEST_CASE("A last move that mates comes before the seventy-five moves") {  // 9.6.2
  Played game(position("4k3/8/4K3/8/8/8/8/R7 w - - 149 120"));
  game.play({"Ra8#"});
  CHECK(game.now.halfmove_clock() == 150);
  CHECK(game.game_status() == GameStatus::checkmate);
}

TEST_CASE("A capture or a pawn move starts the count anew") {  // 9.3
  Played game(position("4k3/4p3/8/8/8/8/8/R3K3 b - - 99 80"));
  game.play({"e6"});
  CHECK(game.now.halfmove_clock() == 0);
  CHECK(game.game_status() == GameStatus::open);
}

TEST_CASE("Every standing has words of its own") {
  std::set<std::string> all;
  for (int n = 0; n <= static_cast<int>(GameStatus::fifty_moves); ++n) {
    all.insert(std::string(words(static_cast<GameStatus>(n))));
  }
  CHECK(all.size() == 8);
  CHECK(all.count("") == 0);
}
