// report.html: a book. Event and players, the games in a table, puzzles; then every game with its
// story, its graph and its turning points; at the end how it was made: what was read and searched.
//
// One file that needs nothing else. Everything is written as it is made and games are loaded anew
// for each part; only the counts of players are kept. Browsers lay out an <article> when
// it comes into view (content-visibility), so hundreds of games open at once.
#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"

#include "html_bar.hpp"
#include "html_diagram.hpp"
#include "html_game.hpp"
#include "html_graph.hpp"
#include "html_habits.hpp"
#include "html_page.hpp"
#include "html_play.hpp"
#include "html_puzzle.hpp"
#include "html_title.hpp"
#include "labels.hpp"
#include "phrases.hpp"
#include "players.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// As many diagrams as one looks at before scrolling on; the rest stands in questions.html.
constexpr std::size_t best_puzzles = 12;
// A handful of faults is read, a hundred are in the way: more are folded away.
constexpr std::size_t faults_in_sight = 6;

std::string count_row(std::string_view term, std::uint64_t count) {
  return "<dt>" + escaped(term) + "</dt><dd>" + base::grouped(count) + "</dd>";
}

std::string faults_list(const RunFacts& facts) {
  if (facts.faults.empty()) return "";
  std::string list = "<ul>";
  for (const base::Fault& fault : facts.faults) {
    list += "<li>" + escaped(base::isolated(base::describe(fault))) + "</li>";
  }
  list += "</ul>\n";
  if (facts.faults.size() <= faults_in_sight) return list;
  const bool all = facts.faults.back().code != base::Code::more_faults;
  return folded((all ? "" : "More than ") + base::grouped(facts.faults.size() - (all ? 0 : 1)) +
                    " faults in the input",
                list);
}

// Work left undone is told before anything that rests on what was done.
std::string undone(const RunFacts& facts) {
  std::string html;
  if (facts.games_open > 0) {
    html += "<p class=\"warn\">Not done: " + base::counted(facts.games_open, "game") +
            " had not been looked at when the time was up.</p>\n";
  }
  if (facts.candidates_open > 0) {
    html += "<p class=\"warn\">Not done: " + base::counted(facts.candidates_open, "place") +
            " where a moment may be had not been verified when the time was up.</p>\n";
  }
  return html;
}

std::string skipped_line(const RunFacts& facts) {
  if (facts.games_skipped == 0) return "";
  return "<p class=\"small\"><a href=\"#input\">" + base::counted(facts.games_skipped, "game") +
         " skipped</a>, with why, at the end.</p>\n";
}

std::string input_section(const RunFacts& facts) {
  std::string html =
      "<section id=\"input\">\n<h2>Read, skipped and searched</h2>\n<dl class=\"facts\">";
  html += count_row("Games in the input", facts.games_in_input);
  html += count_row("Read", facts.games_in_input - facts.games_skipped);
  html += count_row("Skipped", facts.games_skipped);
  if (!facts.player.empty())
    html += "<dt>Player</dt><dd>" + escaped(base::isolated(facts.player)) + "</dd>";
  if (!facts.settings.empty())
    html += "<dt>Effort</dt><dd>" + escaped(base::stripped(facts.settings)) + "</dd>";
  html += count_row("Positions searched, without proofs", facts.nodes) + "</dl>\n";
  return html + faults_list(facts) + "</section>\n";
}

// Links to the point itself, so that the table is the way into the report.
std::string decisive_cell(const study::Study& study, const std::vector<TurningPoint>& points) {
  const TurningPoint* const point = decisive_point(points);
  if (point == nullptr) return "&ndash;";
  const study::Moment& moment = point->lead();
  std::string text = numbered(moment.position, move_in_question(moment));
  text += (text.empty() ? "" : ", ") + std::string(words(moment.kind));
  if (tells_fall(moment)) {
    const Fall fall = fall_of(moment);
    text += ", " + percent(fall.from) + " to " + percent(fall.to);
  }
  return "<a href=\"#" + point_anchor(study, *point) + "\">" + escaped(text) + "</a>";
}

