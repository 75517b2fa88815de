#include "kairos/study/spoils.hpp"

#include <catch2/catch.hpp>

#include "support/games.hpp"

using namespace kairos;

TEST_CASE("men won are named as players name them") {
  struct Case {
    const char* from;
    const char* to;
    const char* words;  // won by White
  };
  // Made for the test: only the men count.
  const Case cases[] = {
      {"4k3/3q4/8/8/8/8/8/4K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "the queen"},
      {"4k3/3n4/8/8/8/8/4P3/4K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "a knight for a pawn"},
      {"4k3/3r4/8/8/8/8/8/2B1K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "the exchange"},
      {"4k3/pp6/8/8/8/8/8/4K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "two pawns"},
      {"2n1k3/8/8/8/8/8/8/2B1K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", ""},
      {"2nqk3/8/8/8/8/8/8/2BRK3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1",
       "the queen for a rook"},
      {"4k3/P7/8/8/8/8/8/4K3 w - - 0 1", "Q3k3/8/8/8/8/8/8/4K3 b - - 0 1", "a new queen"},
      {"4k3/P7/8/8/8/8/8/4K3 w - - 0 1", "N3k3/8/8/8/8/8/8/4K3 b - - 0 1", "a new knight"},
      {"4k3/3rp3/8/8/8/8/8/4K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "a rook and a pawn"},
  };
  for (const Case& c : cases) {
    INFO(c.from);
    CHECK(study::men_won(support::position(c.from), support::position(c.to), rules::white) ==
          c.words);
  }
}

TEST_CASE("a mate is claimed with its exact length and only when proved") {
  // Reti-Tartakower, Vienna 1910: 9.Qd8+ mates in 3 (fact sheet M02).
  const rules::Position p =
      support::position("rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9");
  const rules::Move key = support::move(p, "Qd8+");
  CHECK(study::spoils_of(p, key, search::mate_in_plies(5)).mate_moves == 3);
  CHECK(study::spoils_of(p, key, 500).mate_moves == 0);
  const rules::Move other = support::move(p, "Re1");
  CHECK(study::spoils_of(p, other, search::mate_in_plies(5)).mate_moves == 0);
}

TEST_CASE("material is claimed when proof and searcher agree") {
  // Lazard's trap (fact sheet Q10): 4...Ne3 wins the queen for a knight.
  const rules::Position p =
      support::position("rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - 0 4");
  const rules::Move key = support::move(p, "Ne3");
  const study::Spoils won = study::material_of(p, key, 590);
  CHECK(won.gain == 600);
  CHECK(won.what == "the queen for a knight");
  CHECK(won.line.front() == key);
  // A searcher that sees nothing of it is believed.
  CHECK(study::material_of(p, key, 0).what.empty());
  // A quiet developing move wins nothing.
  CHECK(study::material_of(p, support::move(p, "Nc6"), -100).gain == 0);
}

TEST_CASE("taking back is no gain when counted from before the exchange") {
  // Made for the test: White takes a knight with a bishop, the pawn takes back.
  const rules::Position before = support::position("4k3/2p5/3n4/8/5B2/8/8/4K3 w - - 0 1");
  const rules::Position after = before.after(support::move(before, "Bxd6"));
  const rules::Move back = support::move(after, "cxd6");
  CHECK(study::material_of(after, back, 100).gain == 300);
  CHECK(study::material_of(after, back, 100, &before).gain == 0);
}
