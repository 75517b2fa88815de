// sheet.html: puzzles to print, then why-nots, six diagrams a page (A4 or larger), the solutions of
// both on the last page.
#include "kairos/base/foreign.hpp"
#include "kairos/report/words.hpp"

#include "html_page.hpp"
#include "html_puzzle.hpp"
#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// Two columns of three leave diagrams of 62 mm on A4, and a line each to write on.
constexpr std::size_t diagrams_a_page = 6;

std::string figure(const puzzle::Puzzle& puzzle, std::size_t number) {
  return "<figure id=\"" + escaped(id_of(puzzle)) + "\">" + puzzle_diagram(puzzle) +
         "<figcaption><strong>" + std::to_string(number) + ".</strong> " + task_of(puzzle) + " " +
         puzzle_grade(puzzle) + "<span class=\"write\"></span></figcaption></figure>\n";
}

base::Status write_figures(const std::vector<puzzle::Puzzle>& puzzles, base::ByteSink& sink) {
  std::string html;
  for (std::size_t i = 0; i < puzzles.size(); ++i) {
    if (i % diagrams_a_page == 0) html += "<div class=\"sheet\">\n";
    html += figure(puzzles[i], i + 1);
    const bool is_full = i % diagrams_a_page == diagrams_a_page - 1 || i + 1 == puzzles.size();
    if (!is_full) continue;
    if (base::Status status = sink.write(html + "</div>\n"); !status) return status;
    html.clear();
  }
  return base::done();
}

// To be filled in with a pen.
std::string name_and_score(std::size_t questions) {
  if (questions == 0) return "";
  return "<p class=\"fill\"><span>Name</span><span>Date</span><span>Score</span> of " +
         std::to_string(questions) + "</p>\n";
}

// Short: the line, and of each try enough to see why it fails.
std::string solutions(const std::vector<puzzle::Puzzle>& puzzles) {
  std::string html = "<ol>\n";
  for (const puzzle::Puzzle& puzzle : puzzles) {
    html += "<li><strong>" + escaped(solution_words(puzzle)) + "</strong>";
    for (const puzzle::Try& tried : puzzle.tries) {
      html += "; not " +
              escaped(numbered_line(puzzle.position, joined(tried.move, tried.refutation), 4));
    }
    html +=
        ". <span class=\"small\">" + escaped(base::isolated(puzzle.game_label)) + "</span></li>\n";
  }
  return html + "</ol>\n";
}

std::string all_solutions(const Collection& collection) {
  const auto& puzzles = collection.puzzles();
  const auto& why_nots = collection.why_nots();
  if (puzzles.empty() && why_nots.empty()) return "";
  std::string html = "<section class=\"solutions\">\n<h2>Solutions</h2>\n";
  if (!puzzles.empty()) html += solutions(puzzles);
  if (!why_nots.empty()) html += "<h3>Why not</h3>\n" + solutions(why_nots);
  return html + "</section>\n";
}

}  // namespace

base::Status write_sheet(const Collection& collection, base::ByteSink& sink) {
  std::string html = page_begin("Kairos: puzzle sheet", "print-sheet");
  html +=
      "<header>\n<h1>Puzzles</h1>\n<p class=\"screen\">Print this page: six diagrams a page, the "
      "solutions on the last. <a href=\"report.html\">The report</a></p>\n";
  html += name_and_score(collection.puzzles().size() + collection.why_nots().size()) +
          "</header>\n<main>\n";
  if (collection.puzzles().empty()) html += "<p>There is no puzzle in this collection.</p>\n";
  base::Status status = sink.write(html);
  if (status) status = write_figures(collection.puzzles(), sink);
  if (status && !collection.why_nots().empty()) status = sink.write(why_not_opening());
  if (status) status = write_figures(collection.why_nots(), sink);
  if (!status) return status;
  return sink.write(all_solutions(collection) + "</main>\n" + page_end(collection.facts()));
}

}  // namespace kairos::report
