// report.txt: the run for reading on a terminal, 80 columns, plain characters.
//
// Order: what was read and what was not, the games in one table, each game with its story and its
// turning points, the puzzles, the why-nots, and at the very end their solutions, so that one can
// stop before them. Of a single game there is no table, and its puzzles are named only: their
// positions have been shown. Studies are loaded twice (table, games) and never kept, so the length
// of the input costs no memory.
#include "kairos/base/text.hpp"

#include <algorithm>

#include "kairos/base/foreign.hpp"
#include "kairos/report/habits.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"
#include "text_game.hpp"
#include "text_page.hpp"
#include "text_puzzles.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// What the reader must know before believing anything: how much was read, with what effort, and
// what is missing.
std::string opening(const RunFacts& facts) {
  std::string text =
      "KAIROS " + base::stripped(facts.version) + ": the moments these games turned on\n\n";
  std::string read = base::counted(facts.games_in_input, "game") +
                     " in the input: " + base::grouped(facts.games_in_input - facts.games_skipped) +
                     " read, " + base::grouped(facts.games_skipped) + " skipped.";
  append(text, wrapped(read, page_width, "  "));
  if (!facts.player.empty()) {
    append(text,
           wrapped("This report is about " + base::isolated(facts.player) + ".", page_width, "  "));
  }
  if (!facts.settings.empty()) {
    append(text, wrapped("Effort: " + base::stripped(facts.settings) + ".", page_width, "  "));
  }
  append(text, wrapped(base::grouped(facts.nodes) +
                           " positions were searched, those of proofs not counted.",
                       page_width, "  "));
  if (facts.games_open > 0) {
    append(text, wrapped("NOT DONE: " + base::counted(facts.games_open, "game") +
                             " had not been looked at when the time was up.",
                         page_width, "  "));
  }
  if (facts.candidates_open > 0) {
    append(text,
           wrapped("NOT DONE: " + base::counted(facts.candidates_open, "place") +
                       " where a moment may be had not been verified when the time was up. They "
                       "are not in this report; the same command goes on where it stopped.",
                   page_width, "  "));
  }
  return text;
}

// Every fault with its place and what to do, in the words of base.
std::string faults_section(const RunFacts& facts) {
  if (facts.faults.empty()) return "";
  std::string text = text_heading("WHAT WAS WRONG WITH THE INPUT");
  for (const base::Fault& fault : facts.faults) {
    append(text, wrapped(base::isolated(base::describe(fault)), page_width, "  * "));
  }
  return text;
}

// The few words the report uses in a sense of its own.
std::string legend() {
  std::string text = "\n";
  append(text,
         wrapped("How to read it. Scores are in pawns from White's side. A percentage is what the "
                 "named side may expect of the game: 100 % a win, 50 % a draw, 0 % a loss. A swing "
                 "is a move that cost a good part of it; a slide is several that did so together; "
                 "a turn is the costliest move of a game that no single one lost; an only move is "
                 "the one that kept it; a quiet win wins without force; a trap is a tempting move "
                 "that was rightly not played. Diagrams are seen from the side to move; capitals "
                 "are White's men.",
                 page_width, "  "));
  return text;
}

// Short enough for a table: the move and how far the mover fell, or the kind.
std::string decisive_words(const std::vector<TurningPoint>& points) {
  const TurningPoint* const point = decisive_point(points);
  if (point == nullptr) return "-";
  const study::Moment& moment = point->lead();
  std::string text = numbered(moment.position, move_in_question(moment));
  if (text.empty()) text = std::string(words(moment.kind));
  if (!tells_fall(moment)) return text + ", " + std::string(words(moment.kind));
  const Fall fall = fall_of(moment);
  return text + ", " + percent(fall.from) + " -> " + percent(fall.to);
}

// Without given names, which a table has no room for.
std::string surnames_text(study::GameFacts facts) {
  for (std::string* const name : {&facts.white, &facts.black}) {
    name->resize(std::min(name->find(','), name->size()));
  }
  return players_text(facts);
}

// Columns of the table of games; two blanks between, the rest is the decisive move's.
constexpr std::size_t number_width = 4, players_width = 30, result_width = 7, count_width = 5;

std::string table_row(std::string_view number, std::string_view players, std::string_view result,
                      std::string_view points, std::string_view decisive) {
  constexpr std::size_t taken = number_width + players_width + result_width + count_width + 8;
  std::string row = fitted_right(number, number_width) + "  " + fitted(players, players_width) +
                    "  " + fitted(result, result_width) + "  " + fitted_right(points, count_width) +
                    "  " + fitted(decisive, page_width - taken);
  row.erase(row.find_last_not_of(' ') + 1);
  return row + "\n";
}

std::string games_table(const Collection& collection) {
  if (collection.size() == 1) return "";
  std::string text = text_heading("THE GAMES AND WHERE THEY TURNED");
  text += table_row("No", "White - Black", "Result", "Turns", "The decisive move");
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    const std::vector<TurningPoint> points = turning_points(study);
    text += table_row(std::to_string(study.facts.number), surnames_text(study.facts),
                      base::isolated(study.facts.result), std::to_string(points.size()),
                      decisive_words(points));
  }
  return text;
}

}  // namespace

base::Status write_text(const Collection& collection, base::ByteSink& sink) {
  const RunFacts& facts = collection.facts();
  std::string text = opening(facts) + faults_section(facts);
  text += games_table(collection) + legend() + text_heading("THE TURNING POINTS");
  if (base::Status status = sink.write(text); !status) return status;
  bool any = false;
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const std::string game = game_text(collection, i);
    if (game.empty()) continue;
    any = true;
    if (base::Status status = sink.write(game); !status) return status;
  }
  if (!any) {
    if (base::Status status = sink.write("  None was found.\n"); !status) return status;
  }
  text.clear();
  if (const habits::Habits* const habits = collection.habits(); habits != nullptr) {
    text = text_heading("WHAT KEEPS COMING BACK") + habits_text(*habits);
  }
  const bool single = collection.size() == 1;
  text += text_heading("THE PUZZLES");
  const bool asks = !single && !collection.puzzles().empty();
  if (asks) text += "  " + level_words(facts.level) + "\n\n";
  text += single ? puzzle_names(collection) : puzzle_positions(collection);
  const bool has_why_nots = !collection.why_nots().empty();
  if (!single && has_why_nots) text += text_heading("WHY NOT") + why_not_positions(collection);
  if (!single && (has_why_nots || asks)) {
    text += text_heading("SOLUTIONS") + puzzle_solutions(collection);
  }
  return sink.write(text + text_closing());
}

}  // namespace kairos::report
