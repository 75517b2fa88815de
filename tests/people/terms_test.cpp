// The terms of single moves, on positions where anybody can tell what is so.
#include "terms.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "exponential.hpp"

using namespace kairos;

namespace {

double term(const char* fen, const char* san, std::string_view name,
            const people::Before& before = {}) {
  const rules::Position p = rules::parse_fen(fen).value();
  const people::Judged judged[] = {{rules::read_san(p, san).move, 0.5, 0.5, 0.5}};
  REQUIRE(judged[0].move);
  const auto at = std::ranges::find(people::terms, name, &people::Term::name);
  REQUIRE(at != people::terms.end());
  return people::rows_of(p, before,
                         judged)[0][static_cast<std::size_t>(at - people::terms.begin())];
}

}  // namespace

// A data table.
TEST_CASE("a move's look is read from the board") {
  // White: king g1, queen d1, rook a1, knight f3, pawns; Black's knight e5 is not guarded.
  constexpr const char* open = "6k1/5ppp/8/4n3/8/5N2/5PPP/R2Q2K1 w - - 0 20";
  CHECK(term(open, "Nxe5", "takes") == 1);
  CHECK(term(open, "Nxe5", "takes what is not guarded") == 1);
  CHECK(term(open, "Nxe5", "value taken") == Approx(1 / 3.0));
  CHECK(term(open, "Nd2", "takes") == 0);
  CHECK(term(open, "Nd2", "piece goes back") == 1);
  CHECK(term(open, "Nd2", "knight") == 1);
  CHECK(term(open, "Ra8+", "checks") == 1);
  CHECK(term(open, "Ra7", "checks") == 0);
  CHECK(term(open, "Ra7", "long way") == 1);
  CHECK(term(open, "h3", "edge pawn") == 1);
  CHECK(term(open, "h4", "two steps") == 1);
  CHECK(term(open, "Kf1", "king among queens") == 0);  // Black has none
  // The knight f3 is attacked by a man of its worth and guarded: in no danger.
  CHECK(term(open, "Nd4", "leaves danger") == 0);
  // A knight that a pawn attacks, and squares that a pawn attacks.
  constexpr const char* attacked = "6k1/8/8/8/4p3/p4N2/8/6K1 w - - 0 1";
  CHECK(term(attacked, "Nd4", "leaves danger") == Approx(1 / 3.0));
  CHECK(term(attacked, "Kf2", "another man in danger") == Approx(1 / 3.0));
  constexpr const char* guarded = "6k1/8/8/4p3/8/5N2/8/6K1 w - - 0 1";
  CHECK(term(guarded, "Nd4", "goes into danger") == Approx(1 / 3.0));
  CHECK(term(guarded, "Nd4", "on a square a pawn attacks") == 1);
  CHECK(term(guarded, "Nh4", "goes into danger") == 0);
}

TEST_CASE("what was played before counts where it is known") {
  constexpr const char* fen = "6k1/5ppp/8/4n3/8/5N2/5PPP/R2Q2K1 w - - 0 20";
  using rules::Move;
  const people::Before took{Move::normal(rules::c6, rules::e5), true, {}};
  const people::Before came{Move::normal(rules::c6, rules::e5), false,
                            Move::normal(rules::d2, rules::f3)};
  CHECK(term(fen, "Nxe5", "takes back", took) == 1);
  CHECK(term(fen, "Nxe5", "takes back", came) == 0);
  CHECK(term(fen, "Nxe5", "takes back") == 0);
  CHECK(term(fen, "Nxe5", "takes the man just moved", came) == 1);
  CHECK(term(fen, "Nd2", "the man moved last", came) == 1);
  CHECK(term(fen, "Nd2", "back where it came from", came) == 1);
  CHECK(term(fen, "Ra7", "the man moved last", came) == 0);
}

TEST_CASE("the exponential and the logarithm agree with the library's") {
  for (double x = -60; x <= 60; x += 0.37) {
    CHECK(people::exponential(x) == Approx(std::exp(x)).epsilon(1e-13));
  }
  for (double x = 0.002; x < 600; x *= 1.3) {
    CHECK(people::logarithm(x) == Approx(std::log(x)).epsilon(1e-13).margin(1e-14));
  }
}