std::string game_row(const study::Study& study) {
  const study::GameFacts& facts = study.facts;
  const std::vector<TurningPoint> points = turning_points(study);
  return "<tr>" + cell("No", std::to_string(facts.number), "n") +
         cell("",
              "<a href=\"#" + game_anchor(facts) + "\">" + escaped(players_text(facts)) + "</a>",
              "name") +
         cell("Result", escaped(facts.result)) +
         cell("Turning points", std::to_string(points.size()), "n") +
         cell("Decisive", decisive_cell(study, points)) + "</tr>\n";
}

// One game is no sample: it has no interval.
bool has_interval(const PlayerErrors& player) {
  return player.games > 1;
}

// "3 (12 % to 60 %)".
std::string games_with_error(const PlayerErrors& player) {
  const std::string count = base::grouped(player.games_with_error);
  if (!has_interval(player)) return count;
  const base::Interval interval = player.interval();
  return count + " (" + percent(interval.low) + " to " + percent(interval.high) + ")";
}

std::string player_row(const PlayerErrors& player) {
  return "<tr>" + cell("", escaped(player.name), "name") +
         cell("Games", base::grouped(player.games), "n") +
         cell("Moves", base::grouped(player.moves), "n") +
         cell("Errors", base::grouped(player.errors), "n") +
         cell("Games with an error", games_with_error(player)) + "<td class=\"wide\">" +
         (has_interval(player)
              ? interval_bar(player.games_with_error, player.games, player.interval())
              : "") +
         "</td></tr>\n";
}

base::Status write_players(const PlayerCount& count, std::string_view player_named,
                           base::ByteSink& sink) {
  auto written = sink.write(
      "<section id=\"players\">\n<h2>Errors by player</h2>\n<p class=\"small\">An error is a "
      "swing: "
      "a move that cost at least the set part of the expected score. Moves of one game hang "
      "together, so the interval (95 %, Wilson) is that of the share of games with an error; one "
      "game has none. Few games tell little: look at the width.</p>\n<table "
      "class=\"cards\"><thead><tr><th>Player</th>"
      "<th class=\"n\">Games</th><th class=\"n\">Moves</th><th class=\"n\">Errors</th>"
      "<th>Games with an error</th><th>0 to 100 %</th></tr></thead><tbody>\n");
  for (const PlayerErrors& player : count.listed(spellings(player_named))) {
    if (written) written = sink.write(player_row(player));
  }
  return written ? sink.write("</tbody></table>\n</section>\n") : written;
}

// An item where the game ended early; "" for nearly all games.
std::string early_items(const study::Study& study) {
  std::string html;
  for (const TurningPoint& point : turning_points(study)) {
    const study::Moment* const moment = point.find(study::Kind::ended_early);
    if (moment == nullptr) continue;
    html += "<li><a href=\"#" + point_anchor(study, point) + "\">" +
            escaped(players_text(study.facts)) + "</a>, " + escaped(study.facts.result) + ": " +
            escaped(gist_of(study, point)) + "</li>\n";
  }
  return html;
}

std::string why_nots_link(const Collection& collection) {
  const std::size_t count = collection.why_nots().size();
  if (count == 0) return "";
  return "<p><a href=\"questions.html#why-not\">Why not?</a> " + base::counted(count, "move") +
         " that tempted and " + (count == 1 ? "was" : "were") + " not played.</p>\n";
}

// The first of the set, which is arranged best first; links lead to the page that asks them.
std::string puzzles_section(const Collection& collection) {
  const auto& puzzles = collection.puzzles();
  const std::string end = why_nots_link(collection) + "</section>\n";
  std::string html = "<section id=\"puzzles\">\n<h2>The best puzzles</h2>\n";
  if (puzzles.empty()) return html + "<p>None held against every check.</p>\n" + end;
  const int level = collection.facts().level;
  html += "<p>" + level_words(level) + " " + std::to_string(puzzles.size()) +
          " in all<span class=\"screen\">: <a href=\"questions.html\">to ask</a>, <a "
          "href=\"stage.html\">to show</a>, <a href=\"sheet.html\">to "
          "print</a></span>.</p>\n<ul class=\"thumbs\">\n";
  for (std::size_t i = 0; i < std::min(best_puzzles, puzzles.size()); ++i) {
    html += "<li><a href=\"questions.html#" + escaped(id_of(puzzles[i])) + "\">Puzzle " +
            std::to_string(i + 1) + "</a>" + puzzle_diagram(puzzles[i]) + "<p class=\"small\">" +
            task_of(puzzles[i]) + ": " + escaped(choice_words(puzzles[i], level)) + "</p></li>\n";
  }
  return html + "</ul>\n" + end;
}

