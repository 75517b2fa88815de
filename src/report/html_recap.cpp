// recap.html: what one speaks from: the story of each game, then for each turning point the board
// with its marks (the audience sees stage.html), the question to ask, the answer, and the wrong
// answers with what refutes them, so that the speaker has them at hand. A page a game when printed.
#include <algorithm>

#include "kairos/report/words.hpp"

#include "html_game.hpp"
#include "html_graph.hpp"
#include "html_page.hpp"
#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// A move that people will propose, and the line that refutes it.
struct Wrong {
  std::string move, line;
};

void add(std::vector<Wrong>& wrong, std::string move, std::string line) {
  const bool known =
      std::any_of(wrong.begin(), wrong.end(), [&](const Wrong& w) { return w.move == move; });
  if (!known && !move.empty()) wrong.push_back({std::move(move), std::move(line)});
}

// The move played, the next best, the tempting one, and the tries of a puzzle made of the place.
std::vector<Wrong> wrong_answers(const Collection& collection, const study::Study& study,
                                 const TurningPoint& point) {
  std::vector<Wrong> wrong;
  for (const ShownLine& line : shown_lines(point)) {
    if (!line.answer) add(wrong, line.move, line.text + " (" + line.score + ")");
  }
  const rules::Position& position = point.lead().position;
  for (const puzzle::Puzzle* const puzzle : puzzles_of(collection, study, point)) {
    if (puzzle->position != position) continue;
    for (const puzzle::Try& tried : puzzle->tries) {
      add(wrong, numbered(position, tried.move),
          numbered_line(position, joined(tried.move, tried.refutation), shown_plies) + " (" +
              score_text(from_white(tried.score, position.side_to_move())) + ")");
    }
  }
  return wrong;
}

std::string answers(const TurningPoint& point) {
  const bool asks_of_move = point.lead().kind == study::Kind::trap;  // "may White play ...?"
  std::string html;
  for (const ShownLine& line : shown_lines(point)) {
    if (!line.answer) continue;
    html += std::string("<p>Answer: ") + (asks_of_move ? "no; best is " : "") + "<strong>" +
            escaped(line.text) + "</strong> (" + escaped(line.score) + ")</p>";
  }
  return html;
}

std::string point_html(const Collection& collection, const study::Study& study,
                       const TurningPoint& point) {
  const study::Moment& moment = point.lead();
  std::string html = "<section class=\"moment\"><div>" +
                     diagram(moment.position, marks_of(study, point)) + "</div><div><h3>" +
                     place_title(moment) + spent_words(study, point) + "</h3><p class=\"ask\">" +
                     escaped(question_of(point)) + "</p>" + answers(point) + "<p class=\"said\">" +
                     escaped(text_of(study, point)) + "</p>";
  const std::vector<Wrong> wrong = wrong_answers(collection, study, point);
  if (!wrong.empty()) {
    html += std::string("<p class=\"small\">") +
            (wrong.size() == 1 ? "A wrong answer, and what refutes it:"
                               : "Wrong answers, and what refutes them:") +
            "</p><ul>";
    for (const Wrong& answer : wrong) html += "<li>" + escaped(answer.line) + "</li>";
    html += "</ul>";
  }
  return html + "</div></section>\n";
}

// Its own page when printed.
std::string game(const Collection& collection, const study::Study& study) {
  const study::GameFacts& facts = study.facts;
  const std::vector<TurningPoint> points = turning_points(study);
  std::string html = "<section class=\"game\" id=\"" + game_anchor(facts) + "\">\n<h2>" +
                     escaped(players_text(facts)) + ", " + escaped(facts.result) + "</h2>\n";
  html += "<p class=\"small\">" + escaped(occasion_text(facts)) + "</p>\n" +
          story_html(collection.facts(), study, points);
  for (const TurningPoint& point : points) html += point_html(collection, study, point);
  return html + "</section>\n";
}

}  // namespace

base::Status write_recap(const Collection& collection, base::ByteSink& sink) {
  std::string html = page_begin("Kairos: recap", "recap");
  html +=
      "<header>\n<h1>Recap, to speak from</h1>\n<p class=\"screen\"><a href=\"report.html\">The "
      "report</a>, <a href=\"stage.html\">the questions alone, for a screen that others "
      "see</a></p>\n</header>\n<main>\n" +
      (collection.size() > 0 ? diagram_key() : "");
  if (base::Status status = sink.write(html); !status) return status;
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    if (turning_points(study).empty()) continue;
    if (base::Status status = sink.write(game(collection, study)); !status) return status;
  }
  return sink.write("</main>\n" + page_end(collection.facts()));
}

}  // namespace kairos::report
