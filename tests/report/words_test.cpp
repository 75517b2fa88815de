// The words of chess: a fact and what is said of it.
#include "kairos/report/words.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "support/games.hpp"

using namespace kairos;
using report::effect_words;
using study::Assertion;
using study::Kind;
using study::Moment;
using study::Reason;
using study::ReasonKind;
using study::Role;

namespace {

constexpr search::Score won = 400, better = 120, level = 0, worse = -150, lost = -500;

// "qpp": men by their letters.
study::Men men(std::string_view letters) {
  study::Men counted{};
  for (const char letter : letters) ++counted[rules::type_of(rules::piece_of_letter(letter))];
  return counted;
}

Reason material(std::string_view gains, std::string_view costs = "",
                rules::PieceType promoted = rules::no_piece_type) {
  Reason reason;
  reason.kind = ReasonKind::wins_material;
  reason.men = {men(gains), men(costs), promoted};
  return reason;
}

Reason mate(int moves) {
  Reason reason;
  reason.kind = moves > 0 ? ReasonKind::mates : ReasonKind::leads_to_mate;
  reason.mate_moves = moves;
  return reason;
}

Reason of(Role role, Reason reason) {
  reason.role = role;
  return reason;
}

Reason back(Reason reason) {
  reason.kind = ReasonKind::wins_back;
  return reason;
}

Reason note(Assertion assertion, std::optional<rules::Color> favours = std::nullopt) {
  Reason reason;
  reason.role = Role::note;
  reason.kind = ReasonKind::assertion;
  reason.assertion = assertion;
  reason.favours = favours;
  reason.mate_moves = 3;
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
       "3... Nf6 turns a level position into a lost one: 4. Qxf7# is mate. White missed it. Better "
       "was 3... g6."},
      {{Kind::swing, "Nf6", "Qxf7#", level, worse, {of(Role::best, back(material("p")))}},
       "3... Nf6 turns a level position into a worse one; the reply is 4. Qxf7#. White missed it. "
       "Better was 3... g6, which wins back a pawn."},
      {{Kind::swing, "Nf6", "Qf3", better, better - 30, {}},
       "3... Nf6 gives up part of an advantage; the reply is 4. Qf3. White played it. Better was "
       "3... g6."},
      {{Kind::only_move, "g6", "Qf3", level, level, {}}, "Only 3... g6 holds. Black found it."},
      {{Kind::only_move, "Nf6", "Qxf7#", better, lost, {}},
       "Only 3... g6 keeps the advantage. Black played 3... Nf6 instead."},
      {{Kind::quiet_win, "g6", "Qf3", won, won, {of(Role::best, material("n"))}},
       "The quiet 3... g6 wins a knight against any reply, and nothing else does. Black found it."},
      {{Kind::quiet_win, "Nf6", "Qxf7#", won, lost, {}},
       "The quiet 3... g6 wins at least a pawn against any reply, and nothing else does. Black "
       "played 3... Nf6 instead."},
      {{Kind::trap, "Nf6", "Qxf7#", level, lost, {of(Role::reply, mate(1))}},
       "Black kept away from the tempting 3... Nf6: 4. Qxf7# is mate."},
      {{Kind::trap, "Nf6", "Qxf7#", better, worse, {}},
       "Black kept away from the tempting 3... Nf6: after 4. Qxf7# White is better."},
      {{Kind::trap, "Nf6", "Qf3", better, level, {}},
       "Black kept away from the tempting 3... Nf6: after 4. Qf3 the position is level."},
      {{Kind::claim, "Nf6", "Qxf7#", level, lost, {note(Assertion::playable)}},
       "The notes give 3... Nf6, which 4. Qxf7# answers; better is 3... g6."},
      {{Kind::claim, "Nf6", "Qxf7#", level, lost, {note(Assertion::good_move)}},
       "3... Nf6 is marked as good in the notes, but 3... g6 is clearly better."},
      {{Kind::claim, "g6", "Qf3", level, level, {note(Assertion::poor_move)}},
       "3... g6 is marked as poor in the notes, but there is nothing better."},
      {{Kind::claim, "g6", "Qf3", level, level, {note(Assertion::only_move)}},
       "3... g6 is marked as the only move in the notes, but there is another as good."},
      {{Kind::claim, "g6", "Qf3", level, level, {note(Assertion::better, rules::black)}},
       "3... g6 is called better for Black in the notes, but after 4. Qf3 Black is level."},
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
  const std::string begin = "Only 3... g6 keeps the advantage; ", end = ". Black found it.";
  CHECK(told(lost) == begin + "after the next best, 3... Nf6, Black is lost" + end);
  CHECK(told(level) ==
        begin + "after the next best, 3... Nf6, Black is no better than level" + end);
  CHECK(told(better - 30) == begin + "the next best, 3... Nf6, gives most of it away" + end);
  m.reasons = {of(Role::second_reply, mate(1))};
  CHECK(told(lost) == begin + "the next best, 3... Nf6, fails to 4. Qxf7#, which is mate" + end);
}