// What the front page needs to know of all games before it is written: no text of each, for there
// may be many.
struct Overview {
  Title title;
  PlayerCount players;
  bool has_points = false;
  std::vector<std::size_t> early;  // the games that ended early
};

Overview look_over(const Collection& collection) {
  Overview overview;
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    if (!early_items(study).empty()) overview.early.push_back(i);
    overview.title.add(study);
    overview.players.add(study);
    overview.has_points = overview.has_points || !turning_points(study).empty();
  }
  return overview;
}

std::string navigation(const Collection& collection) {
  const std::string habits =
      collection.habits() == nullptr ? "" : "<li><a href=\"#habits\">Habits</a></li>";
  return "<nav aria-label=\"Parts of the report\"><ul><li><a href=\"#games\">Games</a></li>" +
         habits +
         "<li><a href=\"#puzzles\">Puzzles</a></li><li><a href=\"#players\">Players</a></li><li><a "
         "href=\"#early\">Ended early</a></li><li><a href=\"#input\">Read and searched</a></li><li>"
         "<a href=\"recap.html\">Recap</a></li></ul></nav>\n";
}

base::Status write_games_table(const Collection& collection, base::ByteSink& sink) {
  auto written = sink.write(
      "<section id=\"games\">\n<h2>The games and where they turned</h2>\n<table "
      "class=\"cards\"><thead><tr><th class=\"n\">No</th><th>White &ndash; Black</th><th>Result"
      "</th><th class=\"n\">Turning points</th><th>The decisive one</th></tr></thead><tbody>\n");
  for (std::size_t i = 0; i < collection.size() && written; ++i) {
    written = sink.write(game_row(collection.load(i)));
  }
  return written ? sink.write("</tbody></table>\n</section>\n") : written;
}

base::Status write_early(const Collection& collection, const std::vector<std::size_t>& games,
                         base::ByteSink& sink) {
  auto written = sink.write("<section id=\"early\">\n<h2>Ended early</h2>\n");
  if (written && games.empty()) written = sink.write("<p>No game that should have gone on.</p>\n");
  if (written && !games.empty()) written = sink.write("<ul>\n");
  for (const std::size_t i : games) {
    if (written) written = sink.write(early_items(collection.load(i)));
  }
  if (written && !games.empty()) written = sink.write("</ul>\n");
  return written ? sink.write("</section>\n") : written;
}

base::Status write_front(const Collection& collection, base::ByteSink& sink) {
  const RunFacts& facts = collection.facts();
  const Overview overview = look_over(collection);
  std::string html = page_begin("Kairos: the turning points", "report", play_style());
  html += "<header>\n" + overview.title.html(overview.players);
  if (!facts.player.empty()) html += "<p>Of " + escaped(base::isolated(facts.player)) + ".</p>\n";
  html += undone(facts) + skipped_line(facts) + navigation(collection) + "</header>\n" +
          std::string(play_script()) + "<main>\n";
  auto written = sink.write(html);
  if (written) written = write_games_table(collection, sink);
  html = collection.habits() == nullptr ? "" : habits_section(*collection.habits());
  if (written) written = sink.write(html + puzzles_section(collection));
  if (written) written = write_players(overview.players, facts.player, sink);
  if (written) written = write_early(collection, overview.early, sink);
  return written && overview.has_points ? sink.write(diagram_key()) : written;
}

}  // namespace

base::Status write_html(const Collection& collection, base::ByteSink& sink) {
  if (base::Status status = write_front(collection, sink); !status) return status;
  for (std::size_t i = 0; i < collection.size(); ++i) {
    if (base::Status status = sink.write(game_article(collection, i)); !status) return status;
  }
  return sink.write(input_section(collection.facts()) + "</main>\n" + page_end(collection.facts()));
}

}  // namespace kairos::report
