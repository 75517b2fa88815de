#include "text_puzzles.hpp"

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "labels.hpp"

namespace kairos::report {

namespace {

// Of the diagram and the gap beside it, as for moments.
constexpr std::size_t board_width = 24;

std::string title(const puzzle::Puzzle& puzzle, std::size_t number) {
  const rules::Position& shown = shown_position(puzzle);
  std::string text = (puzzle.avoided ? "" : "Puzzle ") + std::to_string(number) + ". " +
                     side_words(shown.side_to_move()) + " to move";
  if (puzzle.avoided) {
    text += ". " + why_not_words(puzzle);
    if (puzzle.mate_moves > 0) text += " It is mate in " + std::to_string(puzzle.mate_moves) + ".";
    return text;
  }
  // "Mate in N" is part of the question, and asked only when it is proved.
  if (puzzle.mate_moves > 0) text += ", mate in " + std::to_string(puzzle.mate_moves);
  return text + ".";
}

// Nothing here may say more than the question: no themes, no kind, no line.
std::string position_text(const puzzle::Puzzle& puzzle, std::size_t number) {
  const rules::Position& shown = shown_position(puzzle);
  Rows right{title(puzzle, number), ""};
  const auto add = [&right](std::string_view words) {
    for (std::string& row : wrapped(words, page_width - board_width)) {
      right.push_back(std::move(row));
    }
  };
  add("Difficulty " + std::to_string(puzzle.difficulty) + " of 5.");
  add("From " + base::isolated(puzzle.game_label) + ".");
  right.emplace_back();
  add("id " + id_of(puzzle));
  add(rules::to_fen(shown));
  std::string text;
  append(text, beside(board_rows(shown, shown.side_to_move()), board_width, right));
  return text + "\n";
}

// Counted, never shown: what was dropped was not good enough to ask.
std::string drops_text(const RunFacts& facts) {
  std::vector<std::string> parts;
  for (const auto& [reason, count] : facts.puzzle_drops) {
    parts.push_back(base::to_utf8(reason) + ", " + base::grouped(count));
  }
  if (parts.empty()) return "";
  std::string text;
  append(text, wrapped("Moments that are no puzzles: " + base::join(parts, "; ") + ".", page_width,
                       "  "));
  return text + "\n";
}

// The next best score shows by how much the key is the only one.
std::string solution_text(const puzzle::Puzzle& puzzle, std::size_t number, int level) {
  const rules::Position& position = puzzle.position;
  const rules::Color side = position.side_to_move();
  constexpr std::size_t label_width = 12;
  std::string text;
  const auto add = [&text](std::string_view label, std::string_view words) {
    append(text, wrapped(words, page_width, "  " + fitted(label, label_width)));
  };
  const std::string head = puzzle.avoided ? std::to_string(number) + ". " + why_not_words(puzzle)
                                          : "Puzzle " + std::to_string(number);
  text += head + " (" + id_of(puzzle) + ")\n";
  add("Solution", solution_words(puzzle) + "  (" + score_text(from_white(puzzle.score, side)) +
                      "; next best " + score_text(from_white(puzzle.second_score, side)) + ")");
  for (const puzzle::Try& tried : puzzle.tries) {
    add("Try", numbered_line(position, joined(tried.move, tried.refutation)) + "  (" +
                   score_text(from_white(tried.score, side)) + ")");
  }
  add("Themes", base::join(themes_of(puzzle), ", "));
  add("Difficulty", std::to_string(puzzle.difficulty) + " of 5: " + difficulty_words(puzzle));
  add("Chosen as", choice_words(puzzle, level));
  if (puzzle.avoided) {
    add("In the game", numbered(puzzle.before, puzzle.avoided) + " was not played.");
  } else {
    add("In the game", puzzle.found ? "the key was played." : "the key was not played.");
  }
  return text + "\n";
}

}  // namespace

std::string puzzle_positions(const Collection& collection) {
  std::string text = drops_text(collection.facts());
  const auto& puzzles = collection.puzzles();
  if (puzzles.empty()) return text + "  None held against every check.\n";
  for (std::size_t i = 0; i < puzzles.size(); ++i) text += position_text(puzzles[i], i + 1);
  return text;
}

std::string why_not_positions(const Collection& collection) {
  std::string text;
  append(text, wrapped("Tempting moves that were not played, and rightly so: what is the answer "
                       "to them?",
                       page_width, "  "));
  text += "\n";
  const auto& why_nots = collection.why_nots();
  for (std::size_t i = 0; i < why_nots.size(); ++i) text += position_text(why_nots[i], i + 1);
  return text;
}

std::string puzzle_names(const Collection& collection) {
  const auto names_of = [](const std::vector<puzzle::Puzzle>& puzzles, std::string_view file) {
    std::vector<std::string> names;
    for (const puzzle::Puzzle& puzzle : puzzles) names.push_back(id_of(puzzle));
    std::string text;
    append(text,
           wrapped(base::join(names, ", ") + ": in " + std::string(file) +
                       "; questions.html asks them, stage.html shows them, sheet.html prints them.",
                   page_width, "  "));
    return text;
  };
  std::string text = collection.puzzles().empty() ? "  None held against every check.\n"
                                                  : names_of(collection.puzzles(), "puzzles.epd");
  if (!collection.why_nots().empty()) text += names_of(collection.why_nots(), "whynots.epd");
  return text;
}

std::string puzzle_solutions(const Collection& collection) {
  std::string text;
  for (const auto* const puzzles : {&collection.puzzles(), &collection.why_nots()}) {
    for (std::size_t i = 0; i < puzzles->size(); ++i) {
      text += solution_text((*puzzles)[i], i + 1, collection.facts().level);
    }
  }
  return text;
}

}  // namespace kairos::report
