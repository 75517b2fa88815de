#include <algorithm>
#include <catch2/catch.hpp>

#include "kairos/rules/movegen.hpp"
#include "kairos/study/examine.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/search_move.hpp"

#include "support/games.hpp"

using namespace kairos;
using pgn::GameResult;
using study::Scoresheet;
using study::Settings;
using study::Study;

namespace {

Settings small_effort() {
  Settings s;
  s.effort = {4'000, 40'000, 80'000};
  return s;
}

// Morphy's friends, Paris 1858; the score is common knowledge (facts.md, M01, gives the source).
constexpr std::string_view opera_game =
    "e4 e5 Nf3 d6 d4 Bg4 dxe5 Bxf3 Qxf3 dxe5 Bc4 Nf6 Qb3 Qe7 Nc3 c6 Bg5 b5 Nxb5 cxb5 Bxb5+ Nbd7 "
    "O-O-O Rd8 Rxd7 Rxd7 Rd1 Qe6 Bxd7+ Nxd7 Qb8+ Nxb8 Rd8#";

Scoresheet sheet(std::string_view fen, std::string_view moves, GameResult result) {
  return study::scoresheet_of(support::game(fen, moves, result));
}

}  // namespace

TEST_CASE("a survey has a note for every position and nothing to say after mate") {
  search::Searcher searcher;
  const Scoresheet game = sheet(rules::start_fen, opera_game, GameResult::white_wins);
  const Study study = study::survey(game, small_effort(), searcher);
  REQUIRE(study.notes.size() == study.moves.size() + 1);
  CHECK(study.moves.size() == 33);
  CHECK(study.notes.back().lines.empty());
  for (std::size_t i = 0; i + 1 < study.notes.size(); ++i) {
    INFO(i);
    const int legal = rules::count_legal_moves(study::position_after(study, i));
    REQUIRE(static_cast<int>(study.notes[i].lines.size()) == std::min(2, legal));
    CHECK(study.notes[i].lines.front().score >= study.notes[i].lines.back().score);
    CHECK(study.notes[i].nodes > 0);
  }
  CHECK(study.notes[32].played_score == search::mate_in_plies(1));
  CHECK(study.notes[30].played_score == search::mate_in_plies(3));
  CHECK(study.facts.white == "Aronov");
  CHECK(study.facts.result == "1-0");
  CHECK(study.facts.number == 1);
  CHECK(study::position_after(study, 33).checkers() != 0);
}

TEST_CASE("a survey depends on its game alone, not on what the searcher saw before") {
  search::Searcher fresh, used;
  const Scoresheet game = sheet(rules::start_fen, opera_game, GameResult::white_wins);
  const Scoresheet other = sheet(rules::start_fen, "d4 d5 c4 e6", GameResult::draw);
  const Study first = study::survey(game, small_effort(), fresh);
  study::survey(other, small_effort(), used);
  CHECK(study::survey(game, small_effort(), used) == first);
}

TEST_CASE("a survey is given up on request when the game is too long to wait for") {
  search::Searcher searcher;
  const std::atomic<bool> stop{true}, go{false};
  const Scoresheet game = sheet(rules::start_fen, "e4 e5", GameResult::draw);
  CHECK(study::survey(game, small_effort(), searcher, &stop));
  std::string moves;
  for (std::size_t i = 0; i <= study::most_waited_for; i += 4) moves += "Nf3 Nf6 Ng1 Ng8 ";
  const Scoresheet longer = sheet(rules::start_fen, moves, GameResult::draw);
  Settings settings;
  settings.effort = {100, 100, 100};
  CHECK_FALSE(study::survey(longer, settings, searcher, &stop));
  CHECK(study::survey(longer, settings, searcher, &go));
}

TEST_CASE("a game without moves has one note") {
  search::Searcher searcher;
  const Scoresheet game = sheet(rules::start_fen, "", GameResult::draw);
  const Study study = study::survey(game, small_effort(), searcher);
  CHECK(study.notes.size() == 1);
  CHECK(study::candidates(game, study, small_effort()).empty());
}

TEST_CASE("stalemate ends the survey as a draw") {
  search::Searcher searcher;
  // Common practice: queen against king, the careless move.
  const Scoresheet game = sheet("k7/8/1K6/8/8/8/8/2Q5 w - - 0 1", "Qc7", GameResult::draw);
  const Study study = study::survey(game, small_effort(), searcher);
  CHECK(study.notes[1].lines.empty());
  CHECK(study.notes[0].played_score == search::draw_score);
  CHECK(study.notes[0].lines[0].score >= search::min_mate_score);
}

TEST_CASE("a second occurrence is no draw for the one who is winning, a third is") {
  search::Searcher searcher;
  // White, a rook up, shuffles to gain time on the clock.
  const Scoresheet game = sheet("6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1",
                                "Kf1 Kf8 Kg1 Kg8 Kf1 Kf8 Kg1 Kg8", GameResult::white_wins);
  const Study study = study::survey(game, small_effort(), searcher);
  CHECK(study.notes[3].played_score < -200);                 // 2...Kg8, second occurrence
  CHECK(study.notes[7].played_score == search::draw_score);  // 4...Kg8, third
}

TEST_CASE("clock readings come from the comments") {
  search::Searcher searcher;
  pgn::Game game = support::game(rules::start_fen, "e4 e5 Nf3", GameResult::unknown);
  game.annotate(1).comments.push_back("[%clk 1:29:58]");
  game.annotate(2).comments.push_back("a bold reply [%emt 0:00:12][%clk 0:00:09.7]");
  game.annotate(3).comments.push_back("[%clk soon]");
  const Study study = study::survey(study::scoresheet_of(game), small_effort(), searcher);
  CHECK(study.notes[0].clock_seconds == 5398);
  CHECK(study.notes[1].clock_seconds == 9);
  CHECK(study.notes[2].clock_seconds == -1);
  CHECK(study.notes[3].clock_seconds == -1);
}

TEST_CASE("candidates are ordered by promise and none comes before the wanted move") {
  search::Searcher searcher;
  const Scoresheet game = sheet(rules::start_fen, opera_game, GameResult::white_wins);
  Settings settings = small_effort();
  const Study study = study::survey(game, settings, searcher);
  const auto all = study::candidates(game, study, settings);
  REQUIRE(all.size() > 1);
  for (std::size_t i = 1; i < all.size(); ++i) CHECK(all[i - 1].promise >= all[i].promise);
  settings.from_move = 10;
  for (const auto& c : study::candidates(game, study, settings)) CHECK(c.ply >= 18);
}

TEST_CASE("a score seen from before the move turns its sign and puts mates one ply further") {
  using study::seen_from_before;
  CHECK(seen_from_before(35) == -35);
  CHECK(seen_from_before(search::mated_in_plies(0)) == search::mate_in_plies(1));
  CHECK(seen_from_before(search::mate_in_plies(1)) == search::mated_in_plies(2));
  CHECK(search::mate_moves(seen_from_before(search::mated_in_plies(4))) == 3);
}

TEST_CASE("the verdict on a move knows the Laws: mate, stalemate, and a third occurrence") {
  search::Searcher searcher;
  const auto judged = [&](std::string_view fen, std::string_view san,
                          std::vector<rules::Key> earlier = {}) {
    const rules::Position p = support::position(fen);
    return study::search_move(p, earlier, support::move(p, san), 2'000, searcher).score;
  };
  CHECK(judged("6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1", "Ra8#") == search::mate_in_plies(1));
  CHECK(judged("k7/8/1K6/8/8/8/8/2Q5 w - - 0 1", "Qc7") == 0);
  // Eight plies without a capture or a pawn move: the position after Kf1 has stood there twice.
  constexpr std::string_view shuffled = "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 8 20";
  const rules::Position p = support::position(shuffled);
  const rules::Key after = p.after(support::move(p, "Kf1")).key();
  CHECK(judged(shuffled, "Kf1", {after, p.key(), after}) == 0);
  CHECK(judged(shuffled, "Kf1") > 200);
}
