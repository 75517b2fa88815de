// players.html: one table; on a narrow screen a list. Names lead to the players' own pages, which
// stand in folders beside it.
#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

#include "html_page.hpp"
#include "overview_prose.hpp"

namespace kairos::report {

namespace {

// Where the table is a list its heads are hidden: they must not make the page wider.
constexpr std::string_view own_style = "@media (max-width:40rem){table.cards thead{width:1px}}\n";

std::string name_html(const OverviewRow& row) {
  if (row.folder.empty()) return escaped(row.name);
  return "<a href=\"" + escaped(row.folder) + "/player.html\">" + escaped(row.name) + "</a>";
}

std::string row_html(const OverviewRow& row, const OverviewHeads& heads) {
  const OverviewCells cells = cells_of(row);
  return "<tr>" + cell("", name_html(row), "name") + cell("Games", cells.games, "n") +
         cell("Decisions", cells.decisions, "n") + cell("Errors", cells.errors, "n") +
         cell(heads.held_against, cells.held_against, "n") +
         cell(heads.compared, escaped(cells.compared), "share") +
         cell(rating_title, cells.rating.empty() ? "-" : escaped(cells.rating), "share") +
         cell(more_wrong_title, escaped(cells.habits), "share") + "</tr>\n";
}

std::string head_html(const OverviewHeads& heads) {
  return "<table class=\"cards\"><thead><tr><th>Player</th><th class=\"n\">Games</th><th "
         "class=\"n\">Decisions</th><th class=\"n\">Errors</th><th class=\"n\">" +
         heads.held_against + "</th><th>" + heads.compared + "</th><th>" +
         std::string(rating_title) + "</th><th>" + std::string(more_wrong_title) +
         "</th></tr></thead><tbody>\n";
}

}  // namespace

base::Status write_overview_html(const Overview& overview, base::ByteSink& sink) {
  const OverviewHeads heads = heads_of(overview);
  std::string html = page_begin("Kairos: " + overview_title(overview), "player", own_style);
  html += "<header>\n<h1>" + escaped(overview_title(overview)) + "</h1>\n" +
          paragraph(left_out_words(overview), "warn") +
          paragraph(unrated_words(overview), "small") +
          paragraph(overview_meaning(overview), "small") + "</header>\n<main>\n";
  html += head_html(heads);
  for (const OverviewRow& row : overview.rows) html += row_html(row, heads);
  html += "</tbody></table>\n";
  for (const std::string& effort : overview.efforts) {
    html += paragraph("Effort: " + base::stripped(effort) + ".", "small");
  }
  RunFacts facts;
  facts.version = overview.version;
  return sink.write(html + "</main>\n" + page_end(facts));
}

}  // namespace kairos::report
