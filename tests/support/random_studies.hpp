// Studies, moments and puzzles made of random legal moves and random figures, for tests of what
// stores and prints them. The same seed gives the same ones.
#pragma once

#include <random>
#include <string>
#include <vector>

#include "kairos/pgn/writer.hpp"
#include "kairos/puzzle/puzzle.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/study/study.hpp"

namespace kairos::test {

class RandomStudies {
 public:
  explicit RandomStudies(std::uint64_t seed) : random_(seed) {}

  std::uint64_t below(std::uint64_t n) { return random_() % n; }
  int number(int least, int most) {
    return least + static_cast<int>(below(static_cast<std::uint64_t>(most - least + 1)));
  }
  bool coin() { return below(2) == 0; }
  std::string text() {
    static const std::vector<std::string> words = {"Rosin", "\"x\"", "a\\b", "\xC3\xA9", "{;}", ""};
    std::string made;
    for (auto n = below(4); n > 0; --n) made += words[below(words.size())] + " ";
    return made;
  }

  // A random legal line, shorter when the game ends.
  std::vector<rules::Move> line(rules::Position position, std::size_t length) {
    std::vector<rules::Move> moves;
    while (moves.size() < length) {
      rules::MoveList legal;
      rules::legal_moves(position, legal);
      if (legal.empty()) break;
      moves.push_back(legal[below(legal.size())]);
      position.play(moves.back());
    }
    return moves;
  }
  rules::Move move(const rules::Position& position) {
    const auto moves = line(position, 1);
    return moves.empty() ? rules::Move{} : moves.front();
  }
  // Reached by random play, so castling, en passant and promotions all come up.
  rules::Position position() {
    rules::Position reached = rules::Position::start();
    for (const rules::Move m : line(reached, below(160))) reached.play(m);
    return reached;
  }

  // Where there is something to play.
  rules::Position open_position() {
    for (;;) {
      const rules::Position reached = position();
      if (rules::has_legal_move(reached)) return reached;
    }
  }

  study::Study study(std::size_t plies) {
    study::Study made;
    study::GameFacts& facts = made.facts;
    facts.event = text();
    facts.site = text();
    facts.date = "2026.05.01";
    facts.round = "3";
    facts.white = text();
    facts.black = text();
    facts.result = "1-0";
    facts.termination = text();
    facts.eco = "B12";
    facts.white_elo = number(0, 2900);
    facts.black_elo = number(0, 2900);
    made.start = coin() ? rules::Position::start() : position();
    made.moves = line(made.start, plies);
    rules::Position at = made.start;
    for (std::size_t i = 0; i <= made.moves.size(); ++i) {
      study::Note& note = made.notes.emplace_back();
      for (auto n = below(3); n > 0; --n) note.lines.push_back({score(), line(at, 1 + below(8))});
      std::erase_if(note.lines, [](const search::Line& l) { return l.moves.empty(); });
      note.played_score = score();
      note.depth = number(1, 40);
      note.nodes = below(1'000'000);
      note.clock_seconds = number(-1, 7200);
      if (coin()) {
        for (int& chance : note.error_chances) chance = number(0, study::chance_of);
      }
      if (i < made.moves.size()) at.play(made.moves[i]);
    }
    return made;
  }

  // The moves as a game.
  static std::string text_of(const study::Study& study) {
    pgn::Game game = pgn::empty_game();
    game.start = study.start;
    game.set_tag("White", study.facts.white);
    game.set_tag("SetUp", "1");
    game.set_tag("FEN", rules::to_fen(study.start));
    pgn::NodeId at = 0;
    for (const rules::Move move : study.moves) at = game.add_child(at, move);
    return pgn::to_pgn(game);
  }

