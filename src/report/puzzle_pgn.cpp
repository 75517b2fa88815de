// puzzles.pgn: each puzzle as a game that starts from its position (SetUp and FEN tags, PGN
// standard 9.7): the solution is the main line, the tries are variations with what refutes them.
#include "kairos/base/text.hpp"
#include "kairos/pgn/writer.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// From the node, which is the start position's unless given; returns the first new one. The first
// line added to a node goes on with its line.
pgn::NodeId add_line(pgn::Game& game, std::span<const rules::Move> line, pgn::NodeId at = 0) {
  pgn::NodeId first = pgn::no_node;
  for (const rules::Move move : line) {
    at = game.add_child(at, move);
    if (first == pgn::no_node) first = at;
  }
  return first;
}

// Players are unknown to a puzzle; the game it comes from has its own tag.
void set_tags(pgn::Game& game, const puzzle::Puzzle& puzzle, std::size_t number) {
  game.set_tag("Event", "Puzzle " + std::to_string(number));
  game.set_tag("Site", "?");
  game.set_tag("Date", "????.??.??");
  game.set_tag("Round", std::to_string(number));
  game.set_tag("White", "?");
  game.set_tag("Black", "?");
  game.set_tag("Result", "*");
  game.set_tag("SetUp", "1");
  game.set_tag("FEN", rules::to_fen(puzzle.position));
  // Tags of our own: names are free where the standard has none (8.1.1, 9).
  game.set_tag("PuzzleId", id_of(puzzle));
  game.set_tag("PuzzleGame", base::to_utf8(puzzle.game_label));
  game.set_tag("PuzzleDifficulty", std::to_string(puzzle.difficulty));
  game.set_tag("PuzzleThemes", base::join(themes_of(puzzle), ", "));
}

// Scores stand as comments at the key and at each try; $2 marks a try as poor.
pgn::Game game_of(const puzzle::Puzzle& puzzle, std::size_t number) {
  pgn::Game game = pgn::empty_game();
  game.start = puzzle.position;
  set_tags(game, puzzle, number);
  const rules::Color side = puzzle.position.side_to_move();
  const pgn::NodeId key = add_line(game, puzzle.line);
  if (key != pgn::no_node) {
    game.annotate(key).comments.push_back(score_text(from_white(puzzle.score, side)));
    add_line(game, puzzle.if_taken, key);
  }
  for (const puzzle::Try& tried : puzzle.tries) {
    const pgn::NodeId node = add_line(game, joined(tried.move, tried.refutation));
    if (node == pgn::no_node) continue;
    pgn::Annotation& annotation = game.annotate(node);
    annotation.nags.push_back(2);
    annotation.comments.push_back("a try, " + score_text(from_white(tried.score, side)));
  }
  return game;
}

}  // namespace

base::Status write_puzzle_pgn(const Collection& collection, base::ByteSink& sink) {
  const auto& puzzles = collection.puzzles();
  for (std::size_t i = 0; i < puzzles.size(); ++i) {
    if (base::Status status = sink.write(pgn::to_pgn(game_of(puzzles[i], i + 1))); !status) {
      return status;
    }
  }
  return base::done();
}

}  // namespace kairos::report
