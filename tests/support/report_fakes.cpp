#include "support/report_fakes.hpp"

#include <cstdlib>

#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::test {

namespace {

using study::Assertion;
using study::Kind;
using study::Moment;
using study::Motif;
using study::ReasonKind;
using study::Role;
using study::Study;

rules::Move move_of(const rules::Position& position, std::string_view san) {
  return san.empty() ? rules::Move{} : rules::parse_san(position, san).value();
}

struct Told {  // a moment as a test writes it down
  Kind kind;
  int ply;
  std::string_view best_line;
  std::string_view refutation;
  search::Score best, second, played;
};

Study study_of(std::string_view fen, std::string_view moves) {
  Study study;
  study.start = rules::parse_fen(fen).value();
  study.moves = moves_of(study.start, moves);
  study.notes.resize(study.moves.size() + 1);
  return study;
}

Moment& add_moment(Study& study, const Told& told) {
  Moment moment;
  const auto ply = static_cast<std::size_t>(told.ply);
  moment.kind = told.kind;
  moment.ply = told.ply;
  moment.position = study::position_after(study, ply);
  if (ply < study.moves.size()) moment.played = study.moves[ply];
  moment.line = moves_of(moment.position, told.best_line);
  if (!moment.line.empty()) moment.best = moment.line.front();
  moment.best_score = told.best;
  moment.second_score = told.second;
  moment.played_score = told.played;
  moment.found = moment.played && moment.played == moment.best;
  if (moment.played && told.kind != Kind::trap) {
    moment.refutation = moves_of(moment.position.after(moment.played), told.refutation);
  }
  moment.nodes = 250'000;
  moment.find_rate = 3'125;
  study.moments.push_back(moment);
  return study.moments.back();
}

struct Proved {  // a reason as a test writes it down
  Role role;
  ReasonKind kind;
  std::string_view line;
};

study::Reason& add_reason(Moment& moment, const Proved& proved) {
  study::Reason& reason = moment.reasons.emplace_back();
  reason.role = proved.role;
  reason.kind = proved.kind;
  reason.line = moves_of(study::position_of(moment, proved.role), proved.line);
  reason.move = reason.line.front();
  return reason;
}

// One line for each note, in White's centipawns as given; the last value goes on to the end.
void set_scores(Study& study, std::vector<search::Score> white_scores) {
  rules::Position position = study.start;
  for (std::size_t i = 0; i < study.notes.size(); ++i) {
    const search::Score score = white_scores[std::min(i, white_scores.size() - 1)];
    rules::MoveList list;
    rules::legal_moves(position, list);
    if (!list.empty()) {
      const rules::Move best = i < study.moves.size() ? study.moves[i] : list[0];
      study.notes[i].lines = {{position.side_to_move() == rules::white ? score : -score, {best}}};
    }
    if (i < study.moves.size()) position.play(study.moves[i]);
  }
}

// The games' texts, as they were read.
constexpr const char* legal_mate_text =
    "[Event \"Club Open <i>\\\"Spring\\\"</i> & friends\"]\n[Site \"Altstadt\"]\n"
    "[Date \"2026.03.14\"]\n[Round \"3\"]\n"
    "[White \"O'Neill, \\\"The Rook\\\" \\\\ <script>alert(1)</script>\"]\n"
    "[Black \"Zo\xC3\xAB \xC5\xBDi\xC5\xBEka\"]\n[Result \"1-0\"]\n\n"
    "1. e4 {[%clk 1:29:58]} e5 2. Nf3 d6 3. Bc4 Bg4 {pins --> or so} 4. Nc3 g6 $6 (4... Nf6 5. "
    "h3\n"
    "{my own idea}) 5. Nxe5 $1 Bxd1 6. Bxf7+ Ke7 7. Nd5# 1-0\n\n";
constexpr const char* saavedra_text =
    "[Event \"Weekly study\"]\n[Site \"?\"]\n[Date \"1895.05.??\"]\n[Round \"?\"]\n"
    "[White \"Saavedra\"]\n[Black \"?\"]\n[Result \"1-0\"]\n"
    "[FEN \"8/8/1KP5/3r4/8/8/8/k7 w - - 0 1\"]\n[SetUp \"1\"]\n\n"
    "1. c7 Rd6+ 2. Kb5 Rd5+ 3. Kb4 Rd4+ 4. Kb3 Rd3+ 5. Kc2 Rd4 6. c8=R Ra4 7. Kb3 1-0\n\n";
constexpr const char* agreed_draw_text =
    "[Event \"Club Open\"]\n[Site \"Altstadt\"]\n[Date \"2026.03.15\"]\n[Round \"4\"]\n"
    "[White \"Bellini, Gia\"]\n[Black \"Aronov, Pavel\"]\n[Result \"1/2-1/2\"]\n\n"
    "1. e4 c5 2. Nf3 d6 3. d4 cxd4 4. Nxd4 Nf6 5. Nc3 a6 6. Be3 e5 7. Nb3 (7. Nf5 $3 d5\n"
    "{and I did not like it}) 7... Be6 1/2-1/2\n\n";
constexpr const char* nothing_told_text =
    "[Event \"Club Open\"]\n[Site \"Altstadt\"]\n[Date \"2026.03.15\"]\n[Round \"4\"]\n"
    "[White \"=cmd|' /C calc'!A0\"]\n[Black \"Roe, Jane\"]\n[Result \"1/2-1/2\"]\n\n"
    "1. d4 d5 2. c4 e6 1/2-1/2\n\n";

Study legal_mate() {
  Study study = study_of(rules::start_fen, "e4 e5 Nf3 d6 Bc4 Bg4 Nc3 g6 Nxe5 Bxd1 Bxf7+ Ke7 Nd5#");
  study.facts = {"Club Open <i>\"Spring\"</i> & friends",
                 "Altstadt",
                 "2026.03.14",
                 "3",
                 "O'Neill, \"The Rook\" \\ <script>alert(1)</script>",
                 "Zo\xC3\xAB \xC5\xBDi\xC5\xBEka",
                 "1-0",
                 "normal",
                 "C41",
                 1874,
                 0,
                 "games/club, open.pgn",
                 1,
                 1};
  set_scores(study, {20, 30, 25, 40, 35, 60, 50, 90, 80, 150, 140, 31997, 31998, 31999});
  for (std::size_t i = 0; i < study.moves.size(); ++i) {
    study.notes[i].clock_seconds = 5400 - static_cast<int>(i * i) * 20;
  }
  Moment& swing = add_moment(study, {Kind::swing, 9, "dxe5 Qxg4 Nf6 Qe2 Nc6", "Bxf7+ Ke7 Nd5#",
                                     -150, -400, search::mated_in_plies(4)});
  swing.punished = true;
  add_reason(swing, {Role::reply, ReasonKind::mates, "Bxf7+ Ke7 Nd5#"}).mate_moves = 2;
  add_reason(swing, {Role::reply, ReasonKind::motif, "Bxf7+"}).motif = Motif::sacrifice;
  add_moment(study, {Kind::only_move, 10, "Bxf7+ Ke7 Nd5#", "Ke7 Nd5#", search::mate_in_plies(3),
                     -480, search::mate_in_plies(3)});
  return study;
}

Study saavedra() {
  Study study = study_of("8/8/1KP5/3r4/8/8/8/k7 w - - 0 1",
                         "c7 Rd6+ Kb5 Rd5+ Kb4 Rd4+ Kb3 Rd3+ Kc2 Rd4 c8=R Ra4 Kb3");
  study.facts = {"Weekly study",
                 "",
                 "1895.05.??",
                 "?",
                 "Saavedra",
                 "?",
                 "1-0",
                 "",
                 "",
                 0,
                 0,
                 "games/club, open.pgn",
                 14,
                 2};
  set_scores(study, {30, 60, 80, 100, 150, 200, 300, 400, 500, 600, 700});
  add_moment(study,
             {Kind::only_move, 10, "c8=R Ra4 Kb3 Kb1 Kxa4", "Ra4 Kb3 Kb1 Kxa4", 620, 0, 620});
  Moment& trap = add_moment(study, {Kind::trap, 10, "c8=R Ra4 Kb3", "", 620, 0, 620});
  trap.tempting = move_of(trap.position, "c8=Q");
  trap.refutation = moves_of(trap.position.after(trap.tempting), "Rc4+ Qxc4");
  study::Reason& draws = add_reason(trap, {Role::reply, ReasonKind::draws, "Rc4+ Qxc4"});
  draws.motif = Motif::stalemate;
  draws.squares = {rules::a1};
  add_reason(trap, {Role::reply, ReasonKind::motif, "Rc4+"}).motif = Motif::stalemate;
  return study;
}

Study agreed_draw() {
  Study study = study_of(rules::start_fen, "e4 c5 Nf3 d6 d4 cxd4 Nxd4 Nf6 Nc3 a6 Be3 e5 Nb3 Be6");
  study.facts = {
      "Club Open", "Altstadt", "2026.03.15", "4",  "Bellini, Gia", "Aronov, Pavel",
      "1/2-1/2",   "normal",   "B90",        2105, 2210,           "games/club, open.pgn",
      29,          3};
  set_scores(study, {20, 30, 10, 30, 20, 40});
  Moment& claim = add_moment(study, {Kind::claim, 12, "Nb3 Be6 f3", "", 30, 10, 30});
  claim.played = move_of(claim.position, "Nf5");
  claim.refutation = moves_of(claim.position.after(claim.played), "d5 exd5 Bxf5");
  claim.played_score = -260;
  claim.found = false;
  add_reason(claim, {Role::note, ReasonKind::assertion, "Nf5"}).assertion = Assertion::good_move;
  Moment& quiet = add_moment(study, {Kind::quiet_win, 12, "f3 exd4 Bxd4", "Be6", 250, 40, 30});
  quiet.gain = 330;
  add_moment(study, {Kind::swing, 13, "b5 f3 Nbd7", "f3 d5 exd5", 40, 30, -260});
  add_moment(study, {Kind::ended_early, 14, "Nd5 Bxd5 exd5 Nbd7", "", 260, 30, 260});
  return study;
}

Study nothing_told() {
  Study study = study_of(rules::start_fen, "d4 d5 c4 e6");
  study.facts = {"Club Open",
                 "Altstadt",
                 "2026.03.15",
                 "4",
                 "=cmd|' /C calc'!A0",
                 "Roe, Jane",
                 "1/2-1/2",
                 "",
                 "",
                 0,
                 0,
                 "games/club, open.pgn",
                 41,
                 5};
  set_scores(study, {20});
  return study;
}

pgn::Game game_of(const std::string& text) {
  base::FaultList faults;
  base::MemorySource source(text);
  pgn::Game game = pgn::Reader(source, "", faults).next().value();
  pgn::replay(game, faults);
  return game;
}

puzzle::Puzzle puzzle_of(const Study& study, const Moment& moment, std::string_view label) {
  puzzle::Puzzle puzzle;
  puzzle.position = moment.position;
  if (moment.ply > 0) puzzle.last = study.moves[static_cast<std::size_t>(moment.ply) - 1];
  puzzle.line = moment.line;
  if (puzzle.line.size() % 2 == 0) puzzle.line.pop_back();
  puzzle.asked = static_cast<int>(puzzle.line.size());
  puzzle.score = moment.best_score;
  puzzle.second_score = moment.second_score;
  puzzle.kind = moment.kind;
  puzzle.found = moment.found;
  puzzle.game = study.facts.number;
  puzzle.game_label = label;
  puzzle.ply = moment.ply;
  puzzle.nodes = 3'000'000;
  return puzzle;
}

puzzle::Puzzle mate_puzzle(const Study& study) {
  puzzle::Puzzle puzzle = puzzle_of(study, study.moments[1],
                                    "O'Neill, \"The Rook\" \\ <script>alert(1)</script> - "
                                    "Zo\xC3\xAB \xC5\xBDi\xC5\xBEka, Club Open, round 3");
  puzzle.reward = puzzle::Reward::mate;
  puzzle.mate_moves = 2;
  puzzle.motifs = {Motif::sacrifice};
  puzzle.find_rates = {5000, 7000, 8000, 9000};
  puzzle.solve_rates = {4000, 6000, 7000, 8000};
  puzzle.difficulty = 2;
  const auto add_try = [&puzzle](std::string_view line, search::Score score) {
    const std::vector<rules::Move> moves = moves_of(puzzle.position, line);
    puzzle.tries.push_back(
        {moves[0], score, {moves.begin() + 1, moves.end()}, {2500, 2000, 1500, 1000}});
  };
  add_try("Kxd1 dxe5 Bxf7+ Kxf7", -480);
  add_try("Nxd1 dxe5", -520);
  return puzzle;
}

puzzle::Puzzle promotion_puzzle(const Study& study) {
  puzzle::Puzzle puzzle = puzzle_of(study, study.moments[0], "Saavedra - unknown, Weekly study");
  puzzle.reward = puzzle::Reward::material;
  puzzle.motifs = {Motif::underpromotion};
  puzzle.find_rates = {4000, 6250, 7000, 8000};
  puzzle.solve_rates = {2000, 3125, 4500, 6000};
  puzzle.difficulty = 3;
  const rules::Move queen = move_of(puzzle.position, "c8=Q");
  puzzle.tries.push_back(
      {queen, 0, moves_of(puzzle.position.after(queen), "Rc4+ Qxc4"), {6000, 5000, 4000, 3000}});
  return puzzle;
}

// Why not 6. c8=Q (facts C01): 6... Rc4+ 7. Qxc4 is stalemate.
puzzle::Puzzle queen_why_not(const Study& study) {
  const Moment& trap = study.moments[1];
  puzzle::Puzzle puzzle = puzzle_of(study, trap, "Saavedra - unknown, Weekly study");
  puzzle.last = {};
  puzzle.before = trap.position;
  puzzle.avoided = trap.tempting;
  puzzle.position = trap.position.after(trap.tempting);
  puzzle.line = moves_of(puzzle.position, "Rc4+ Kd3 Rxc8");
  puzzle.asked = 1;
  puzzle.score = 0;
  puzzle.second_score = -620;
  puzzle.reward = puzzle::Reward::save;
  puzzle.motifs = {Motif::stalemate};
  puzzle.find_rates = {1000, 2500, 4000, 5500};
  puzzle.solve_rates = puzzle.find_rates;
  puzzle.difficulty = 4;
  puzzle.tries.push_back({move_of(puzzle.position, "Ka2"),
                          -620,
                          moves_of(puzzle.position, "Ka2 Qa8+"),
                          {3000, 2500, 2000, 1500}});
  puzzle.tries[0].refutation.erase(puzzle.tries[0].refutation.begin());
  return puzzle;
}

}  // namespace

