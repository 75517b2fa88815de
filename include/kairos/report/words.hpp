// The words of chess: what the study knows, in plain English, the same in every report and command.
//
// All words about moves, moments and puzzles are made here (src/report/words/) and nowhere else,
// from facts alone: of what is not proved a text says less. A better wording needs no new study.
// Moves stand in SAN with their numbers, scores are White's. Pure functions.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/puzzle/puzzle.hpp"
#include "kairos/report/turning_points.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/study.hpp"
#include "kairos/study/weighed.hpp"

namespace kairos::report {

// Terms: words/terms.cpp.
std::string side_words(rules::Color side);         // "White"
std::string_view words(study::Kind kind);          // "swing", "only move", ...
std::string_view words(study::Standing standing);  // "lost", "worse", "level", "better", "winning"
std::string_view words(rules::PieceType type);     // "knight"; "" for no piece
std::string with_article(rules::PieceType type);   // "a pawn", "the queen"
// "a knight", "the exchange", "the queen for a rook", "two pawns", "a new queen".
std::string men_words(const study::MenWon& men);

// Reasons: words/reasons.cpp.
// What a move does by force: "mates in 2", "wins a knight"; "" for reasons of another kind.
std::string effect_words(const study::Reason& reason);
// Whether what its move takes is not what is won in the end.
bool takes_another_man(const study::Reason& reason);
// What a note says: "marked as poor", "called better for White".
std::string assertion_words(const study::Reason& reason);

// Turning points: words/sentences.cpp, words/moments.cpp.
// What happened, what was right, what tempted: a plain text of a few sentences.
std::string text_of(const study::Study& study, const TurningPoint& point);
// The same of one moment by itself, claims among them.
std::string sentence_of(const study::Study& study, const study::Moment& moment);
// "fork"; "" when none is sure.
std::string_view motif_words(const study::Moment& moment);
std::string_view motif_words(const TurningPoint& point);
// "found", "missed", or "" for kinds that are neither.
std::string_view outcome_words(const study::Moment& moment);
// "swing, not punished; only move, missed".
std::string kinds_words(const TurningPoint& point);
// The point as a question that gives the answer away neither in words nor by its kind.
std::string question_of(const TurningPoint& point);
// Half-moves of a line shown to people: longer ones are not read. Data formats carry them whole.
inline constexpr std::size_t shown_plies = 12;
// The best line as it is shown: the one that proves what the text says of it.
std::vector<rules::Move> best_line(const TurningPoint& point);
// The replies to the move in question, likewise.
std::vector<rules::Move> reply_line(const TurningPoint& point);
// The lines that show what the text says, each with what it is: "Played", "Better", ...
struct ShownLine {
  std::string label;
  std::string text;                // numbered SAN, cut to a readable length
  std::string score;               // from White's side
  std::string move;                // its first move alone
  bool answer = true;              // a best line; false: a move it is measured against
  std::vector<rules::Move> moves;  // of the line, not cut, from the position of the point
};
std::vector<ShownLine> shown_lines(const TurningPoint& point);
// "White: winning, 100 % -> level, 48 %"; one state only where nothing was lost.
std::string change_text(const TurningPoint& point);

// The story of a game, at most five sentences: words/story.cpp. `points` are all of the study's,
// `loss` its loss_words where they are true. Empty for a game without moves.
std::vector<std::string> story_of(const study::Study& study,
                                  const std::vector<TurningPoint>& points, const std::string& loss);

// Moves weighed: words/weighed.cpp. "wins a knight", "loses the queen: 23... Nxd4", "holds".
std::string verdict_words(const rules::Position& position, const study::Weighed& weighed);

// The figures that a lost game went through when no moment tells where it was lost
// (words/loss.cpp);
// "" for all others. True only of games whose places were all verified.
std::string loss_words(const study::Study& study);

// "about 3 in 10 players rated 1850 find it": the best move of a moment by players rated as the one
// to move, or as `study::unrated`; "" where it was not asked. words/puzzles.cpp.
std::string find_rate_words(const study::Study& study, const study::Moment& moment);

// Puzzles: words/puzzles.cpp.
// What refutes a try: "fails to 23... Nxd4 ...", so many half-moves of it.
std::string refuted_words(const rules::Position& position, const puzzle::Try& tried,
                          std::size_t most);
std::string_view words(puzzle::Drop drop);  // "too plain"; "kept" for none
// "Why not 17. Bd3?", of a why-not.
std::string why_not_words(const puzzle::Puzzle& puzzle);
// "White to move", "White to move and mate in 2", "Why not 17. Bd3? Black to move".
std::string task_of(const puzzle::Puzzle& puzzle);
// The reward as it is told: who wins material and is no better for it saves the game.
puzzle::Reward aim_of(const puzzle::Puzzle& puzzle);
// For people who are stuck, from general to particular: the aim (where it is known, and not part of
// the question), the kind of move, the man, the theme. None gives the move away.
std::vector<std::string> hints_of(const puzzle::Puzzle& puzzle, std::optional<puzzle::Reward> aim);
// "35... Ra1+ 36. Qb1 Rxb1+ (then, for instance, 37. Kh2 Rb2)": what is not asked stands in
// brackets.
std::string solution_words(const puzzle::Puzzle& puzzle);
// The aim, then how: "mate in 2", "quiet move", "fork". Files hold them, so they never change.
std::vector<std::string> themes_of(const puzzle::Puzzle& puzzle);
// "about 3 in 10 players rated 2000 find it, 2 moves, quiet key, ...".
std::string difficulty_words(const puzzle::Puzzle& puzzle);

// Why a puzzle is worth asking of players of that rating, in about three words: "quiet, rarely
// found", "mate, tempting try", "missed by Rosin", "3 in 10 find it". They stand beside its answer
// or where puzzles are chosen: a solver may learn from them (words/choice.cpp).
std::string choice_words(const puzzle::Puzzle& puzzle, int level);
// "Chosen for players rated 2050."
std::string level_words(int level);

// The settings line of a ledger (study::to_text): words/settings.cpp. "light (20,000 nodes ...)".
std::string settings_words(const std::string& settings);

}  // namespace kairos::report