  study::Reason reason(const study::Moment& moment) {
    study::Reason made;
    made.role = static_cast<study::Role>(below(study::role_count));
    made.kind = static_cast<study::ReasonKind>(below(study::reason_kind_count));
    made.line = line(study::position_of(moment, made.role), below(10));
    if (!made.line.empty()) made.move = made.line.front();
    for (auto n = 3 + below(3); n > 0; --n) {
      made.squares.push_back(static_cast<rules::Square>(below(rules::square_count)));
      if (coin()) made.pieces.push_back(static_cast<rules::PieceType>(below(rules::no_piece_type)));
    }
    if (coin()) made.target = static_cast<rules::Square>(below(rules::square_count));
    if (coin()) made.means = static_cast<study::Means>(below(study::means_count));
    for (int n = 0; n < 3; ++n) {
      made.means_squares.push_back(static_cast<rules::Square>(below(rules::square_count)));
      made.means_pieces.push_back(static_cast<rules::PieceType>(below(rules::no_piece_type + 1)));
    }
    made.mate_moves = number(0, 8);
    made.gain = number(-900, 900);
    for (std::size_t t = 0; t < rules::king; ++t) {
      made.men.won[t] = static_cast<std::int8_t>(below(3));
      made.men.lost[t] = static_cast<std::int8_t>(below(3));
    }
    if (coin())
      made.men.promoted = static_cast<rules::PieceType>(number(rules::knight, rules::queen));
    if (coin()) made.motif = static_cast<study::Motif>(below(study::motif_count));
    if (coin()) made.assertion = static_cast<study::Assertion>(below(study::assertion_count));
    if (coin()) made.favours = static_cast<rules::Color>(below(2));
    return made;
  }

  // Of the study's game, where that is not over; a claim alone may be about another position.
  study::Moment moment(const study::Study& study, int ply) {
    const auto at = static_cast<std::size_t>(ply);
    const bool is_end = at == study.moves.size();
    study::Moment made;
    do made.kind = static_cast<study::Kind>(below(study::kind_count));
    while ((made.kind == study::Kind::ended_early) != is_end);
    made.ply = ply;
    made.position = study::position_after(study, at);
    if (made.kind == study::Kind::claim) made.position = open_position();
    if (made.kind == study::Kind::claim) {
      made.played = move(made.position);
    } else if (!is_end) {
      made.played = study.moves[at];
    }
    if (made.kind == study::Kind::trap) made.tempting = move(made.position);
    made.second = coin() ? move(made.position) : rules::Move{};
    made.best_score = score();
    made.second_score = score();
    made.played_score = score();
    made.tempting_score = score();
    made.found = coin();
    made.line = line(made.position, 1 + below(10));
    made.best = made.line.front();
    using study::Role;
    if (study::move_in_question(made)) {
      made.refutation = line(study::position_of(made, Role::reply), below(10));
    }
    made.second_refutation = line(study::position_of(made, Role::second_reply), below(10));
    made.punished = coin();
    made.gain = number(-900, 900);
    for (auto n = below(4); n > 0; --n) made.reasons.push_back(reason(made));
    made.nodes = below(10'000'000);
    made.find_rate = number(-1, 10'000);
    return made;
  }

  puzzle::Rates rates() {
    puzzle::Rates made{};
    for (int& rate : made) rate = number(0, 10'000);
    return made;
  }

  // Of the study's game, and why not another move there.
  puzzle::Puzzle why_not(const study::Study& study, int ply) {
    const auto at = static_cast<std::size_t>(ply);
    puzzle::Puzzle made;
    made.before = study::position_after(study, at);
    do {
      made.avoided = move(made.before);
      made.position = made.before.after(made.avoided);
      made.line = line(made.position, 1 + 2 * below(4));
    } while (made.line.size() % 2 == 0 ||
             (at < study.moves.size() && made.avoided == study.moves[at]));
    made.asked = 1 + 2 * number(0, static_cast<int>(made.line.size() / 2));
    made.score = score();
    made.second_score = score();
    made.reward = static_cast<puzzle::Reward>(below(4));
    made.mate_moves = number(0, 5);
    for (auto n = below(5); n > 0; --n) {
      const rules::Move tried = move(made.position);
      made.tries.push_back({tried, score(), line(made.position.after(tried), below(6)), rates()});
    }
    for (auto n = below(4); n > 0; --n) {
      made.motifs.push_back(static_cast<study::Motif>(below(study::motif_count)));
    }
    made.difficulty = number(1, 5);
    made.find_rates = rates();
    made.solve_rates = rates();
    made.kind = study::Kind::trap;
    made.found = coin();
    made.game_label = text();
    made.ply = ply;
    made.nodes = below(10'000'000);
    return made;
  }

 private:
  search::Score score() { return number(-32000, 32000); }

  std::mt19937_64 random_;
};

}  // namespace kairos::test
