// sheet.html: puzzles to print, six diagrams a page (A4 or larger), solutions on the last page.
#include "kairos/base/foreign.hpp"
#include "kairos/report/words.hpp"

#include "html_page.hpp"
#include "html_puzzle.hpp"
#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// Two columns of three leave diagrams of 66 mm on A4, and a line each to write on.
constexpr std::size_t diagrams_a_page = 6;

std::string figure(const Collection& collection, std::size_t index) {
  const puzzle::Puzzle& puzzle = collection.puzzles()[index];
  return "<figure id=\"" + escaped(id_of(puzzle)) + "\">" + puzzle_diagram(puzzle) +
         "<figcaption><strong>" + std::to_string(index + 1) + ".</strong> " + task_of(puzzle) +
         " " + puzzle_grade(puzzle) + "<span class=\"write\"></span></figcaption></figure>\n";
}

// Short: the line, and of each try enough to see why it fails.
std::string solutions(const Collection& collection) {
  std::string html = "<section class=\"solutions\">\n<h2>Solutions</h2>\n<ol>\n";
  for (const puzzle::Puzzle& puzzle : collection.puzzles()) {
    html += "<li><strong>" + escaped(numbered_line(puzzle.position, puzzle.line)) + "</strong>";
    for (const puzzle::Try& tried : puzzle.tries) {
      html += "; not " +
              escaped(numbered_line(puzzle.position, joined(tried.move, tried.refutation), 4));
    }
    html +=
        ". <span class=\"small\">" + escaped(base::isolated(puzzle.game_label)) + "</span></li>\n";
  }
  return html + "</ol>\n</section>\n";
}

}  // namespace

base::Status write_sheet(const Collection& collection, base::ByteSink& sink) {
  std::string html = page_begin("Kairos: puzzle sheet", "print-sheet");
  html +=
      "<header>\n<h1>Puzzles</h1>\n<p class=\"screen\">Print this page: six diagrams a page, the "
      "solutions on the last. <a href=\"report.html\">The report</a></p>\n</header>\n<main>\n";
  const std::size_t count = collection.puzzles().size();
  if (count == 0) html += "<p>There is no puzzle in this collection.</p>\n";
  for (std::size_t i = 0; i < count; ++i) {
    if (i % diagrams_a_page == 0) html += "<div class=\"sheet\">\n";
    html += figure(collection, i);
    const bool is_full = i % diagrams_a_page == diagrams_a_page - 1 || i + 1 == count;
    if (!is_full) continue;
    if (base::Status status = sink.write(html + "</div>\n"); !status) return status;
    html.clear();
  }
  if (count > 0) html += solutions(collection);
  return sink.write(html + "</main>\n" + page_end(collection.facts()));
}

}  // namespace kairos::report
