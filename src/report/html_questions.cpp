// questions.html: one puzzle a screen, to read and to solve (to show: stage.html). Hints come one
// by one, each inside the one before; the answer is folded apart. Nothing outside the folds, no
// description of a picture and no anchor says anything of the solution.
#include "kairos/base/foreign.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "html_page.hpp"
#include "html_puzzle.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

std::string hints_html(const puzzle::Puzzle& puzzle) {
  const std::vector<std::string> hints = hints_of(puzzle, aim_of(puzzle));
  std::string html;
  for (std::size_t i = hints.size(); i > 0; --i) {
    html = folded("Hint " + std::to_string(i), "<p>" + hints[i - 1] + "</p>" + html);
  }
  return html;
}

std::string question(const puzzle::Puzzle& puzzle, std::string_view title) {
  std::string html = "<section class=\"question\" id=\"" + escaped(id_of(puzzle)) + "\">\n<div>" +
                     puzzle_diagram(puzzle) + "</div>\n<div>\n<h2>" + std::string(title) +
                     "</h2>\n<p class=\"ask\">" + task_of(puzzle) + ".</p>\n<p>" +
                     puzzle_grade(puzzle) + "</p>\n";
  html += "<p class=\"small\">" + escaped(base::isolated(puzzle.game_label)) + "</p>\n" +
          hints_html(puzzle);
  html += folded("Answer", puzzle_answer(puzzle));
  return html + "<p><code>" + escaped(rules::to_fen(shown_position(puzzle))) +
         "</code></p>\n</div>\n</section>\n";
}

base::Status write_all(const std::vector<puzzle::Puzzle>& puzzles, std::string_view title,
                       base::ByteSink& sink) {
  base::Status status = base::done();
  for (std::size_t i = 0; i < puzzles.size() && status; ++i) {
    status = sink.write(question(puzzles[i], std::string(title) + " " + std::to_string(i + 1)));
  }
  return status;
}

}  // namespace

base::Status write_questions(const Collection& collection, base::ByteSink& sink) {
  std::string html = page_begin("Kairos: questions", "questions");
  html +=
      "<header class=\"screen\">\n<h1>Questions</h1>\n<p><a href=\"report.html\">The report</a>, "
      "<a href=\"stage.html\">for a stage</a>, "
      "<a href=\"sheet.html\">the sheet to print</a></p>\n</header>\n<main>\n";
  if (collection.puzzles().empty()) html += "<p>There is no puzzle in this collection.</p>\n";
  base::Status status = sink.write(html);
  if (status) status = write_all(collection.puzzles(), "Puzzle", sink);
  if (status && !collection.why_nots().empty()) status = sink.write(why_not_opening());
  if (status) status = write_all(collection.why_nots(), "Why not", sink);
  if (!status) return status;
  return sink.write("</main>\n" + page_end(collection.facts()));
}

}  // namespace kairos::report
