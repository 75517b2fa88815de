// The words of chess: a fact and what is said of it.
#include "kairos/report/words.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "support/games.hpp"
#include "support/reasons.hpp"

using namespace kairos;
using report::effect_words;
using study::Assertion;
using study::Kind;
using study::Moment;
using study::Reason;
using study::ReasonKind;
using study::Role;
using support::back;
using support::mate;
using support::material;
using support::note;

namespace {

constexpr search::Score won = 400, better = 120, level = 0, worse = -150, lost = -500;

Reason of(Role role, Reason reason) {
  reason.role = role;
  return reason;
}

// After 1. e4 e5 2. Qh5 Nc6 3. Bc4: Black to move, 3... g6 is best.
struct Told {
  Kind kind;
  const char* played;
  const char* refutation;
  search::Score best_score, played_score;
  std::vector<Reason> reasons;
};

constexpr const char* scholars =
    "r1bqkbnr/pppp1ppp/2n5/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR b KQkq - 3 3";

Moment moment_of(const Told& told) {
  Moment m;
  m.kind = told.kind;
  m.position = support::position(scholars);
  m.best = support::move(m.position, "g6");
  if (*told.played != '\0') m.played = support::move(m.position, told.played);
  if (told.kind == Kind::trap) std::swap(m.played, m.tempting);
  m.found = m.played == m.best;
  m.refutation = support::line(study::position_of(m, Role::reply), told.refutation);
  m.best_score = told.best_score;
  m.played_score = told.kind == Kind::trap ? told.best_score : told.played_score;
  m.tempting_score = told.played_score;
  m.reasons = told.reasons;
  return m;
}

// In a game that went on with 4. Qf3.
std::string sentence(const Moment& m, const char* result = "*") {
  study::Study study;
  study.start = m.position;
  study.facts.result = result;
  study.moves = {m.played, rules::Move::normal(rules::h5, rules::f3)};
  return report::sentence_of(study, m);
}

}  // namespace

TEST_CASE("each kind of moment is told with what is proved of it, and with less where nothing is") {
  const struct {
    Told told;
    const char* sentence;
  } cases[] = {
      {{Kind::swing, "Nf6", "Qxf7#", level, lost, {of(Role::reply, mate(1))}},
       "3... Nf6 loses: 4. Qxf7# is mate. White missed it. Better was 3... g6."},
      {{Kind::swing, "Nf6", "Qxf7#", level, lost, {}},
       "3... Nf6 loses to 4. Qxf7#. White missed it. Better was 3... g6."},
      {{Kind::swing, "Nf6", "Qxf7#", level, worse, {of(Role::best, back(material("p")))}},
       "3... Nf6 spoils a level position: after 4. Qxf7# Black is worse. White missed it. Better "
       "was "
       "3... g6, which wins back a pawn."},
      {{Kind::swing, "Nf6", "Qf3", better, better - 30, {}},
       "3... Nf6 gives part of the advantage away: after 4. Qf3 Black is better. White played it. "
       "Better was 3... g6."},
      {{Kind::swing, "Nf6", "Qf3", won, level, {}},
       "3... Nf6 lets the win slip: after 4. Qf3 the position is level. White played it. Better "
       "was "
       "3... g6."},
      {{Kind::only_move, "g6", "Qf3", level, level, {}}, "Only 3... g6 holds. Black found it."},
      {{Kind::only_move, "Nf6", "Qxf7#", better, lost, {}},
       "Only 3... g6 keeps the advantage. Black played 3... Nf6 instead."},
      {{Kind::quiet_win, "g6", "Qf3", won, won, {of(Role::best, material("n"))}},
       "The quiet 3... g6 wins a knight, and nothing else does. Black found it."},
      {{Kind::quiet_win, "Nf6", "Qxf7#", won, lost, {}},
       "The quiet 3... g6 is the move: after it Black is winning. Black played 3... Nf6 instead."},
      {{Kind::trap, "Nf6", "Qxf7#", level, lost, {of(Role::reply, mate(1))}},
       "3... Nf6 would have allowed mate: 4. Qxf7#."},
      {{Kind::trap, "Nf6", "Qxf7#", level, lost, {of(Role::reply, material("n"))}},
       "The tempting 3... Nf6 fails to 4. Qxf7#, which wins a knight."},
      {{Kind::trap, "Nf6", "Qxf7#", better, worse, {}},
       "The tempting 3... Nf6 fails: after 4. Qxf7# Black is worse."},
      {{Kind::trap, "Nf6", "Qf3", better, level, {}},
       "The tempting 3... Nf6 fails: after 4. Qf3 the position is level."},
      {{Kind::claim, "Nf6", "Qxf7#", level, lost, {note(Assertion::playable)}},
       "The notes give 3... Nf6, but after 4. Qxf7# Black is lost; better is 3... g6."},
      {{Kind::claim, "Nf6", "Qxf7#", level, lost, {note(Assertion::good_move)}},
       "3... Nf6 is marked as good in the notes, but after 4. Qxf7# Black is lost; better is "
       "3... g6."},
      {{Kind::claim, "g6", "Qf3", level, level, {note(Assertion::poor_move)}},
       "3... g6 is marked as poor in the notes, but it is the best move; after 4. Qf3 the position "
       "is level."},
      {{Kind::claim, "Nf6", "Qf3", level, level, {note(Assertion::poor_move)}},
       "3... Nf6 is marked as poor in the notes, but it is as good as any; after 4. Qf3 the "
       "position is level."},
      {{Kind::claim, "g6", "Qf3", level, level, {note(Assertion::only_move)}},
       "3... g6 is marked as the only move in the notes, but there is another as good."},
      {{Kind::claim, "g6", "Qf3", level, level, {note(Assertion::better, rules::black)}},
       "3... g6 is called better for Black in the notes, but after 4. Qf3 the position is level."},
      {{Kind::claim, "Nf6", "Qxf7#", level, lost, {note(Assertion::drawn)}},
       "3... Nf6 is called a draw in the notes, but after 4. Qxf7# Black is lost."},
      {{Kind::claim, "g6", "Qf3", level, level, {note(Assertion::mate)}},
       "3... g6 is called mate in 3 in the notes, but no such mate is there."},
  };
  for (const auto& c : cases) CHECK(sentence(moment_of(c.told)) == c.sentence);
}

