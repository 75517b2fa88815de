#include "html_title.hpp"

#include <algorithm>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/turning_points.hpp"

#include "html_page.hpp"
#include "labels.hpp"

namespace kairos::report {

namespace {

// More names are no heading; the table has them all.
constexpr std::size_t most_names = 16;

// "2024.09.06", with no part unknown: such days stand in their order as texts do.
bool is_day(std::string_view date) {
  return date.size() == 10 && date.find_first_not_of("0123456789.") == std::string_view::npos;
}

bool is_named(std::string_view event) {
  return event.find_first_not_of("?.- ") != std::string_view::npos;
}

std::string players_line(const PlayerCount& players) {
  if (players.size() == 0) return "";
  const std::string end = "<a class=\"screen\" href=\"#players\">Their errors</a></p>\n";
  if (players.size() > most_names) {
    return "<p>" + base::counted(players.size(), "player") + ". " + end;
  }
  return "<p>" + escaped(base::join(players.names(), "; ")) + ". " + end;
}

}  // namespace

void Title::add(const study::Study& study) {
  const study::GameFacts& facts = study.facts;
  if (games_ == 0) first_ = facts;
  one_event_ = one_event_ && facts.event == first_.event;
  ++games_;
  points_ += turning_points(study).size();
  if (!is_day(facts.date)) return;
  if (from_.empty() || facts.date < from_) from_ = facts.date;
  to_ = std::max(to_, facts.date);
}

std::string Title::heading() const {
  if (games_ == 1) return players_text(first_) + ", " + base::isolated(first_.result);
  if (games_ > 1 && one_event_ && is_named(first_.event)) return base::isolated(first_.event);
  return base::counted(games_, "game");
}

std::string Title::html(const PlayerCount& players) const {
  const std::string counts =
      base::counted(games_, "game") + ", " + base::counted(points_, "turning point") + ".";
  std::string when = from_.empty() || from_ == to_ ? from_ : from_ + " to " + to_;
  if (games_ == 1) when = occasion_text(first_);
  return "<h1>" + escaped(heading()) + "</h1>\n<p>" +
         escaped((when.empty() ? "" : when + ". ") + counts) + "</p>\n" +
         (games_ == 1 ? "" : players_line(players));
}

}  // namespace kairos::report
