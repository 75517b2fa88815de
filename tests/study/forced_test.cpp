#include "kairos/study/forced.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "support/games.hpp"

using namespace kairos;

namespace {

// Men by their letters, the most valuable first: "qp".
std::string letters(const study::Men& men) {
  std::string text;
  for (std::size_t t = rules::king; t-- > 0;) {
    for (int n = men[t]; n > 0; --n) text += "pnbrq"[t];
  }
  return text;
}

}  // namespace

TEST_CASE("of the men won and lost those traded for their like do not count") {
  struct Case {
    const char* from;
    const char* to;
    const char* won;  // by White
    const char* lost;
    rules::PieceType promoted = rules::no_piece_type;
  };
  // Made for the test: only the men count.
  const Case cases[] = {
      {"4k3/3q4/8/8/8/8/8/4K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "q", ""},
      {"4k3/3n4/8/8/8/8/4P3/4K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "n", "p"},
      {"4k3/3r4/8/8/8/8/8/2B1K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "r", "b"},
      {"4k3/pp6/8/8/8/8/8/4K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "pp", ""},
      {"2nqk3/8/8/8/8/8/8/2BRK3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "q", "r"},
      {"4k3/P7/8/8/8/8/8/4K3 w - - 0 1", "Q3k3/8/8/8/8/8/8/4K3 b - - 0 1", "", "", rules::queen},
      {"1r2k3/P7/8/8/8/8/8/4K3 w - - 0 1", "1N2k3/8/8/8/8/8/8/4K3 b - - 0 1", "r", "",
       rules::knight},
      {"4k3/3rp3/8/8/8/8/8/4K3 w - - 0 1", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "rp", ""},
  };
  for (const Case& c : cases) {
    INFO(c.from);
    const auto men =
        study::men_won(support::position(c.from), support::position(c.to), rules::white);
    REQUIRE(men);
    CHECK(letters(men->won) == c.won);
    CHECK(letters(men->lost) == c.lost);
    CHECK(men->promoted == c.promoted);
  }
  const rules::Position bare = support::position("4k3/8/8/8/8/8/8/4K3 w - - 0 1");
  CHECK_FALSE(
      study::men_won(support::position("2n1k3/8/8/8/8/8/8/2B1K3 w - - 0 1"), bare, rules::white));
  CHECK_FALSE(
      study::men_won(support::position("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"), bare, rules::white));
}

TEST_CASE("a mate is claimed with its exact length and only when proved") {
  // Reti-Tartakower, Vienna 1910: 9.Qd8+ mates in 3 (fact sheet M02).
  const rules::Position p =
      support::position("rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9");
  const rules::Move key = support::move(p, "Qd8+");
  const auto mate = study::prove_forced(p, key, search::mate_in_plies(5), 400'000).reason;
  REQUIRE(mate);
  CHECK(mate->kind == study::ReasonKind::mates);
  CHECK(mate->mate_moves == 3);
  CHECK(mate->line.size() == 5);
  CHECK(mate->squares == std::vector<rules::Square>{rules::c7});
  CHECK_FALSE(study::prove_forced(p, key, 500, 1'000'000).reason);
  const rules::Move other = support::move(p, "Re1");
  const auto seen = study::prove_forced(p, other, search::mate_in_plies(5), 400'000).reason;
  REQUIRE(seen);
  CHECK(seen->kind == study::ReasonKind::leads_to_mate);
  CHECK(seen->line.empty());
}

TEST_CASE("material is claimed when proof and searcher agree") {
  // Lazard's trap (fact sheet Q10): 4...Ne3 wins the queen for a knight.
  const rules::Position p =
      support::position("rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - 0 4");
  const rules::Move key = support::move(p, "Ne3");
  const auto won = study::prove_material(p, key, 590, 1'000'000).reason;
  REQUIRE(won);
  CHECK(won->kind == study::ReasonKind::wins_material);
  CHECK(won->gain == 600);
  CHECK(letters(won->men.won) == "q");
  CHECK(letters(won->men.lost) == "n");
  CHECK(won->line.front() == key);
  CHECK(std::count(won->squares.begin(), won->squares.end(), rules::d1) == 1);
  // A searcher that sees nothing of it is believed.
  CHECK_FALSE(study::prove_material(p, key, 0, 1'000'000).reason);
  // A quiet developing move wins nothing.
  CHECK_FALSE(study::prove_material(p, support::move(p, "Nc6"), -100, 1'000'000).reason);
}

TEST_CASE("taking back is no gain when counted from before the exchange, and is told as such") {
  // Made for the test: White takes a knight with a bishop, the pawn takes back.
  const rules::Position before = support::position("4k3/2p5/3n4/8/5B2/8/8/4K3 w - - 0 1");
  const rules::Position after = before.after(support::move(before, "Bxd6"));
  const rules::Move back = support::move(after, "cxd6");
  const auto alone = study::prove_material(after, back, 100, 400'000).reason;
  REQUIRE(alone);
  CHECK(alone->kind == study::ReasonKind::wins_material);
  CHECK(alone->gain == 300);
  const auto answer = study::prove_material(after, back, 100, 400'000, &before).reason;
  REQUIRE(answer);
  CHECK(answer->kind == study::ReasonKind::wins_back);
  CHECK(answer->gain == 300);
}

TEST_CASE("a proof takes no more nodes than it is given, and stands on the depths they reach") {
  const rules::Position p =
      support::position("rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - 0 4");
  const rules::Move key = support::move(p, "Ne3");
  for (const std::uint64_t limit : {1'000u, 100'000u, 1'000'000u}) {
    CAPTURE(limit);
    const study::Proof proof = study::prove_material(p, key, 590, limit);
    CHECK(proof.nodes <= limit);
    CHECK(proof.reason.has_value() == (limit >= 100'000));
    if (proof.reason) CHECK(proof.reason->gain == 600);
  }
  // Where the score bears out no gain, or a mate is announced, no material is looked for.
  CHECK(study::prove_material(p, key, -500, 1'000'000).nodes == 0);
  CHECK(study::prove_forced(p, key, search::mate_in_plies(31), 1'000'000).nodes == 0);
}
