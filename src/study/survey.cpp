// The survey: one search for every position of the main line.
//
// Positions are searched from the last to the first with one table: what the searcher learned of
// the later ones, where the game has shown the way, it finds again in the tree of the earlier ones.
// So the survey sees a mistake's punishment the game contains even when the effort alone would not
// reach it. Two lines are asked of each position, the least that tells an only move.
//
// The move played is scored from the search of the next position where that is better evidence: it
// looks one ply further, and it does not take a mere second occurrence for a draw.
//
// How likely players err in a position is asked of a searcher of its own, which knows nothing of
// what was played.
#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/study/examine.hpp"
#include "kairos/study/search_move.hpp"

#include "error_chance.hpp"

namespace kairos::study {

namespace {

constexpr int survey_lines = 2;

Note search_position(const rules::Position& p, std::span<const rules::Key> earlier,
                     std::uint64_t nodes, search::Searcher& searcher) {
  Note note;
  if (!rules::has_legal_move(p)) return note;
  search::Limits limits;
  limits.nodes = nodes;
  limits.lines = survey_lines;
  search::Verdict verdict = searcher.search(p, earlier, limits);
  note.lines = std::move(verdict.lines);
  note.depth = verdict.depth;
  note.nodes = verdict.nodes;
  return note;
}

// The played move's score by the next position: the Laws where they end the game, else its search.
search::Score score_by_next(const rules::Position& next, std::span<const rules::Key> earlier,
                            const Note& note_of_next) {
  if (rules::is_checkmate(next)) return search::mate_in_plies(1);
  if (note_of_next.lines.empty()) return search::draw_score;
  const rules::GameStatus status = rules::game_status(next, earlier);
  if (status != rules::GameStatus::open) return search::draw_score;
  return seen_from_before(note_of_next.lines.front().score);
}

search::Score score_of_played(const Note& note, rules::Move played, bool repeats,
                              search::Score by_next) {
  if (repeats) return by_next;
  for (const search::Line& line : note.lines) {
    if (line.moves.front() == played) return line.score;
  }
  return by_next;
}

}  // namespace

Study survey(const Scoresheet& sheet, const Settings& settings, search::Searcher& searcher) {
  return *survey(sheet, settings, searcher, nullptr);
}

std::optional<Study> survey(const Scoresheet& sheet, const Settings& settings,
                            search::Searcher& searcher, const std::atomic<bool>* stop) {
  searcher.clear();
  Study study;
  study.facts = sheet.facts;
  study.start = sheet.positions.front();
  study.moves = sheet.moves;
  const std::size_t plies = study.moves.size();
  study.notes.resize(plies + 1);

  const std::span<const rules::Key> keys(sheet.keys);
  const bool may_give_up = stop != nullptr && plies > most_waited_for;
  for (std::size_t i = plies + 1; i-- > 0;) {
    if (may_give_up && stop->load()) return std::nullopt;
    Note& note = study.notes[i];
    note =
        search_position(sheet.positions[i], keys.first(i), settings.effort.survey_nodes, searcher);
    if (i == plies) continue;
    const rules::Position& next = sheet.positions[i + 1];
    const auto before_next = keys.first(i + 1);
    const bool repeats = rules::occurrences(next, before_next) > 1;
    note.played_score = score_of_played(note, study.moves[i], repeats,
                                        score_by_next(next, before_next, study.notes[i + 1]));
    note.clock_seconds = sheet.clock_seconds[i];
    if (may_err(note)) note.error_chances = error_chances_at(sheet, i, note, settings.effort);
  }
  return study;
}

}  // namespace kairos::study
