// stage.html: questions for an audience, one a screen: the puzzles, then the why-nots, then the
// turning points of the games that are none of these.
//
// The file is a list of questions with folds, and is read as that where no script runs. The script
// (stage_script.cpp) shows one of them at a time and draws its lines from the positions that stand
// with them. Nothing outside the folds says anything of an answer, and the script shows of a fold
// only what it was asked for.
#include "html_stage.hpp"

#include <algorithm>
#include <map>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "html_game.hpp"
#include "html_graph.hpp"
#include "html_line.hpp"
#include "html_page.hpp"
#include "html_puzzle.hpp"
#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// What a question is made of; all but the names of its members is markup.
struct Asked {
  std::string id, kind, diagram, task, from, answer;
  rules::Position position = rules::Position::start();
  rules::Move last, avoided;
  std::string grade;               // of puzzles
  std::vector<std::string> hints;  // of puzzles
};

// The number stands by itself: on the stage the script counts.
std::string heading(const Asked& asked, std::size_t number) {
  return "<h2><span class=\"no\">" + std::to_string(number) + ". </span>" + asked.kind + "</h2>\n";
}

std::string hints_html(const std::vector<std::string>& hints) {
  std::string html;
  for (std::size_t i = hints.size(); i > 0; --i) {
    html = "<details class=\"hint\"><summary>Hint " + std::to_string(i) + "</summary><p>" +
           hints[i - 1] + "</p>" + html + "</details>";
  }
  return html.empty() ? html : html + "\n";
}

std::string question(const Asked& asked, std::size_t number) {
  const bool white = asked.position.side_to_move() == rules::white;
  return "<section class=\"question" + std::string(asked.kind == "Why not" ? " whynot" : "") +
         "\" id=\"" + escaped(asked.id) + "\" data-start=\"" + placement(asked.position) +
         "\" data-side=\"" + (white ? "w" : "b") + "\" data-last=\"" + squares_of(asked.last) +
         "\" data-avoided=\"" + squares_of(asked.avoided) + "\">\n<div class=\"show\">" +
         asked.diagram + "</div>\n<div class=\"text\">\n" + heading(asked, number) +
         "<p class=\"ask\">" + asked.task + "</p>\n" + asked.grade + "<p class=\"small from\">" +
         asked.from + "</p>\n" + hints_html(asked.hints) +
         "<details class=\"answer\"><summary>Answer</summary>\n" + asked.answer +
         "</details>\n<p class=\"fen\"><code>" + escaped(rules::to_fen(asked.position)) +
         "</code></p>\n</div>\n</section>\n";
}

std::string note(std::string_view words) {
  return words.empty() ? "" : "<p>" + escaped(words) + "</p>";
}

// `lines` is markup; what is said before an audience, and then what the speaker alone has.
std::string answer(const std::string& lines, const std::string& said, const std::string& notes) {
  return "<ol class=\"lines\">\n" + lines + "</ol>\n" +
         (said.empty() ? "" : "<p class=\"said\">" + escaped(said) + "</p>\n") +
         "<div class=\"notes\">" + notes + "</div>\n";
}

// The solution, then the tries. A why-not's begin with the move that was not played.
std::string puzzle_lines(const puzzle::Puzzle& puzzle) {
  const rules::Color side = puzzle.position.side_to_move();
  const auto from_shown = [&](std::vector<rules::Move> moves) {
    return puzzle.avoided ? joined(puzzle.avoided, moves) : moves;
  };
  StageLine line;
  line.start = shown_position(puzzle);
  line.label = "Solution";
  line.moves = from_shown(puzzle.line);
  line.asked = asked_of(puzzle).size() + (puzzle.avoided ? 1 : 0);
  line.worth = score_text(from_white(puzzle.score, side));
  std::string html = stage_line(line);
  for (const puzzle::Try& tried : puzzle.tries) {
    line.label = "Try";
    line.moves = from_shown(joined(tried.move, tried.refutation));
    line.asked = 0;
    line.worth = score_text(from_white(tried.score, side));
    line.right = false;
    html += stage_line(line);
  }
  return html;
}

std::string puzzle_notes(const puzzle::Puzzle& puzzle, int level) {
  std::string html = note("Expected: " + difficulty_words(puzzle) + ".");
  html += note("Worth asking: " + choice_words(puzzle, level) + ".");
  if (const auto themes = themes_of(puzzle); !themes.empty()) {
    html += note((themes.size() == 1 ? "Theme: " : "Themes: ") + base::join(themes, ", ") + ".");
  }
  if (puzzle.avoided) {
    return html + note(numbered(puzzle.before, puzzle.avoided) + " was not played in the game.");
  }
  return html + note(puzzle.found ? "It was played in the game." : "It was not played.");
}

