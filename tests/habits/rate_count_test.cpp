// Rates against the published method's definition (Guid and Bratko 2006, see habits/rates.hpp) and
// the ratio estimator worked out by hand.
#include "kairos/habits/rate_count.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

using namespace kairos;

namespace {

// Knights go out and back; every move was the best, until the test says otherwise.
study::Study knight_dance(int plies, const std::string& white, const std::string& black) {
  const std::vector<std::string> dance = {"Nf3", "Nf6", "Ng1", "Ng8"};
  study::Study study;
  study.facts.white = white;
  study.facts.black = black;
  rules::Position p = study.start;
  for (int i = 0; i < plies; ++i) {
    const rules::Move move = rules::parse_san(p, dance[static_cast<std::size_t>(i % 4)]).value();
    const rules::Move other = rules::parse_san(p, i % 2 == 0 ? "a3" : "a6").value();
    study.notes.push_back({.lines = {{0, {move}}, {-10, {other}}},
                           .played_score = 0,
                           .depth = 1,
                           .nodes = 1,
                           .clock_seconds = -1});
    study.moves.push_back(move);
    p.play(move);
  }
  study.notes.emplace_back();
  return study;
}

// The note of a move by its number and side.
study::Note& note_of(study::Study& study, int number, rules::Color side) {
  return study.notes[static_cast<std::size_t>(2 * (number - 1) + (side == rules::white ? 0 : 1))];
}

void set_scores(study::Note& note, int best, int played) {
  note.lines.front().score = best;
  note.played_score = played;
  if (played < best) note.lines.front().moves = note.lines.back().moves;
}

habits::PlayerRates rates_of(const std::vector<study::Study>& studies, const std::string& name) {
  habits::RateCount count{habits::RateRule{}};
  for (const study::Study& study : studies) count.add(study);
  for (const habits::PlayerRates& player : count.listed(1)) {
    if (player.name == name) return player;
  }
  return {};
}

}  // namespace

TEST_CASE("losses count from move 12 on") {
  study::Study study = knight_dance(40, "Ash", "Birch");
  set_scores(note_of(study, 11, rules::white), 50, -150);
  CHECK(rates_of({study}, "Ash").decisions == 9);
  CHECK(rates_of({study}, "Ash").loss.mean() == 0);
  set_scores(note_of(study, 12, rules::white), 50, -40);
  const habits::PlayerRates ash = rates_of({study}, "Ash");
  CHECK(ash.loss.mean() == Approx(0.90 / 9));
  CHECK(ash.blunders.mean() == 0);
  CHECK(ash.best.mean() == Approx(8.0 / 9));
  CHECK(rates_of({study}, "Birch").loss.mean() == 0);
}

TEST_CASE("a blunder loses more than a pawn, and what is decided does not count") {
  study::Study study = knight_dance(40, "Ash", "Birch");
  set_scores(note_of(study, 13, rules::black), 90, -11);   // a blunder
  set_scores(note_of(study, 14, rules::black), 90, -10);   // just none
  set_scores(note_of(study, 15, rules::black), 500, 201);  // both beyond
  set_scores(note_of(study, 16, rules::black), 500, 200);  // one within: counts, a blunder
  set_scores(note_of(study, 17, rules::black), -300, -450);
  const habits::PlayerRates birch = rates_of({study}, "Birch");
  CHECK(birch.decisions == 7);
  CHECK(birch.blunders.mean() == Approx(2.0 / 7));
  CHECK(birch.loss.mean() == Approx((1.01 + 1.00 + 3.00) / 7));
}

TEST_CASE("mates count as ten pawns, and a single legal move is no decision") {
  study::Study study = knight_dance(40, "Ash", "Birch");
  set_scores(note_of(study, 13, rules::white), search::mate_in_plies(5), 100);
  note_of(study, 14, rules::white).lines.pop_back();
  const habits::PlayerRates ash = rates_of({study}, "Ash");
  CHECK(ash.decisions == 8);
  CHECK(ash.loss.mean() == Approx(9.0 / 8));
  CHECK(ash.errors.mean() == Approx(1.0 / 8));
}

TEST_CASE("the interval is that of a ratio over games") {
  study::Study one = knight_dance(40, "Ash", "Birch"), two = knight_dance(60, "Ash", "Cedar");
  set_scores(note_of(one, 13, rules::white), 50, 0);
  set_scores(note_of(two, 13, rules::white), 80, 0);
  const habits::PlayerRates ash = rates_of({one, two}, "Ash");
  const double r = 1.3 / 28;  // of 9 and 19 decisions
  CHECK(ash.loss.mean() == Approx(r));
  const double squares = std::pow(0.5 - 9 * r, 2) + std::pow(0.8 - 19 * r, 2);
  CHECK(ash.loss.margin() == Approx(1.96 * std::sqrt(2 * squares) / 28));
  CHECK(rates_of({one}, "Ash").loss.margin() == 0);
}

TEST_CASE("a game counts once, and the most exact stands first") {
  study::Study study = knight_dance(40, "Ash", "Birch");
  set_scores(note_of(study, 13, rules::white), 50, 0);
  habits::RateCount count{habits::RateRule{}};
  count.add(study);
  count.add(study);
  count.add(knight_dance(60, "Cedar", "Birch"));
  const auto players = count.listed(1);
  REQUIRE(players.size() == 3);
  CHECK(players[0].name == "Birch");
  CHECK(players[1].name == "Cedar");
  CHECK(players[2].name == "Ash");
  CHECK(players[2].games == 1);
  REQUIRE(count.listed(2).size() == 1);
}