std::vector<rules::Move> moves_of(const rules::Position& start, std::string_view san) {
  rules::Position position = start;
  std::vector<rules::Move> moves;
  for (const std::string_view word : base::fields(san)) {
    moves.push_back(rules::parse_san(position, word).value());
    position.play(moves.back());
  }
  return moves;
}

FakeCollection fake_collection() {
  FakeCollection collection;
  collection.facts_.version = "0.0.0-test";
  collection.facts_.settings = "light: 20,000 nodes a position, 150,000 a moment";
  collection.facts_.games_in_input = 5;
  collection.facts_.games_skipped = 1;
  collection.facts_.nodes = 12'345'678;
  collection.facts_.candidates_open = 7;
  collection.facts_.faults = {
      {base::Code::variant_unsupported, "Atomic", {"games/club, open.pgn", 36, 1, 4}},
      {base::Code::illegal_move, "Kxe9 <b>&", {"games/club, open.pgn", 48, 9, 5}}};
  collection.facts_.puzzle_drops = {{"a second solution", 3}, {"nothing tangible", 1}};
  collection.studies = {legal_mate(), saavedra(), agreed_draw(), nothing_told()};
  for (const char* text : {legal_mate_text, saavedra_text, agreed_draw_text, nothing_told_text}) {
    collection.games.push_back(game_of(text));
  }
  collection.puzzles_ = {mate_puzzle(collection.studies[0]),
                         promotion_puzzle(collection.studies[1])};
  collection.why_nots_ = {queen_why_not(collection.studies[1])};
  return collection;
}

FakeCollection empty_collection() {
  FakeCollection collection;
  collection.facts_.version = "0.0.0-test";
  return collection;
}

FakeCollection large_collection(std::size_t count, std::size_t moments) {
  FakeCollection collection = fake_collection();
  collection.facts_.games_in_input = count + 1;
  const Study model = collection.studies[0];
  const pgn::Game game = collection.games[0];
  collection.studies.clear();
  collection.games.assign(count, game);
  for (std::size_t i = 0; i < count; ++i) {
    Study study = model;
    study.facts.number = i + 1;
    study.facts.white = "Player " + base::number(static_cast<std::int64_t>(i % 40));
    study.facts.black = "Player " + base::number(static_cast<std::int64_t>((i * 7 + 1) % 40));
    study.moments.resize(std::min<std::size_t>(moments, 1), study.moments[0]);
    while (study.moments.size() < moments) study.moments.push_back(model.moments[0]);
    collection.studies.push_back(std::move(study));
  }
  return collection;
}

}  // namespace kairos::test