Asked asked_of_puzzle(const puzzle::Puzzle& puzzle, const std::string& said, int level) {
  Asked asked;
  asked.id = id_of(puzzle);
  asked.kind = puzzle.avoided ? "Why not" : "Puzzle";
  asked.diagram = puzzle_diagram(puzzle);
  asked.task = escaped(task_of(puzzle) + ".");
  asked.from = escaped(base::isolated(puzzle.game_label));
  asked.position = shown_position(puzzle);
  asked.last = puzzle.last;
  asked.avoided = puzzle.avoided;
  asked.grade = "<p class=\"dots\">" + puzzle_grade(puzzle) + "</p>\n";
  asked.hints = hints_of(puzzle, aim_of(puzzle));
  asked.answer = answer(puzzle_lines(puzzle), said, puzzle_notes(puzzle, level));
  return asked;
}

// The answer first, then what was played and what else tempts.
std::string point_lines(const TurningPoint& point) {
  std::string right, wrong;
  for (const ShownLine& shown : shown_lines(point)) {
    StageLine line;
    line.label = shown.label;
    line.start = point.lead().position;
    line.moves = shown.moves;
    line.moves.resize(std::min(line.moves.size(), shown_plies));
    line.worth = shown.score;
    line.right = shown.answer;
    if (!line.moves.empty()) (line.right ? right : wrong) += stage_line(line);
  }
  return right + wrong;
}

std::string point_notes(const study::Study& study, const TurningPoint& point) {
  const std::string found = find_rate_words(study, point.lead());
  const std::string motif(motif_words(point));
  return note("In the game: " + kinds_words(point) + ".") + note(change_text(point) + ".") +
         (found.empty() ? "" : note("Expected: " + found + ".")) +
         (motif.empty() ? "" : note("Motif: " + motif + "."));
}

Asked asked_of_point(const study::Study& study, const TurningPoint& point) {
  const study::Moment& moment = point.lead();
  const std::string where = occasion_text(study.facts);
  Asked asked;
  asked.id = point_anchor(study, point);
  asked.kind = place_title(moment);
  asked.position = moment.position;
  asked.last = move_before(study, point.ply);
  if (moment.kind == study::Kind::trap) asked.avoided = moment.tempting;  // the question names it
  Marks marks{asked.last, {}};
  marks.avoided = asked.avoided;
  asked.diagram = diagram(moment.position, marks);
  asked.task = escaped(question_of(point));
  // The result would tell who is to be trusted.
  asked.from = escaped(players_text(study.facts) + (where.empty() ? "" : ", " + where));
  asked.answer = answer(point_lines(point), text_of(study, point), point_notes(study, point));
  return asked;
}

// Whether the point is asked as a puzzle or, where a trap leads it, as a why-not.
bool is_asked_else(const Collection& collection, const study::Study& study,
                   const TurningPoint& point) {
  const bool trap = point.lead().kind == study::Kind::trap;
  const auto puzzles = puzzles_of(collection, study, point);
  return std::ranges::any_of(puzzles,
                             [trap](const auto* puzzle) { return trap || !puzzle->avoided; });
}

// What the report says of the place that a puzzle was made of.
std::map<const puzzle::Puzzle*, std::string> told_of(const Collection& collection) {
  std::map<const puzzle::Puzzle*, std::string> told;
  if (collection.puzzles().empty() && collection.why_nots().empty()) return told;
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    for (const TurningPoint& point : turning_points(study)) {
      for (const puzzle::Puzzle* const puzzle : puzzles_of(collection, study, point)) {
        told[puzzle] = puzzle->avoided ? sentence_of(study, *point.find(study::Kind::trap))
                                       : text_of(study, point);
      }
    }
  }
  return told;
}

base::Status write_all(const Collection& collection, base::ByteSink& sink) {
  std::size_t number = 0;
  base::Status status = base::done();
  const auto told = told_of(collection);
  for (const auto* const puzzles : {&collection.puzzles(), &collection.why_nots()}) {
    for (const puzzle::Puzzle& puzzle : *puzzles) {
      const auto found = told.find(&puzzle);
      const Asked asked = asked_of_puzzle(puzzle, found == told.end() ? "" : found->second,
                                          collection.facts().level);
      if (status) status = sink.write(question(asked, ++number));
    }
  }
  for (std::size_t i = 0; i < collection.size() && status; ++i) {
    const study::Study study = collection.load(i);
    for (const TurningPoint& point : turning_points(study)) {
      if (is_asked_else(collection, study, point)) continue;
      if (status) status = sink.write(question(asked_of_point(study, point), ++number));
    }
  }
  if (status && number == 0)
    status = sink.write("<p>There is no question in this collection.</p>\n");
  return status;
}

}  // namespace

base::Status write_stage(const Collection& collection, base::ByteSink& sink) {
  std::string html = page_begin("Kairos: stage", "questions stage", stage_style());
  html +=
      "<header class=\"screen\">\n<h1>Questions for a stage</h1>\n<p><a href=\"report.html\">The "
      "report</a>, <a href=\"recap.html\">the recap, to speak from</a></p>\n</header>\n<main>\n";
  base::Status status = sink.write(html);
  if (status) status = write_all(collection, sink);
  if (!status) return status;
  return sink.write("</main>\n" + std::string(stage_keys()) + std::string(stage_script()) +
                    page_end(collection.facts()));
}

}  // namespace kairos::report
