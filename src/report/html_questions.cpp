// questions.html: one puzzle a screen, for an audience or for oneself. Hints come one by one, each
// inside the one before; the answer is folded apart. Nothing outside the folds, no description of a
// picture and no anchor says anything of the solution.
#include "kairos/base/foreign.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "html_page.hpp"
#include "html_puzzle.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// A hint that says no more than the question is left out.
std::string hints_html(const puzzle::Puzzle& puzzle) {
  const std::vector<std::string> hints = hints_of(puzzle);
  const bool told = !hints.empty() && hints.front() == task_of(puzzle) + ".";
  std::string html;
  for (std::size_t i = hints.size(), first = told ? 1 : 0; i > first; --i) {
    html = folded("Hint " + std::to_string(i - first), "<p>" + hints[i - 1] + "</p>" + html);
  }
  return html;
}

std::string question(const Collection& collection, std::size_t index) {
  const puzzle::Puzzle& puzzle = collection.puzzles()[index];
  std::string html = "<section class=\"question\" id=\"" + escaped(id_of(puzzle)) + "\">\n<div>" +
                     puzzle_diagram(puzzle) + "</div>\n<div>\n<h2>Puzzle " +
                     std::to_string(index + 1) + "</h2>\n<p class=\"ask\">" + task_of(puzzle) +
                     ".</p>\n<p>" + puzzle_grade(puzzle) + "</p>\n";
  html += "<p class=\"small\">" + escaped(base::isolated(puzzle.game_label)) + "</p>\n" +
          hints_html(puzzle);
  html += folded("Answer", puzzle_answer(puzzle));
  return html + "<p><code>" + escaped(rules::to_fen(puzzle.position)) +
         "</code></p>\n</div>\n</section>\n";
}

}  // namespace

base::Status write_questions(const Collection& collection, base::ByteSink& sink) {
  std::string html = page_begin("Kairos: questions", "questions");
  html +=
      "<header class=\"screen\">\n<h1>Questions</h1>\n<p><a href=\"report.html\">The report</a>, "
      "<a href=\"sheet.html\">the sheet to print</a></p>\n</header>\n<main>\n";
  if (collection.puzzles().empty()) html += "<p>There is no puzzle in this collection.</p>\n";
  if (base::Status status = sink.write(html); !status) return status;
  for (std::size_t i = 0; i < collection.puzzles().size(); ++i) {
    if (base::Status status = sink.write(question(collection, i)); !status) return status;
  }
  return sink.write("</main>\n" + page_end(collection.facts()));
}

}  // namespace kairos::report
