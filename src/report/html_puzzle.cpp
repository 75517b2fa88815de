#include "html_puzzle.hpp"

#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "html_diagram.hpp"
#include "html_line.hpp"
#include "html_page.hpp"
#include "labels.hpp"

namespace kairos::report {

std::string puzzle_diagram(const puzzle::Puzzle& puzzle) {
  // No arrow for the answer.
  Marks marks{puzzle.last, {}};
  marks.avoided = puzzle.avoided;
  return diagram(shown_position(puzzle), marks);
}

std::string why_not_opening() {
  return "<h2 id=\"why-not\">Why not</h2>\n<p>Tempting moves (the dotted arrow) that were not "
         "played, and rightly so. What is the answer to them?</p>\n";
}

std::string puzzle_grade(const puzzle::Puzzle& puzzle) {
  std::string marks;
  for (int i = 1; i <= 5; ++i) marks += i <= puzzle.difficulty ? "&#9679;" : "&#9675;";
  return "<span class=\"grade\" role=\"img\" aria-label=\"Difficulty " +
         std::to_string(puzzle.difficulty) + " of 5\">" + marks + "</span>";
}

std::string puzzle_tries(const puzzle::Puzzle& puzzle) {
  const rules::Color side = puzzle.position.side_to_move();
  std::string html = "<ul>";
  for (const puzzle::Try& tried : puzzle.tries) {
    html += "<li>" + line_html(puzzle.position, joined(tried.move, tried.refutation), true) +
            escaped(" (" + score_text(from_white(tried.score, side)) + ")") + "</li>";
  }
  return html + "</ul>";
}

std::string puzzle_answer(const puzzle::Puzzle& puzzle) {
  const rules::Color side = puzzle.position.side_to_move();
  std::string html = "<p><strong>" + escaped(solution_words(puzzle)) + "</strong> (" +
                     escaped(score_text(from_white(puzzle.score, side))) + "; next best " +
                     escaped(score_text(from_white(puzzle.second_score, side))) + ")</p>";
  if (!puzzle.tries.empty())
    html += (puzzle.tries.size() == 1 ? "<p>A try, and what refutes it:</p>"
                                      : "<p>Tries, and what refutes them:</p>") +
            puzzle_tries(puzzle);
  if (const auto themes = themes_of(puzzle); !themes.empty()) {
    html +=
        (themes.size() == 1 ? "<p>Theme: " : "<p>Themes: ") + base::join(themes, ", ") + ".</p>";
  }
  if (puzzle.avoided) {
    html += "<p>" + numbered(puzzle.before, puzzle.avoided) + " was not played in the game.</p>";
  } else {
    html += puzzle.found ? "<p>It was played in the game.</p>" : "<p>It was not played.</p>";
  }
  return html + "<p class=\"small\">Difficulty: " + difficulty_words(puzzle) + "</p>";
}

}  // namespace kairos::report
