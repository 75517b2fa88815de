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
       "3... Nf6 gives part of the advantage away after 4. Qf3. White played it. "
       "Better was 3... g6."},
      {{Kind::swing, "Nf6", "Qf3", won, level, {}},
       "3... Nf6 lets the win slip: after 4. Qf3 the position is level. White played it. Better "
       "was "
       "3... g6."},
      {{Kind::only_move, "g6", "Qf3", level, level, {}}, "Only 3... g6 holds. Black found it."},
      {{Kind::only_move, "Nf6", "Qxf7#", better, lost, {}},
       "Only 3... g6 keeps the advantage. Black played 3... Nf6 instead."},
      {{Kind::quiet_win, "g6", "Qf3", won, won, {of(Role::best, material("n"))}},
       "3... g6 hits the queen and wins a knight. No other move wins as much. Black found it."},
      {{Kind::quiet_win, "Nf6", "Qxf7#", won, lost, {}},
       "3... g6 keeps the win: it hits the queen. Black played 3... Nf6 instead."},
      {{Kind::trap, "Nf6", "Qxf7#", level, lost, {of(Role::reply, mate(1))}},
       "3... Nf6 would have allowed mate: 4. Qxf7#."},
      {{Kind::trap, "Nf6", "Qxf7#", level, lost, {of(Role::reply, material("n"))}},
       "The tempting 3... Nf6 fails to 4. Qxf7#, which wins a knight."},
      {{Kind::trap, "Nf6", "Qxf7#", better, worse, {}},
       "The tempting 3... Nf6 fails: after 4. Qxf7# Black is worse."},
      {{Kind::trap, "Nf6", "Qf3", better, level, {}},
       "The tempting 3... Nf6 gives the advantage away: after 4. Qf3 the position is level."},
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
  const std::string begin =
      "Only 3... g6 keeps the advantage. Black found it. The next best, "
      "3... Nf6, ";
  CHECK(told(lost) == begin + "loses.");
  CHECK(told(worse) == begin + "leaves Black worse.");
  CHECK(told(level) == begin + "leaves the position level.");
  CHECK(told(better - 30) == begin + "gives part of the advantage away.");
  m.best_score = won;
  CHECK(sentence(m) ==
        "Only 3... g6 wins. Black found it. The next best, 3... Nf6, leaves Black "
        "better, no more.");
  m.best_score = better;
  m.reasons = {of(Role::second_reply, material("n"))};
  CHECK(told(lost) == begin + "fails to 4. Qxf7#, which wins a knight.");
  CHECK(told(worse) == begin + "fails to 4. Qxf7#, which wins a knight.");
  m.reasons = {of(Role::second_reply, mate(1))};
  CHECK(told(lost) == begin + "allows mate: 4. Qxf7#.");
}

TEST_CASE("of a move that only draws it is not said that it fails") {
  Reason draws;
  draws.kind = ReasonKind::draws;
  draws.motif = study::Motif::perpetual_check;
  Moment m = moment_of({Kind::only_move, "g6", "Qf3", won, won, {of(Role::second_reply, draws)}});
  m.second = support::move(m.position, "Nf6");
  m.second_refutation = support::line(m.position.after(m.second), "Qxf7#");
  m.second_score = level;
  CHECK(sentence(m) ==
        "Only 3... g6 wins. Black found it. The next best, 3... Nf6, lets the win slip: 4. Qxf7# "
        "draws by perpetual check.");
  CHECK(sentence(moment_of({Kind::trap, "Nf6", "Qf3", won, level, {of(Role::reply, draws)}})) ==
        "The tempting 3... Nf6 lets the win slip: 4. Qf3 draws by perpetual check.");
  CHECK(sentence(moment_of({Kind::swing, "Nf6", "Qf3", won, level, {of(Role::reply, draws)}})) ==
        "3... Nf6 lets the win slip: 4. Qf3 draws by perpetual check. White played it. Better was "
        "3... g6.");
}

TEST_CASE("the next best that was played instead is named once") {
  Moment m = moment_of({Kind::only_move, "Nf6", "Qf3", won, level, {}});
  m.second = m.played;
  m.second_score = level;
  CHECK(sentence(m) ==
        "Only 3... g6 wins. Black played 3... Nf6 instead; it leaves the position level.");
  m.reasons = {of(Role::reply, material("p"))};
  CHECK(sentence(m) ==
        "Only 3... g6 wins. Black played 3... Nf6 instead; it lets the win slip: 4. Qf3 wins a "
        "pawn.");
}

