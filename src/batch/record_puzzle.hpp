// The puzzle's part of a record (record.hpp), as a table (fields.hpp).
#pragma once

#include "kairos/puzzle/puzzle.hpp"

#include "bounds.hpp"
#include "fields.hpp"

namespace kairos::batch {

template <typename Fields, typename Try>
void try_fields(Fields& f, Try& attempt, const rules::Position& position) {
  auto& [move, score, refutation] = attempt;
  f.move("move", position, move);
  f.number("score", score, scores);
  f.require(move && move != rules::null_move, "move", "is no move");
  f.line("refutation", move ? position.after(move) : position, refutation, {0, most_line});
}

template <typename Fields, typename Puzzle>
void puzzle_fields(Fields& f, Puzzle& puzzle) {
  // The game's number belongs to the run, not to the game.
  auto& [position, last, line, score, second_score, reward, mate_moves, tries, motifs, difficulty,
         settled_depth, kind, found, game, game_label, ply, nodes] = puzzle;
  f.position("fen", position);
  f.move_bits("last", last);
  f.line("line", position, line, {1, most_line});
  f.number("score", score, scores);
  f.number("second_score", second_score, scores);
  f.choice("reward", reward, puzzle::reward_count);
  f.number("mate", mate_moves, mates);
  f.objects("tries", tries, {0, most_tries},
            [&](auto& inner, auto& attempt) { try_fields(inner, attempt, puzzle.position); });
  f.names("motifs", motifs, {0, study::motif_count}, study::motif_count);
  f.number("difficulty", difficulty, levels);
  f.number("settled_depth", settled_depth, depths);
  f.choice("kind", kind, study::kind_count);
  f.flag("found", found);
  f.text("label", game_label, most_label);
  f.number("ply", ply, plies);
  f.number("nodes", nodes, node_counts);
  f.require(line.size() % 2 == 1, "line", "does not end with a move of the solver");
  (void)game;
}

}  // namespace kairos::batch