TEST_CASE("an early end is told by the result") {
  Moment m = moment_of({Kind::ended_early, "", "", won, lost, {}});
  CHECK(sentence(m, "1-0") == "Black gave up a position that is won: 3... g6 comes next.");
  CHECK(sentence(m, "0-1") == "White gave up a position that is lost: 3... g6 comes next.");
  m.reasons = {of(Role::best, mate(4))};
  CHECK(sentence(m, "1/2-1/2") == "A draw was agreed, though Black is won: 3... g6 mates in 4.");
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
  CHECK(told(level, worse, false) == "spoils the position: after 4. Qxf7# Black is worse");
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

namespace {

// Legal-Saint Brie, Paris c.1750: 6. Bxf7+ gives up the queen and mates.
puzzle::Puzzle legal_mate() {
  puzzle::Puzzle p;
  p.position =
      support::position("rn1qkbnr/ppp2p1p/3p2p1/4N3/2B1P3/2N5/PPPP1PPP/R1BbK2R w KQkq - 0 6");
  p.line = support::line(p.position, "Bxf7+ Ke7 Nd5#");
  p.reward = puzzle::Reward::mate;
  p.mate_moves = 2;
  p.motifs = {study::Motif::deflection, study::Motif::sacrifice};
  p.settled_depth = 3;
  p.tries = {{support::move(p.position, "Nxd1"), -500, {}}};
  return p;
}

}  // namespace

TEST_CASE("hints go from the aim to the theme and never name the key") {
  puzzle::Puzzle p = legal_mate();
  CHECK(report::hints_of(p) == std::vector<std::string>{"White to move and mate in 2.",
                                                        "Something has to be given up first.",
                                                        "It is a move of a bishop.",
                                                        "The theme: deflection."});
  p.mate_moves = 0;
  p.motifs.clear();
  CHECK(report::hints_of(p) == std::vector<std::string>{"White to move and mate.",
                                                        "Start with the checks.",
                                                        "It is a move of a bishop."});
  p.line = support::line(p.position, "O-O");
  p.reward = puzzle::Reward::save;
  CHECK(report::hints_of(p) ==
        std::vector<std::string>{"White to move and save the game.",
                                 "No capture and no check: look for a quiet move.",
                                 "It is a move of the king."});
  // The pawn has one move, and naming the pawn would name it (made for the test).
  p.position = support::position("7k/8/8/8/8/P7/8/K7 w - - 0 1");
  p.line = support::line(p.position, "a4");
  p.reward = puzzle::Reward::advantage;
  CHECK(report::hints_of(p) ==
        std::vector<std::string>{"White to move and win.",
                                 "No capture and no check: look for a quiet move."});
}

TEST_CASE("themes and the figures of the difficulty follow from the puzzle") {
  puzzle::Puzzle p = legal_mate();
  CHECK(report::themes_of(p) == std::vector<std::string>{"mate in 2", "deflection", "sacrifice"});
  CHECK(report::difficulty_words(p) ==
        "2 moves, sacrifice, best from depth 3 on, 1 try, 1 reply to the key");
  p.reward = puzzle::Reward::advantage;
  p.mate_moves = 0;
  p.motifs.clear();
  p.line = support::line(p.position, "O-O");
  p.tries.clear();
  CHECK(report::themes_of(p) == std::vector<std::string>{"advantage", "quiet move"});
  CHECK(report::difficulty_words(p).starts_with(
      "1 move, quiet key, best from depth 3 on, 0 tries, "));
}

namespace {

// 1. e4 e5 2. Nf3 Nc6, White's scores before each of its moves and at the end.
study::Study short_game(const std::string& result, std::vector<search::Score> scores) {
  study::Study study;
  study.facts.result = result;
  study.moves = support::line(study.start, "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6");
  rules::Position p = study.start;
  for (std::size_t i = 0; i <= study.moves.size(); ++i) {
    study::Note& note = study.notes.emplace_back();
    if (i == study.moves.size()) break;
    const search::Score white = scores[i / 2];
    note.lines.push_back({.score = i % 2 == 0 ? white : -white, .moves = {study.moves[i]}});
    p.play(study.moves[i]);
  }
  return study;
}

}  // namespace

TEST_CASE("a slide is told with all its moves, where it led, and the costliest") {
  const study::Study study = short_game("0-1", {0, 0, 0, 0});
  Moment m;
  m.kind = Kind::slide;
  m.ply = 2;
  m.position = study::position_after(study, 2);
  m.played = study.moves[2];
  m.best = support::move(m.position, "Nc3");
  m.best_score = level;
  m.played_score = worse;
  for (const std::size_t ply : {std::size_t{2}, std::size_t{4}, std::size_t{6}}) {
    m.steps.push_back({static_cast<int>(ply), study::position_after(study, ply), study.moves[ply],
                       level, ply == 6 ? lost : worse});
  }
  CHECK(report::sentence_of(study, m) ==
        "White slides from a level position into a lost one by 2. Nf3, 3. Bb5 and 4. Ba4, none of "
        "them a big error by itself. Most was lost by 2. Nf3: better was 2. Nc3.");
  CHECK(report::change_text(m) == "White: level, 50 % -> lost, 1 %");
  // Within one standing.
  const auto words_of = [&](search::Score first, search::Score last) {
    m.best_score = m.steps.front().best_score = first;
    m.played_score = m.steps.back().played_score = last;
    const std::string told = report::sentence_of(study, m);
    return told.substr(0, told.find(" by "));
  };
  CHECK(words_of(15, -15) == "White lets a level position slip");
  CHECK(words_of(130, 80) == "White lets an advantage shrink");
  CHECK(words_of(-80, -130) == "White makes a bad position worse");
}

TEST_CASE("the figures of a lost game are told only where nothing says where it was lost") {
  study::Study study = short_game("0-1", {0, -60, -200, -500});
  CHECK(report::loss_words(study) ==
        "No single move decided this game: White's expectation was 1 % at move 4.");
  study.start = support::position("rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 9");
  CHECK(report::loss_words(study) ==
        "No single move decided this game: White's expectation was 36 % at move 10, 1 % at move "
        "12.");
  study.facts.result = "1/2-1/2";
  CHECK(report::loss_words(study).empty());
  study.facts.result = "0-1";
  Moment m;
  m.kind = Kind::swing;
  m.position = study.start;
  study.moments = {m};
  CHECK(report::loss_words(study).empty());
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