TEST_CASE("why the second best falls short: what refutes it, or what is left after it") {
  Moment m = moment_of({Kind::only_move, "g6", "Qf3", better, better, {}});
  m.second = support::move(m.position, "Nf6");
  m.second_refutation = support::line(m.position.after(m.second), "Qxf7#");
  const auto told = [&m](search::Score second) {
    m.second_score = second;
    return sentence(m);
  };
  const std::string begin = "Only 3... g6 keeps the advantage. ", end = ". Black found it.";
  CHECK(told(lost) == begin + "After the next best, 3... Nf6, Black is lost" + end);
  CHECK(told(level) == begin + "After the next best, 3... Nf6, the position is level" + end);
  CHECK(told(better - 30) == begin + "The next best, 3... Nf6, gives most of it away" + end);
  m.reasons = {of(Role::second_reply, mate(1))};
  CHECK(told(lost) == begin + "The next best, 3... Nf6, fails to 4. Qxf7#, which is mate" + end);
}

TEST_CASE("an only move is told with what makes it work") {
  Moment m = moment_of({Kind::only_move, "g6", "Qf3", better, better, {}});
  m.reasons = {of(Role::best, material("n"))};
  CHECK(sentence(m) == "Only 3... g6 keeps the advantage: it wins a knight. Black found it.");
  m.best_score = m.played_score = won;
  CHECK(sentence(m) == "Only 3... g6 keeps the win: it wins a knight. Black found it.");
  m.reasons = {of(Role::best, mate(4))};
  CHECK(sentence(m) == "Only 3... g6 mates in 4. Black found it.");
}

TEST_CASE("a refutation that the best move allows as well is not told as one") {
  // Made for the test: the rook takes the bishop on h1 whichever way the king goes.
  Moment m;
  m.kind = Kind::only_move;
  m.position = support::position("4k2r/8/8/8/8/8/8/3K3B w - - 0 16");
  m.played = m.best = support::move(m.position, "Kc2");
  m.second = support::move(m.position, "Kc1");
  m.line = support::line(m.position, "Kc2 Rh2+");
  m.second_refutation = support::line(m.position.after(m.second), "Rxh1+");
  m.best_score = m.played_score = level;
  m.second_score = lost;
  m.found = true;
  Reason reason = of(Role::second_reply, material("b"));
  reason.move = m.second_refutation.front();
  m.reasons = {reason};
  CHECK(sentence(m) ==
        "Only 16. Kc2 holds. After the next best, 16. Kc1, White is lost. White found it.");
  m.best = m.played = support::move(m.position, "Bc6+");  // the bishop goes
  m.line = {m.best};
  CHECK(sentence(m) ==
        "Only 16. Bc6+ holds. The next best, 16. Kc1, fails to 16... Rxh1+, which wins a bishop. "
        "White found it.");
}

