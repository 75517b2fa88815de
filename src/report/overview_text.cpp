// players.txt. A player's figures fill one row; what has no fixed width follows in the next.
#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/text_layout.hpp"

#include "overview_prose.hpp"
#include "text_page.hpp"

namespace kairos::report {

namespace {

constexpr std::size_t games_width = 6, decisions_width = 11, errors_width = 8, held_width = 10,
                      compared_width = 21;
constexpr std::size_t name_width =
    page_width - games_width - decisions_width - errors_width - held_width - compared_width;

std::string figures_row(const OverviewCells& cells) {
  return fitted(cells.name, name_width) + fitted_right(cells.games, games_width) +
         fitted_right(cells.decisions, decisions_width) + fitted_right(cells.errors, errors_width) +
         fitted_right(cells.held_against, held_width) +
         fitted_right(cells.compared, compared_width);
}

// A name that is longer than its column has a row of its own.
std::string row_text(const OverviewRow& row) {
  OverviewCells cells = cells_of(row);
  std::string text, more;
  if (base::character_count(cells.name) > name_width) {
    append(text, wrapped(cells.name, page_width));
    cells.name.clear();
  }
  append(text, {figures_row(cells)});
  if (!cells.rating.empty()) more = std::string(rating_title) + ": " + cells.rating + ". ";
  more += std::string(more_wrong_title) + ": " + cells.habits + ".";
  append(text, wrapped(more, page_width, "    "));
  if (!row.folder.empty()) append(text, wrapped(row.folder + "/player.txt", page_width, "    "));
  return text;
}

}  // namespace

base::Status write_overview_text(const Overview& overview, base::ByteSink& sink) {
  std::string text;
  append(text, wrapped(std::string(text_mark) + base::stripped(overview.version) + ": " +
                           overview_title(overview),
                       page_width));
  text += "\n";
  for (const std::string& effort : overview.efforts) {
    append(text, wrapped("Effort: " + base::stripped(effort) + ".", page_width, "  "));
  }
  for (const std::string& words : {left_out_words(overview), unrated_words(overview)}) {
    if (!words.empty()) append(text, wrapped(words, page_width, "  "));
  }
  text += "\n";
  append(text, wrapped(overview_meaning(overview), page_width));
  const OverviewHeads heads = heads_of(overview);
  text += "\n";
  append(text, {figures_row({.name = "Player",
                             .games = "Games",
                             .decisions = "Decisions",
                             .errors = "Errors",
                             .held_against = heads.held_against,
                             .compared = heads.compared,
                             .rating = "",
                             .habits = ""}),
                rule_row('-')});
  for (const OverviewRow& row : overview.rows) text += row_text(row);
  return sink.write(text + text_closing());
}

bool is_overview_text(std::string_view text) {
  const std::string head = text_head(text);
  const auto digits = head.find_first_not_of("0123456789,");
  if (digits == 0 || digits == std::string::npos) return false;
  return head.substr(digits) == "players" || head.substr(digits) == "player";
}

}  // namespace kairos::report
