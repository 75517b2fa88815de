// The puzzle's part of a record (record.hpp), as a table (fields.hpp).
#pragma once

#include "kairos/base/text.hpp"
#include "kairos/puzzle/puzzle.hpp"

#include "bounds.hpp"
#include "fields.hpp"

namespace kairos::batch {

template <typename Fields, typename Of>
void rates_fields(Fields& f, std::string_view name, Of& rates) {
  f.tuple(name, rates, [](auto& inner, auto& value) {
    for (std::size_t i = 0; i < value.size(); ++i) {
      inner.number(base::number(puzzle::told_ratings[i]), value[i], shares);
    }
  });
}

template <typename Fields, typename Try>
void try_fields(Fields& f, Try& attempt, const rules::Position& position) {
  auto& [move, score, refutation, rates] = attempt;
  f.move("move", position, move);
  f.number("score", score, scores);
  f.require(move && move != rules::null_move, "move", "is no move");
  f.line("refutation", move ? position.after(move) : position, refutation, {0, most_line});
  rates_fields(f, "shares", rates);
}

template <typename Fields, typename Puzzle>
void puzzle_fields(Fields& f, Puzzle& puzzle) {
  // The game's number belongs to the run, not to the game.
  auto& [position, last, avoided, before, line, asked, if_taken, score, second_score, reward,
         mate_moves, tries, motifs, find_rates, solve_rates, difficulty, kind, found, game,
         game_label, ply, nodes] = puzzle;
  f.position("fen", position);
  f.move_bits("last", last);
  f.position("before", before);
  f.move("avoided", before, avoided);
  f.line("line", position, line, {1, most_line});
  f.number("asked", asked, {1, most_line});
  f.line("if_taken", line.empty() ? position : position.after(line.front()), if_taken,
         {0, most_line});
  f.number("score", score, scores);
  f.number("second_score", second_score, scores);
  f.choice("reward", reward, puzzle::reward_count);
  f.number("mate", mate_moves, mates);
  f.objects("tries", tries, {0, most_tries},
            [&](auto& inner, auto& attempt) { try_fields(inner, attempt, puzzle.position); });
  f.names("motifs", motifs, {0, study::motif_count}, study::motif_count);
  rates_fields(f, "find_rates", find_rates);
  rates_fields(f, "solve_rates", solve_rates);
  f.number("difficulty", difficulty, levels);
  f.choice("kind", kind, study::kind_count);
  f.flag("found", found);
  f.text("label", game_label, most_label);
  f.number("ply", ply, plies);
  f.number("nodes", nodes, node_counts);
  f.require(line.size() % 2 == 1, "line", "does not end with a move of the solver");
  f.require(if_taken.size() % 2 == 0, "if_taken", "does not end with a move of the solver");
  f.require(asked % 2 == 1 && static_cast<std::size_t>(asked) <= line.size(), "asked",
            "is not a part of the line");
  f.require(!avoided || before.after(avoided) == position, "avoided",
            "does not lead to the position");
  (void)game;
}

}  // namespace kairos::batch
