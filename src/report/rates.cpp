#include "kairos/report/rates.hpp"

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/text_layout.hpp"

#include "labels.hpp"

namespace kairos::report {

namespace {

constexpr std::size_t name_width = 28, count_width = 10, mean_width = 17;
constexpr double percent = 100;

// "0.12 +-0.03"; one game tells nothing of the spread.
std::string mean_text(const habits::MeanByGame& mean, double unit, int places, bool one_game) {
  std::string text = base::fixed(mean.mean() * unit, places);
  if (!one_game) text += " \u00b1" + base::fixed(mean.margin() * unit, places);
  return fitted_right(text, mean_width);
}

std::string row_of(const habits::PlayerRates& player) {
  const bool one_game = player.games == 1;
  return fitted(player_text(player.name), name_width) +
         fitted_right(base::grouped(player.games), count_width - 3) +
         fitted_right(base::grouped(player.decisions), count_width) +
         mean_text(player.loss, 1, 3, one_game) + mean_text(player.blunders, percent, 1, one_game) +
         mean_text(player.errors, percent, 1, one_game);
}

std::string heading_row() {
  return fitted("Player", name_width) + fitted_right("games", count_width - 3) +
         fitted_right("decisions", count_width) + fitted_right("mean loss", mean_width) +
         fitted_right("blunders/100", mean_width) + fitted_right("errors/100", mean_width);
}

std::string explanation(const habits::RateRule& rule) {
  return "Counted from move " + base::number(rule.first_move) +
         " on, where there is a choice and not both the best move and the one played are beyond " +
         base::fixed(rule.decided / 100.0, 2) +
         " pawns. Mean loss: pawns that a move gives away against the best. Blunder: it gives away "
         "more than " +
         base::fixed(rule.blunder / 100.0, 2) +
         " pawns; error: " + base::fixed(rule.error_cost, 2) +
         " of the expectation or more. By the survey of each game; \u00b1 is the 95 % interval "
         "over games.";
}

base::Json json_of(const habits::MeanByGame& mean) {
  base::Json json = base::Json::object();
  json.add("mean", mean.mean()).add("margin", mean.margin());
  return json;
}

}  // namespace

std::string rates_text(const std::vector<habits::PlayerRates>& players,
                       const habits::RateRule& rule) {
  if (players.empty()) return "No decision that counts was found.\n\n";
  std::string text;
  append(text, {heading_row(), rule_row('-')});
  for (const habits::PlayerRates& player : players) append(text, {row_of(player)});
  text += "\n";
  append(text, wrapped(explanation(rule), page_width));
  return text + "\n";
}

std::string rates_json(const std::vector<habits::PlayerRates>& players) {
  base::Json list = base::Json::array();
  for (const habits::PlayerRates& player : players) {
    base::Json json = base::Json::object();
    json.add("player", player.name).add("games", player.games).add("decisions", player.decisions);
    json.add("mean_loss", json_of(player.loss)).add("blunder_rate", json_of(player.blunders));
    json.add("error_rate", json_of(player.errors)).add("first_choice", json_of(player.best));
    list.push(std::move(json));
  }
  base::Json json = base::Json::object();
  json.add("version", 1).add("players", std::move(list));
  return base::to_json(json);
}

}  // namespace kairos::report
