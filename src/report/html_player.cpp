// player.html: the counts, the lists of single decisions, the periods in a table, the habits, the
// puzzles with their solutions folded away. Everything is on the page; nothing leads elsewhere.
#include <algorithm>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"

#include "html_bar.hpp"
#include "html_diagram.hpp"
#include "html_game.hpp"
#include "html_habits.hpp"
#include "html_page.hpp"
#include "html_puzzle.hpp"
#include "labels.hpp"
#include "player_prose.hpp"

namespace kairos::report {

namespace {

// As many diagrams as one looks at; the file beside the page has all puzzles.
constexpr std::size_t most_shown = 12;

constexpr std::string_view own_style = R"css(
.player h3 a{color:inherit}
.player .moment.short{grid-template-columns:minmax(0,10rem) minmax(0,1fr)}
.player .thumbs{grid-template-columns:repeat(auto-fill,minmax(10rem,1fr))}
.player .solutions{display:none}
.player #clock table{margin:.8em 0 1.4em}
@media (min-width:40.1rem){.player #clock th,.player #clock td{width:33%}}
@media (max-width:40rem){.player .moment.short{grid-template-columns:minmax(0,7rem) minmax(0,1fr)}}
@media print{.player .moment.short{grid-template-columns:4cm 1fr}
.player .thumbs{grid-template-columns:repeat(3,1fr)}.player .thumbs details{display:none}
.player .solutions{display:block;break-before:auto}}
)css";

std::string row(std::string_view term, std::string_view words) {
  return "<dt>" + escaped(term) + "</dt><dd>" + escaped(words) + "</dd>";
}

// Escaped text with its "->" as a real arrow.
std::string arrowed(std::string text) {
  constexpr std::string_view plain = "-&gt;";
  const auto at = text.find(plain);
  return at == std::string::npos ? text : text.replace(at, plain.size(), "&rarr;");
}

// The lines that show what the text says, and what they changed.
std::string lines_html(const TurningPoint& point) {
  std::string html = "<dl class=\"facts\">";
  for (const ShownLine& line : shown_lines(point)) {
    html += row(line.label, line.text + (line.score.empty() ? "" : " (" + line.score + ")"));
  }
  return html + "<dt>Worth</dt><dd>" + arrowed(escaped(change_text(point))) + "</dd></dl>";
}

std::string entry_html(const ToldEntry& entry, std::size_t number) {
  const bool in_full = entry.above.empty();
  std::string html = "<section class=\"moment";
  html += std::string(in_full ? "" : " short") + "\" id=\"" + entry.anchor + "\"><div>" +
          diagram(entry.point.lead().position, marks_of(*entry.study, entry.point)) +
          "</div><div><h3>" + std::to_string(number) + ". " + escaped(entry.title);
  if (!entry.clock.empty()) html += " <span class=\"small\">" + escaped(entry.clock) + "</span>";
  html += "</h3>" + paragraph(entry.game, "small") + paragraph(entry.text, "said");
  if (in_full) {
    html += lines_html(entry.point);
  } else {
    html += "<p class=\"small\">More above: <a href=\"#" + entry.above_anchor + "\">" +
            escaped(entry.above) + "</a></p>\n";
  }
  return html + "</div></section>\n";
}

base::Status write_list(const ToldList& list, base::ByteSink& sink) {
  auto written = sink.write("<section id=\"" + list.anchor + "\">\n<h2>" + escaped(list.title) +
                            "</h2>\n" + paragraph(list.meaning, "small"));
  for (std::size_t i = 0; i < list.entries.size() && written; ++i) {
    written = sink.write(entry_html(list.entries[i], i + 1));
  }
  return written ? sink.write("</section>\n") : written;
}

// No interval, and no bar, of a single game.
std::string period_row(const habits::Period& period) {
  const std::string bar =
      period.games < 2 ? ""
                       : interval_bar(period.games_with_swing, period.games, period.interval());
  return "<tr>" + cell("", escaped(period_words(period)), "name") +
         cell("Games", base::grouped(period.games), "n") +
         cell("Score", escaped(score_words(period)), "n") +
         cell("Swings", base::grouped(period.swings), "n") +
         cell("Games with a swing", escaped(share_words(period)), "share") + "<td class=\"wide\">" +
         bar + "</td></tr>\n";
}

std::string periods_section(const std::vector<habits::Period>& periods) {
  if (periods.empty()) return "";
  std::string html = "<section id=\"time\">\n<h2>Over time</h2>\n";
  html += paragraph(periods_meaning, "small");
  html +=
      "<table class=\"cards\"><thead><tr><th>When</th><th class=\"n\">Games</th><th "
      "class=\"n\">Score</th><th class=\"n\">Swings</th><th>Games with a swing</th><th>0 to 100 "
      "%</th></tr></thead><tbody>\n";
  for (const habits::Period& period : periods) html += period_row(period);
  return html + "</tbody></table>\n</section>\n";
}

std::string clock_table(std::string_view head, const std::vector<std::string>& columns,
                        const std::vector<std::vector<std::string>>& rows) {
  std::string html = "<table class=\"cards\"><thead><tr><th>" + std::string(head) + "</th>";
  for (const std::string& column : columns) html += "<th>" + column + "</th>";
  html += "</tr></thead><tbody>\n";
  for (const std::vector<std::string>& row : rows) {
    html += "<tr>" + cell(head, escaped(row.front()), "name");
    for (std::size_t i = 0; i < columns.size(); ++i)
      html += cell(columns[i], escaped(row[i + 1]), "share");
    html += "</tr>\n";
  }
  return html + "</tbody></table>\n";
}

std::string thinks_html(const habits::Season& season) {
  if (season.long_thinks.entries.empty()) return "";
  std::string html = "<h3>" + std::string(thinks_title) + "</h3>\n" +
                     paragraph(thinks_meaning(season), "small") + "<ul class=\"thumbs\">\n";
  for (const ToldThink& think : told_thinks(season)) {
    html += "<li>" + diagram(think.position, {think.last, {}, think.played}) +
            paragraph(think.text) + paragraph(think.game, "small") + "</li>\n";
  }
  return html + "</ul>\n";
}

std::string clock_section(const PlayerPage& page) {
  const habits::Clock& clock = page.season.clock;
  if (clock.games == 0) return "";
  std::vector<std::vector<std::string>> left, spent;
  for (const habits::TimeBand& band : clock.by_left) {
    left.push_back({band_words(band), errors_words(band.all(), clock.games)});
  }
  for (const habits::TimeBand& band : clock.by_spent) {
    spent.push_back({band_words(band), errors_words(band.one_good, clock.games),
                     errors_words(band.several_good, clock.games)});
  }
  return "<section id=\"clock\">\n<h2>The clock</h2>\n" + paragraph(clock_meaning(page), "small") +
         clock_table("Left before the move", {"Errors"}, left) +
         clock_table("Taken for the move",
                     {"Errors where only one move is good", "Errors where several are good"},
                     spent) +
         thinks_html(page.season) + "</section>\n";
}

// On paper no fold opens.
std::string printed_solutions(const std::vector<puzzle::Puzzle>& puzzles, std::size_t shown) {
  std::string html = "<div class=\"solutions\"><h3>Answers</h3><ol>\n";
  for (std::size_t i = 0; i < shown; ++i) {
    html += "<li>" + escaped(solution_words(puzzles[i])) + "</li>\n";
  }
  return html + "</ol></div>\n";
}

std::string training_section(const PlayerPage& page) {
  std::string html =
      "<section id=\"training\">\n<h2>" + std::string(training_title(page)) + "</h2>\n";
  html += paragraph(training_words(page));
  if (page.training.empty()) return html + "</section>\n";
  const std::size_t shown = std::min(most_shown, page.training.size());
  if (shown < page.training.size()) {
    html += paragraph("The first " + std::to_string(shown) + " are shown.", "small");
  }
  html += "<ul class=\"thumbs\">\n";
  for (std::size_t i = 0; i < shown; ++i) {
    const puzzle::Puzzle& puzzle = page.training[i];
    html += "<li id=\"" + escaped(id_of(puzzle)) + "\">" + std::to_string(i + 1) + ". " +
            escaped(task_of(puzzle)) + puzzle_diagram(puzzle) +
            folded("Answer", puzzle_answer(puzzle) +
                                 paragraph(base::isolated(puzzle.game_label) + ".", "small")) +
            "</li>\n";
  }
  return html + "</ul>\n" + printed_solutions(page.training, shown) + "</section>\n";
}

// The puzzles that stand on the page are linked.
std::string habits_html(const PlayerPage& page) {
  std::vector<std::string> shown;
  for (std::size_t i = 0; i < std::min(most_shown, page.training.size()); ++i) {
    shown.push_back(id_of(page.training[i]));
  }
  return habits_section(page.habits, shown, opponent_name(page));
}

std::string navigation(const PlayerPage& page, const std::vector<ToldList>& lists) {
  std::string html = "<nav aria-label=\"Parts of the page\"><ul>";
  const auto add = [&html](std::string_view anchor, std::string_view title) {
    html += "<li><a href=\"#" + std::string(anchor) + "\">" + escaped(title) + "</a></li>";
  };
  if (page.for_opponent) add("habits", "Habits");
  for (const ToldList& list : lists) add(list.anchor, list.title);
  if (!page.season.periods.empty()) add("time", "Over time");
  if (page.season.clock.games > 0) add("clock", "The clock");
  if (!page.for_opponent) add("habits", "Habits");
  add("training", training_title(page));
  return html + "</ul></nav>\n";
}

std::string opening(const PlayerPage& page, const std::vector<ToldList>& lists) {
  std::string html = page_begin("Kairos: " + heading_name(page), "player", own_style);
  html += "<header>\n<h1>" + escaped(heading_name(page)) + "</h1>\n" +
          paragraph(counts_words(page.season)) + paragraph(other_names_words(page), "small") +
          paragraph(open_words(page.season), "warn") + paragraph(preparation_words(page));
  html += navigation(page, lists) + "</header>\n<main>\n";
  if (!lists.empty()) html += diagram_key();
  return html;
}

}  // namespace

base::Status write_player_html(const PlayerPage& page, base::ByteSink& sink) {
  const std::vector<ToldList> lists = told_lists(page.season);
  const std::string coming_back = habits_html(page);
  auto written = sink.write(opening(page, lists) + (page.for_opponent ? coming_back : ""));
  for (const ToldList& list : lists) {
    if (written) written = write_list(list, sink);
  }
  std::string html = paragraph(empty_lists_words(page.season));
  html += periods_section(page.season.periods) + clock_section(page);
  html += (page.for_opponent ? "" : coming_back) + training_section(page);
  for (const std::string& effort : page.efforts) {
    html += paragraph("Effort: " + base::stripped(effort) + ".", "small");
  }
  RunFacts facts;
  facts.version = page.version;
  return written ? sink.write(html + "</main>\n" + page_end(facts)) : written;
}

}  // namespace kairos::report
