// player.txt. Entries of one list are numbered; each has its game, its board and beside it the
// text, as in report.txt.
#include <algorithm>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/habits.hpp"
#include "kairos/report/text_layout.hpp"

#include "player_prose.hpp"
#include "text_game.hpp"
#include "text_page.hpp"

namespace kairos::report {

namespace {

std::string opening(const PlayerPage& page) {
  std::string text;
  append(text,
         wrapped(std::string(text_mark) + base::stripped(page.version) + ": " + heading_name(page),
                 page_width));
  text += "\n";
  for (const std::string& words : {other_names_words(page), counts_words(page.season),
                                   open_words(page.season), preparation_words(page)}) {
    if (!words.empty()) append(text, wrapped(words, page_width, "  "));
  }
  for (const std::string& effort : page.efforts) {
    append(text, wrapped("Effort: " + base::stripped(effort) + ".", page_width, "  "));
  }
  return text;
}

std::string entry_text(const ToldEntry& entry, std::size_t number) {
  std::string text;
  const std::string first = std::to_string(number) + ". ";
  const std::string clock = entry.clock.empty() ? "" : ", " + entry.clock;
  append(text, wrapped(entry.title + clock, page_width, first));
  append(text, wrapped(entry.game, page_width, std::string(first.size(), ' ')));
  if (entry.above.empty()) {
    append(text, point_rows(entry.point, entry.text));
  } else {
    const std::string words = entry.text + " More above: " + entry.above + ".";
    append(text, board_beside(entry.point, wrapped(words, beside_board)));
  }
  return text + "\n";
}

std::string list_text(const ToldList& list) {
  std::string text = text_heading(capitals(list.title));
  append(text, wrapped(list.meaning, page_width));
  text += "\n";
  for (std::size_t i = 0; i < list.entries.size(); ++i) {
    text += entry_text(list.entries[i], i + 1);
  }
  text.pop_back();  // the next heading has an empty row before it
  return text;
}

std::string period_row(std::string_view period, std::string_view games, std::string_view score,
                       std::string_view swings, std::string_view share) {
  constexpr std::size_t games_width = 5, score_width = 12, swings_width = 6, share_width = 22;
  constexpr std::size_t taken = games_width + score_width + swings_width + share_width + 8;
  std::string row = fitted(period, page_width - taken) + "  " + fitted_right(games, games_width) +
                    "  " + fitted_right(score, score_width) + "  " +
                    fitted_right(swings, swings_width) + "  " + fitted(share, share_width);
  row.erase(row.find_last_not_of(' ') + 1);
  return row + "\n";
}

std::string periods_text(const std::vector<habits::Period>& periods) {
  if (periods.empty()) return "";
  std::string text = text_heading("OVER TIME");
  append(text, wrapped(periods_meaning, page_width));
  text += "\n" + period_row("When", "Games", "Score", "Swings", "Games with a swing");
  for (const habits::Period& period : periods) {
    text += period_row(period_words(period), base::grouped(period.games), score_words(period),
                       base::grouped(period.swings), share_words(period));
  }
  return text;
}

std::string clock_row(std::string_view label, std::string_view one, std::string_view other) {
  constexpr std::size_t label_width = 22, width = 27;
  std::string row =
      fitted(label, label_width) + "  " + fitted(one, width) + "  " + fitted(other, width);
  row.erase(row.find_last_not_of(' ') + 1);
  return row + "\n";
}

std::string thinks_text(const habits::Season& season) {
  if (season.long_thinks.entries.empty()) return "";
  std::string text = "\n" + std::string(thinks_title) + "\n\n";
  append(text, wrapped(thinks_meaning(season), page_width));
  text += "\n";
  for (const ToldThink& think : told_thinks(season)) {
    append(text, wrapped(think.text + " " + think.game + ".", page_width, "* "));
  }
  return text;
}

std::string clock_text(const PlayerPage& page) {
  const habits::Clock& clock = page.season.clock;
  if (clock.games == 0) return "";
  std::string text = text_heading("THE CLOCK");
  append(text, wrapped(clock_meaning(page), page_width));
  text += "\n" + clock_row("Left before the move", "Errors", "");
  for (const habits::TimeBand& band : clock.by_left) {
    text += clock_row(band_words(band), errors_words(band.all(), clock.games), "");
  }
  text += "\n" + clock_row("Taken for the move", "Only one move is good", "Several are good");
  for (const habits::TimeBand& band : clock.by_spent) {
    text += clock_row(band_words(band), errors_words(band.one_good, clock.games),
                      errors_words(band.several_good, clock.games));
  }
  return text + thinks_text(page.season);
}

std::string coming_back_text(const PlayerPage& page) {
  std::string text = text_heading("WHAT KEEPS COMING BACK");
  text += habits_text(page.habits, opponent_name(page));
  text.pop_back();  // ends with an empty row
  return text;
}

}  // namespace

bool is_player_text(std::string_view text, const std::vector<std::string>& names) {
  const std::string head = text_head(text);
  return !head.empty() && std::ranges::any_of(names, [&head](const std::string& known) {
    PlayerPage page;
    page.names = {known};
    return without_blanks(heading_name(page)) == head;
  });
}

base::Status write_player_text(const PlayerPage& page, base::ByteSink& sink) {
  std::string text = opening(page);
  if (page.for_opponent) text += coming_back_text(page);
  for (const ToldList& list : told_lists(page.season)) {
    if (base::Status status = sink.write(text); !status) return status;
    text = list_text(list);
  }
  if (const std::string none = empty_lists_words(page.season); !none.empty()) {
    text += "\n";
    append(text, wrapped(none, page_width));
  }
  text += periods_text(page.season.periods) + clock_text(page);
  if (!page.for_opponent) text += coming_back_text(page);
  text += text_heading(capitals(std::string(training_title(page))));
  append(text, wrapped(training_words(page), page_width));
  return sink.write(text + text_closing());
}

}  // namespace kairos::report
