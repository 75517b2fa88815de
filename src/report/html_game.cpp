#include "html_game.hpp"

#include <algorithm>
#include <array>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "html_graph.hpp"
#include "html_line.hpp"
#include "html_page.hpp"
#include "html_play.hpp"
#include "html_puzzle.hpp"
#include "labels.hpp"
#include "notes.hpp"
#include "phrases.hpp"
#include "players.hpp"

namespace kairos::report {

namespace {

// Escaped text with its "->" as a real arrow.
std::string arrowed(std::string text) {
  constexpr std::string_view plain = "-&gt;";
  for (std::size_t at = 0; (at = text.find(plain, at)) != std::string::npos;) {
    text.replace(at, plain.size(), "&rarr;");
  }
  return text;
}

// The best lines in full; of other moves the move alone, what refutes them folded away. The lines
// of a hole in the notes start where the game may never have been.
std::string lines_list(const TurningPoint& point, bool own_start = false) {
  const rules::Position& position = point.lead().position;
  std::string html = "<dl class=\"facts\">", refutations;
  for (const ShownLine& line : shown_lines(point)) {
    const std::string score = line.score.empty() ? "" : escaped(" (" + line.score + ")");
    const std::span<const rules::Move> moves = line.moves;
    const auto told = line.answer ? moves : moves.first(std::min<std::size_t>(1, moves.size()));
    html += "<dt>" + escaped(line.label) + "</dt><dd>" + line_html(position, told, own_start) +
            score + "</dd>";
    if (told.size() < moves.size()) {
      refutations +=
          folded("What " + line.move + " runs into", line_html(position, moves, own_start) + score);
    }
  }
  html += "<dt>Worth</dt><dd>" + arrowed(escaped(change_text(point))) + "</dd>";
  return html + "</dl>" + refutations;
}

std::string tries_title(bool why_not, bool one) {
  if (why_not)
    return one ? "An answer to it that fails, and why" : "Answers to it that fail, and why";
  return one ? "A tempting move that fails, and why" : "Tempting moves that fail, and why";
}

// Tries come from the puzzle: a moment has only the move played and the best ones.
std::string puzzle_links(const Collection& collection, const study::Study& study,
                         const TurningPoint& point) {
  std::string html;
  for (const puzzle::Puzzle* const puzzle : puzzles_of(collection, study, point)) {
    const bool why_not(puzzle->avoided);
    if (!puzzle->tries.empty()) {
      html += folded(tries_title(why_not, puzzle->tries.size() == 1), puzzle_tries(*puzzle));
    }
    html += "<p class=\"small screen\"><a href=\"questions.html#" + escaped(id_of(*puzzle)) +
            (why_not ? "\">As a question: why not?</a></p>" : "\">As a puzzle</a></p>");
  }
  return html;
}

std::string point_heading(const study::Study& study, const TurningPoint& point) {
  return "<h3>" + std::to_string(point.number) + ". " + place_title(point.lead()) +
         ": <span class=\"kind\">" + kinds_words(point) + "</span>" + spent_words(study, point) +
         "</h3>";
}

// The board is seen from the side of the player that the report is of, else from White's.
rules::Color below_of(const RunFacts& run, const study::GameFacts& facts) {
  const std::vector<std::string> names = spellings(run.player);
  const auto is_player = [&](const std::string& name) {
    return std::ranges::find(names, base::stripped(name)) != names.end();
  };
  return is_player(facts.black) && !is_player(facts.white) ? rules::black : rules::white;
}

// What the board of the game shows there beside the men (html_play.hpp).
std::string marks_data(const Marks& marks) {
  std::string data;
  const auto add = [&data](std::string_view name, const std::string& squares) {
    if (squares.empty()) return;
    data += " data-" + std::string(name) + "=\"" + squares + "\"";
  };
  add("better", squares_of(marks.better));
  add("played", squares_of(marks.played));
  add("avoided", squares_of(marks.avoided));
  std::vector<std::string> rings;
  for (const rules::Square square : marks.squares) rings.push_back(rules::to_string(square));
  add("rings", base::join(rings, " "));
  return data;
}

// Diagram at the left (or above, on a phone), what there is to say beside it.
std::string point_section(const Collection& collection, const study::Study& study,
                          const TurningPoint& point) {
  const rules::Position& position = point.lead().position;
  const std::string motif(motif_words(point));
  const Marks marks = marks_of(study, point);
  return "<section class=\"moment\" id=\"" + point_anchor(study, point) + "\" data-ply=\"" +
         std::to_string(point.ply) + "\"" + marks_data(marks) + "><div>" +
         diagram(position, marks) + "</div><div>" + point_heading(study, point) +
         "<p class=\"said\">" + escaped(text_of(study, point)) + "</p>" +
         (motif.empty() ? "" : "<p>Motif: " + motif + "</p>") + lines_list(point) +
         puzzle_links(collection, study, point) + "<code>" + escaped(rules::to_fen(position)) +
         "</code></div></section>\n";
}

// Holes stand without diagrams: the notes are the reader's own, and he knows where they are.
std::string notes_section(const study::Study& study, const NotesCheck& notes,
                          const RunFacts& facts) {
  const std::string summary = notes_words(notes, facts);
  if (summary.empty()) return "";
  std::string html = "<section id=\"" + notes_anchor(study.facts) +
                     "\">\n<h3>The player&#39;s notes</h3>\n<p class=\"said\">" + escaped(summary) +
                     "</p>\n";
  if (notes.holes.empty()) return html + "</section>\n";
  html += "<ul>\n";
  for (const study::Moment* const hole : notes.holes) {
    html +=
        "<li>" + escaped(sentence_of(study, *hole)) + lines_list(alone(*hole), true) + "</li>\n";
  }
  return html + "</ul>\n</section>\n";
}

std::string points_html(const Collection& collection, const study::Study& study,
                        const std::vector<TurningPoint>& points) {
  std::string html;
  for (const TurningPoint& point : points) html += point_section(collection, study, point);
  return html;
}

// Of these kinds men are met on the squares later in the line; of the others the squares themselves
// are the point.
bool is_met_later(study::ReasonKind kind) {
  using study::ReasonKind;
  constexpr std::array kinds = {ReasonKind::mates,         ReasonKind::leads_to_mate,
                                ReasonKind::wins_material, ReasonKind::wins_back,
                                ReasonKind::soon_wins,     ReasonKind::draws,
                                ReasonKind::attacks_king,  ReasonKind::opens_king};
  return std::ranges::find(kinds, kind) != kinds.end();
}

// Where what a reason speaks of stands in `position`.
void add_squares(std::vector<rules::Square>& all, const rules::Position& position,
                 const study::Reason& reason) {
  constexpr std::size_t most = 4;
  if (reason.mate_moves > 1) return;  // where a far mate ends is not told
  const bool later = is_met_later(reason.kind);
  const auto add = [&](rules::Square square) {
    const bool known = std::ranges::find(all, square) != all.end();
    const bool seen = !later || position.piece_on(square) != rules::no_piece;
    if (seen && !known && all.size() < most) all.push_back(square);
  };
  if (reason.target != rules::no_square) {
    add(reason.target);
  } else {
    std::ranges::for_each(reason.squares, add);
  }
  std::ranges::for_each(reason.means_squares, add);
}

std::vector<rules::Square> squares_of(const TurningPoint& point) {
  std::vector<rules::Square> squares;
  for (const study::Role role : {study::Role::reply, study::Role::best}) {
    const study::Reason* const reason = told_reason(point, role);
    if (reason != nullptr) add_squares(squares, point.lead().position, *reason);
  }
  return squares;
}

}  // namespace

rules::Move move_before(const study::Study& study, int ply) {
  const auto plies = static_cast<std::size_t>(ply);
  return ply <= 0 || plies > study.moves.size() ? rules::Move{} : study.moves[plies - 1];
}

std::vector<const puzzle::Puzzle*> puzzles_of(const Collection& collection,
                                              const study::Study& study,
                                              const TurningPoint& point) {
  std::vector<const puzzle::Puzzle*> found;
  for (const puzzle::Puzzle& puzzle : collection.puzzles()) {
    const bool here = puzzle.position == point.lead().position;
    if (puzzle.game == study.facts.number && here) found.push_back(&puzzle);
  }
  const study::Moment* const trap = point.find(study::Kind::trap);
  if (trap == nullptr) return found;
  for (const puzzle::Puzzle& why_not : collection.why_nots()) {
    const bool here = why_not.before == trap->position && why_not.avoided == trap->tempting;
    if (why_not.game == study.facts.number && here) found.push_back(&why_not);
  }
  return found;
}

std::string spent_words(const study::Study& study, const TurningPoint& point) {
  const auto ply = static_cast<std::size_t>(std::max(point.ply, 0));
  const int seconds = point.lead().played ? seconds_spent(study, ply) : -1;
  return seconds < 0 ? "" : " <span class=\"small\">after " + duration_text(seconds) + "</span>";
}

Marks marks_of(const study::Study& study, const TurningPoint& point) {
  Marks marks{move_before(study, point.ply), {}};
  marks.squares = squares_of(point);
  marks.better = point.lead().best;
  const study::Moment& moment = point.lead();
  const rules::Move questioned = move_in_question(moment);
  if (questioned == moment.best) return marks;
  if (moment.kind == study::Kind::trap) {
    marks.avoided = questioned;
  } else if (!moment.found) {
    marks.played = questioned;
  }
  return marks;
}

std::string story_html(const RunFacts& facts, const study::Study& study,
                       const std::vector<TurningPoint>& points) {
  const std::string story = story_text(facts, study, points);
  return story.empty() ? "" : "<p class=\"said\">" + escaped(story) + "</p>\n";
}

std::string notes_anchor(const study::GameFacts& facts) {
  return game_anchor(facts) + "-notes";
}

std::string game_article(const Collection& collection, std::size_t index) {
  const study::Study study = collection.load(index);
  const study::GameFacts& facts = study.facts;
  const std::vector<TurningPoint> points = turning_points(study);
  std::string html =
      "<article id=\"" + game_anchor(facts) + "\">\n<h2>" + std::to_string(facts.number) + ". " +
      escaped(player_text(facts.white, facts.white_elo)) + " &ndash; " +
      escaped(player_text(facts.black, facts.black_elo)) + ", " + escaped(facts.result) + "</h2>\n";
  std::string where = occasion_text(facts);
  if (!where.empty()) where += "; ";
  html += "<p class=\"small\">" + escaped(where + "from " + place_text(facts)) +
          ". <a class=\"screen\" href=\"#games\">All games</a></p>\n";
  html += "<div class=\"opening\">\n" + story_html(collection.facts(), study, points) +
          graph(study, points);
  if (!points.empty()) html += graph_legend(study, points);
  html += "</div>\n<div class=\"told\">\n" +
          score_html(study, points, below_of(collection.facts(), facts)) +
          points_html(collection, study, points);
  html += notes_section(study, check_notes(collection.game(index), study), collection.facts());
  if (points.empty()) html += "<p>Nothing to stop at.</p>\n";
  return html + "</div>\n</article>\n";
}

}  // namespace kairos::report
