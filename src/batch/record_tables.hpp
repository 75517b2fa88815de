// The tables (fields.hpp) of a study and of what came of one candidate.
//
// Every table takes its struct apart by a structured binding that names all fields: a field added
// to a struct does not compile here until it has its place in the record.
#pragma once

#include <algorithm>

#include "kairos/batch/record.hpp"

#include "bounds.hpp"
#include "fields.hpp"
#include "record_puzzle.hpp"

namespace kairos::batch {

template <typename Fields, typename Facts>
void facts_fields(Fields& f, Facts& facts) {
  // File, line and number belong to the run, not to the game.
  auto& [event, site, date, round, white, black, result, termination, eco, white_elo, black_elo,
         file, line, number] = facts;
  f.text("event", event, most_tag);
  f.text("site", site, most_tag);
  f.text("date", date, most_tag);
  f.text("round", round, most_tag);
  f.text("white", white, most_tag);
  f.text("black", black, most_tag);
  f.text("result", result, most_tag);
  f.text("termination", termination, most_tag);
  f.text("eco", eco, most_tag);
  f.number("white_elo", white_elo, ratings);
  f.number("black_elo", black_elo, ratings);
  f.require(result == "1-0" || result == "0-1" || result == "1/2-1/2" || result == "*", "result",
            "is no result of the PGN standard");
  (void)file, (void)line, (void)number;
}

template <typename Fields, typename Line>
void line_fields(Fields& f, Line& line, const rules::Position& position) {
  auto& [score, moves] = line;
  f.number("score", score, scores);
  f.line("moves", position, moves, {1, most_line});
}

template <typename Fields, typename Note>
void note_fields(Fields& f, Note& note, const rules::Position& position) {
  auto& [lines, played_score, depth, nodes, clock_seconds, error_chances] = note;
  f.number("played", played_score, scores);
  f.number("depth", depth, depths);
  f.number("nodes", nodes, node_counts);
  f.number("clock", clock_seconds, clocks);
  f.tuple("chances", error_chances, [](auto& inner, auto& value) {
    for (std::size_t i = 0; i < value.size(); ++i) {
      inner.number(base::number(study::chance_ratings[i]), value[i], error_chance_range);
    }
  });
  f.require(error_chances == study::no_chances ||
                std::ranges::find(error_chances, study::no_chance) == error_chances.end(),
            "chances", "are known of some ratings only");
  f.objects("lines", lines, {0, most_lines},
            [&](auto& inner, auto& line) { line_fields(inner, line, position); });
}

template <typename Fields, typename Study>
void study_fields(Fields& f, Study& study) {
  auto& [facts, start, moves, notes, moments] = study;
  f.object("facts", facts, [](auto& inner, auto& value) { facts_fields(inner, value); });
  f.position("start", start);
  f.line("moves", start, moves, {0, most_plies});
  const auto positions = static_cast<std::int64_t>(moves.size()) + 1;
  rules::Position position = start;
  std::size_t ply = 0;
  f.objects("notes", notes, {positions, positions}, [&](auto& inner, auto& note) {
    note_fields(inner, note, position);
    if (ply < study.moves.size()) position.play(study.moves[ply++]);
  });
  (void)moments;
}

template <typename Fields, typename Men>
void men_won_fields(Fields& f, Men& men) {
  auto& [won, lost, promoted] = men;
  f.men("won", won);
  f.men("lost", lost);
  f.choice("promoted", promoted, rules::no_piece_type + 1);
}

// How many squares a kind of reason, and a way a gain comes about, speak of at least.
inline std::size_t least_squares(study::ReasonKind kind) {
  using study::ReasonKind;
  switch (kind) {
    case ReasonKind::mates:
    case ReasonKind::leads_to_mate:
    case ReasonKind::wins_material:
    case ReasonKind::wins_back:
    case ReasonKind::motif:
    case ReasonKind::assertion:
    case ReasonKind::soon_wins:
    case ReasonKind::draws:
    case ReasonKind::enters_ending:
    case ReasonKind::zugzwang:
      return 0;
    case ReasonKind::pawn_runs:
    case ReasonKind::sends_back:
    case ReasonKind::king_comes:
    case ReasonKind::pins:
      return 2;
    case ReasonKind::leads_to_fork:
      return 3;
    case ReasonKind::threatens:
    case ReasonKind::prevents:
    case ReasonKind::attacks_king:
    case ReasonKind::opens_king:
    case ReasonKind::hits:
    case ReasonKind::takes:
    case ReasonKind::avoids_check:
    case ReasonKind::drives_off:
    case ReasonKind::keeps_attack:
    case ReasonKind::leads_to_threat:
    case ReasonKind::trades:
    case ReasonKind::offers_trade:
    case ReasonKind::guards:
    case ReasonKind::comes_in:
    case ReasonKind::makes_passed:
    case ReasonKind::stops_pawn:
    case ReasonKind::behind_pawn:
    case ReasonKind::open_file:
    case ReasonKind::seventh_rank:
    case ReasonKind::settles:
    case ReasonKind::doubles_pawns:
    case ReasonKind::evades:
    case ReasonKind::stops_castling:
    case ReasonKind::keeps_man:
      return 1;
  }
  return 0;
}
inline std::size_t least_squares(study::Means means) {
  using study::Means;
  if (means == Means::in_between) return 0;
  if (means == Means::line_opened) return 3;
  const bool has_one = means == Means::guard_taken || means == Means::guard_drawn_off ||
                       means == Means::trapped || means == Means::trade;
  return has_one ? 1 : 2;
}

// Its moves are played from where its role says; the moment has its own moves already.
template <typename Fields, typename Reason>
void reason_fields(Fields& f, Reason& reason, const study::Moment& moment) {
  auto& [role, kind, move, line, squares, mate_moves, gain, men, target, motif, assertion, favours,
         pieces, means, means_squares, means_pieces] = reason;
  f.name("role", role, study::role_count);
  f.name("kind", kind, study::reason_kind_count);
  const rules::Position start = study::position_of(moment, role);
  f.move("move", start, move);
  f.line("line", start, line, {0, most_line});
  f.choices("squares", squares, {0, rules::square_count}, rules::square_count);
  f.number("mate", mate_moves, said_mates);
  f.number("gain", gain, gains);
  f.object("men", men, [](auto& inner, auto& value) { men_won_fields(inner, value); });
  f.choice("target", target, rules::square_count + 1);
  f.name("motif", motif, study::motif_count);
  f.name("assertion", assertion, study::assertion_count);
  f.side("favours", favours);
  f.choices("pieces", pieces, {0, rules::square_count}, rules::no_piece_type);
  f.name("means", means, study::means_count);
  f.choices("means_squares", means_squares, {0, rules::square_count}, rules::square_count);
  f.choices("means_pieces", means_pieces, {0, rules::square_count}, rules::no_piece_type + 1);
  f.require(squares.size() >= least_squares(kind), "squares", "are too few for this kind");
  f.require(means_pieces.size() == means_squares.size(), "means_pieces",
            "are not as many as their squares");
  f.require(!means || means_squares.size() >= least_squares(*means), "means_squares",
            "are too few for this means");
}

template <typename Fields, typename Moment>
void moment_fields(Fields& f, Moment& moment) {
  auto& [kind, ply, position, played, best, second, tempting, best_score, second_score,
         played_score, tempting_score, found, punished, gain, line, refutation, second_refutation,
         reasons, steps, nodes, find_rate] = moment;
  f.choice("kind", kind, study::kind_count);
  f.number("ply", ply, plies);
  f.position("fen", position);
  f.move("played", position, played);
  f.move("best", position, best);
  f.move("second", position, second);
  f.move("tempting", position, tempting);
  f.number("best_score", best_score, scores);
  f.number("second_score", second_score, scores);
  f.number("played_score", played_score, scores);
  f.number("tempting_score", tempting_score, scores);
  f.flag("found", found);
  f.flag("punished", punished);
  f.number("gain", gain, gains);
  f.line("line", position, line, {1, most_line});
  using study::Role;
  f.line("refutation", study::position_of(moment, Role::reply), refutation, {0, most_line});
  f.line("second_refutation", study::position_of(moment, Role::second_reply), second_refutation,
         {0, most_line});
  f.objects("reasons", reasons, {0, most_reasons},
            [&](auto& inner, auto& reason) { reason_fields(inner, reason, moment); });
  f.number("nodes", nodes, node_counts);
  f.number("find_rate", find_rate, find_rates_or_none);
  f.require(steps.empty(), "steps", "are made when a game is told");

  const bool at_the_end = kind == study::Kind::ended_early;
  f.require(!at_the_end == !!played, "played", at_the_end ? "is a move at the end" : "is no move");
  f.require(best && best != rules::null_move, "best", "is no move");
  f.require(second != rules::null_move, "second", "is no move");
  f.require((kind == study::Kind::trap) == !!tempting && tempting != rules::null_move, "tempting",
            "is not what this kind has");
  f.require(!line.empty() && line.front() == best, "line", "does not begin with the best move");
  f.require(!at_the_end || refutation.empty(), "refutation", "answers no move");
}

template <typename Fields, typename Found>
void findings_fields(Fields& f, Found& findings) {
  auto& [ply, moments, puzzles, drops, nodes] = findings;
  f.number("ply", ply, plies);
  f.objects("moments", moments, {0, most_moments},
            [](auto& inner, auto& moment) { moment_fields(inner, moment); });
  f.objects("puzzles", puzzles, {0, most_moments},
            [](auto& inner, auto& puzzle) { puzzle_fields(inner, puzzle); });
  f.choices("drops", drops, {0, most_moments}, puzzle::drop_count);
  f.number("nodes", nodes, node_counts);
}

}  // namespace kairos::batch