TEST_CASE("of one place the swing, the only move and the quiet win are one text") {
  study::Study study;
  study.start = support::position(scholars);
  study.moves = support::line(study.start, "Nf6 Qxf7#");
  Moment swing = moment_of({Kind::swing, "Nf6", "Qxf7#", won, lost, {of(Role::reply, mate(1))}});
  swing.punished = true;
  Moment only = moment_of({Kind::only_move, "Nf6", "Qxf7#", won, lost, {}});
  only.second = only.played;
  only.second_score = lost;
  const Moment quiet =
      moment_of({Kind::quiet_win, "Nf6", "Qxf7#", won, lost, {of(Role::best, material("q"))}});
  study.moments = {swing, only, quiet};
  const auto points = report::turning_points(study);
  REQUIRE(points.size() == 1);
  CHECK(report::text_of(study, points[0]) ==
        "3... Nf6 throws the win away and loses: 4. Qxf7# is mate. White played it. Only the quiet "
        "3... g6 keeps the win: it wins the queen.");
}

TEST_CASE("an early end is told by the result") {
  Moment m = moment_of({Kind::ended_early, "", "", won, lost, {}});
  CHECK(sentence(m, "1-0") == "Black gave up, though Black is winning after 3... g6.");
  CHECK(sentence(m, "0-1") == "White gave up, though White is lost after 3... g6.");
  m.reasons = {of(Role::best, mate(4))};
  CHECK(sentence(m, "1/2-1/2") ==
        "A draw was agreed, though Black is winning: 3... g6 mates in 4.");
}

TEST_CASE("a weighed move is told by what it does by force, or else by where it leaves its side") {
  const rules::Position p = support::position(scholars);
  study::Weighed w;
  w.move = support::move(p, "Nf6");
  w.line = support::line(p, "Nf6 Qxf7#");
  const auto told = [&](search::Score best, search::Score left, bool good,
                        std::optional<Reason> reason = std::nullopt) {
    w.best_score = best;
    w.expectation = study::expectation(left);
    w.is_good = good;
    w.reason = std::move(reason);
    return report::verdict_words(p, w);
  };
  CHECK(told(won, won, true, material("n")) == "wins a knight");
  CHECK(told(won, won, true) == "wins");
  CHECK(told(better, better, true) == "keeps the advantage");
  CHECK(told(level, level, true) == "holds");
  CHECK(told(worse, worse, true) == "no move is better, but Black stays worse");
  CHECK(told(lost, lost, true) == "no move helps: Black is lost");
  CHECK(told(level, lost, false, mate(1)) == "loses: 4. Qxf7# is mate");
  CHECK(told(level, lost, false, material("q")) == "loses the queen: 4. Qxf7#");
  CHECK(told(level, lost, false) == "loses: after 4. Qxf7# Black is lost");
  CHECK(told(won, level, false) == "lets the win slip: after 4. Qxf7# the position is level");
  CHECK(told(won, worse, false) == "throws the win away: after 4. Qxf7# Black is worse");
  CHECK(told(better, level, false) ==
        "gives the advantage away: after 4. Qxf7# the position is level");
  CHECK(told(level, worse, false) == "spoils a level position: after 4. Qxf7# Black is worse");
  CHECK(told(better, better, false) == "less good: after 4. Qxf7# Black is better");
  // Nothing comes after it: stalemate (White's queen takes the last square).
  const rules::Position end = support::position("7k/8/8/6K1/8/8/5Q2/8 w - - 0 1");
  w.move = support::move(end, "Qf7");
  w.line = {w.move};
  w.best_score = won;
  w.expectation = 0.5;
  w.reason.reset();
  CHECK(report::verdict_words(end, w) == "lets the win slip: it is stalemate");
}

TEST_CASE("every kind, standing, reward and reason for no puzzle has words of its own") {
  std::set<std::string_view> all;
  for (int i = 0; i < study::kind_count; ++i) all.insert(report::words(static_cast<Kind>(i)));
  for (int i = 0; i < 5; ++i) all.insert(report::words(static_cast<study::Standing>(i)));
  for (int i = 0; i < puzzle::reward_count; ++i) {
    all.insert(puzzle::name_of(static_cast<puzzle::Reward>(i)));
  }
  for (int i = 0; i < puzzle::drop_count; ++i) {
    all.insert(report::words(static_cast<puzzle::Drop>(i)));
  }
  CHECK(all.size() == study::kind_count + 5 + puzzle::reward_count + puzzle::drop_count);
  CHECK(!all.contains(""));
}