namespace {

// Made for the test, after 1. Kg2: neither a check nor at a queen.
Moment quiet_king(const char* fen, std::vector<Reason> reasons) {
  Moment m;
  m.kind = Kind::quiet_win;
  m.position = support::position(fen);
  m.played = m.best = support::move(m.position, "Kg2");
  m.second = support::move(m.position, "Kf2");
  m.second_refutation = support::line(m.position.after(m.second), "Kg7");
  m.line = {m.best};
  m.best_score = m.played_score = better;
  m.second_score = level;
  m.found = true;
  m.reasons = std::move(reasons);
  return m;
}

constexpr const char* no_queen = "6k1/8/8/8/8/8/8/R4K2 w - - 0 1";

}  // namespace

TEST_CASE("quiet is said of moves that neither hit the queen nor go for the king") {
  const auto told = [](const char* fen, std::vector<Reason> reasons) {
    return sentence(quiet_king(fen, std::move(reasons)));
  };
  CHECK(told(no_queen, {of(Role::best, mate(3))}) ==
        "The quiet 1. Kg2 mates in 3. No other move mates. White found it.");
  Reason threat = of(Role::best, mate(1));
  threat.kind = ReasonKind::threatens;
  threat.squares = {rules::h8};
  CHECK(told(no_queen, {of(Role::best, material("n")), threat}) ==
        "1. Kg2 wins a knight and threatens mate on h8. No other move wins as much. White found "
        "it.");
  Reason attack;
  attack.kind = ReasonKind::attacks_king;
  attack.squares = {rules::g8, rules::a1, rules::g2};
  CHECK(
      told(no_queen, {of(Role::best, material("n")), attack}).starts_with("1. Kg2 wins a knight "));
}

TEST_CASE(
    "that nothing else does as much is said of a proved win, never of a threat or a standing") {
  const auto told = [](std::vector<Reason> reasons) {
    return sentence(quiet_king(no_queen, std::move(reasons)));
  };
  const std::string end = " White found it. The next best, 1. Kf2, leaves the position level.";
  Reason soon = material("n");
  soon.kind = ReasonKind::soon_wins;
  CHECK(told({of(Role::best, soon)}) ==
        "The quiet 1. Kg2 keeps the advantage: it wins a knight." + end);
  CHECK(told({}) == "The quiet 1. Kg2 keeps the advantage." + end);
  // Two are told; the win that is proved is one of them.
  CHECK(told({of(Role::best, soon), of(Role::best, back(material("p"))),
              of(Role::best, material("b"))}) ==
        "The quiet 1. Kg2 wins a bishop. No other move wins as much. White found it.");
  CHECK(told({of(Role::best, material("n"))}) ==
        "The quiet 1. Kg2 wins a knight. No other move wins as much. White found it.");
}

TEST_CASE("what tempts and the next best are one fact where they are one move") {
  const auto told = [](const char* second, std::vector<Reason> of_second) {
    study::Study study;
    study.start = support::position(scholars);
    study.moves = support::line(study.start, "g6 Qf3");
    Moment only = moment_of({Kind::only_move, "g6", "Qf3", level, level, {}});
    only.second = support::move(only.position, second);
    only.second_refutation = support::line(only.position.after(only.second), "Qxf7+");
    only.second_score = lost;
    only.reasons = std::move(of_second);
    const Moment trap =
        moment_of({Kind::trap, "Nf6", "Qxf7#", level, lost, {of(Role::reply, material("n"))}});
    study.moments = {only, trap};
    return report::text_of(study, report::turning_points(study).front());
  };
  const std::string trap = " The tempting 3... Nf6 ";
  const std::string begin = "Only 3... g6 holds. Black found it.", why = "which wins a knight.";
  CHECK(told("Nf6", {of(Role::second_reply, material("n"))}) ==
        begin + trap + "fails to 4. Qxf7#, " + why);
  // Without a reason the next best tells less than what tempts.
  CHECK(told("Nge7", {}) == begin + trap + "fails to 4. Qxf7#, " + why);
  CHECK(told("a6", {of(Role::second_reply, material("n"))}) ==
        begin + " The next best, 3... a6, fails to 4. Qxf7#, " + why + trap +
            "runs into 4. Qxf7# too.");
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
  m.line = support::line(m.position, "Kc2 Rxh1");
  m.second_refutation = support::line(m.position.after(m.second), "Rxh1+");
  m.best_score = m.played_score = level;
  m.second_score = lost;
  m.found = true;
  Reason reason = of(Role::second_reply, material("b"));
  reason.move = m.second_refutation.front();
  m.reasons = {reason};
  CHECK(sentence(m) == "Only 16. Kc2 holds. White found it. The next best, 16. Kc1, loses.");
  m.best = m.played = support::move(m.position, "Bc6+");  // the bishop goes
  m.line = {m.best};
  CHECK(sentence(m) ==
        "Only 16. Bc6+ holds. White found it. The next best, 16. Kc1, fails to 16... Rxh1+, which "
        "wins a bishop.");
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
        "3... Nf6 throws the win away and loses: 4. Qxf7# is mate. White played it. Only 3... g6 "
        "keeps the win: it wins the queen.");
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
