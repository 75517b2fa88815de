// What the chances of an error are worth on games that they were not fitted on, and the rating from
// moves; or with --rows the decisions themselves, as tests/data/habits/decisions.txt has them:
//
//   kairos_chances_held LEDGERS...
//   kairos_chances_held --rows LEDGERS... > decisions.txt
//
// The head gives each circumstance a letter. Then comes each side of a game, "game" and its rating,
// with a line for each decision: the four chances of the study, what the second best move costs,
// all in thousandths, and the letters of its circumstances.
#include <algorithm>
#include <cmath>
#include <iomanip>
#include <iostream>
#include <map>
#include <random>

#include "kairos/base/text.hpp"
#include "kairos/habits/chances.hpp"
#include "kairos/habits/find.hpp"

#include "rows.hpp"

using namespace kairos;
using base::fixed;

namespace {

struct Sum {
  double decisions = 0, model = 0, expected = 0, errors = 0;

  void add(const habits::Decision& d) {
    ++decisions;
    model += 1 / (1 + std::exp(-habits::log_odds_by_model(d, d.rating)));
    expected += habits::chance_of_error(d);
    errors += d.error ? 1 : 0;
  }
};

void print(const std::string& label, const Sum& s) {
  std::cout << "| " << label << " | " << s.decisions << " | " << s.errors << " | "
            << fixed(s.model, 1) << " | " << fixed(s.expected, 1) << " | "
            << expect::quotient(s.errors, s.model) << " | "
            << expect::quotient(s.errors, s.expected) << " |\n";
}

std::string band_of(int rating) {
  const int low = rating / 200 * 200;
  return base::number(low) + " to " + base::number(low + 199);
}

void print_sums(const expect::Rows& rows) {
  std::cout << "| | decisions | errors | by the model | expected | errors / model | errors / "
               "expected |\n| --- | --- | --- | --- | --- | --- | --- |\n";
  Sum all;
  std::map<std::string, Sum> bands, chances, topics;
  double loss = 0, loss_of_model = 0;
  for (const auto& [d, player, gap] : rows.rows) {
    all.add(d);
    bands["rated " + band_of(d.rating)].add(d);
    const double p = habits::chance_of_error(d);
    const double model = 1 / (1 + std::exp(-habits::log_odds_by_model(d, d.rating)));
    chances["chance from " + fixed(std::floor(p * 20) / 20, 2)].add(d);
    loss -= std::log(d.error ? p : 1 - p);
    loss_of_model -= std::log(d.error ? model : 1 - model);
    for (const habits::TopicId topic : d.topics) {
      if (!rows.topics.all()[topic].is_flaw()) topics[rows.topics.all()[topic].words].add(d);
    }
  }
  for (const auto& [label, sum] : bands) print(label, sum);
  for (const auto& [label, sum] : chances) print(label, sum);
  for (const auto& [label, sum] : topics) {
    if (sum.decisions >= 300) print(label, sum);
  }
  print("all", all);
  const double rate = all.errors / all.decisions;
  std::cout << "log loss " << fixed(loss / all.decisions, 4) << ", by the model "
            << fixed(loss_of_model / all.decisions, 4) << ", of the rate alone "
            << fixed(-rate * std::log(rate) - (1 - rate) * std::log(1 - rate), 4) << "\n";
}

struct Off {
  double players = 0, inside = 0, sum = 0, squares = 0, width = 0, bound = 0;
};

void print(const std::string& label, const Off& o) {
  const double mean = o.sum / o.players;
  std::cout << "| " << label << " | " << o.players << " | " << fixed(mean, 0) << " | "
            << fixed(std::sqrt(std::max(0.0, o.squares / o.players - mean * mean)), 0) << " | "
            << o.inside << " | " << fixed(o.width / o.players, 0) << " | " << o.bound << " |\n";
}

void print_ratings(const expect::Rows& rows, std::size_t least_decisions) {
  std::map<std::string, std::vector<habits::Decision>> players;
  for (const auto& [d, player, gap] : rows.rows) players[player].push_back(d);
  std::map<std::string, Off> bands;
  for (const auto& [player, decisions] : players) {
    if (decisions.size() < least_decisions) continue;
    const auto e = habits::expectation_of(decisions);
    if (!e) continue;
    const double off = e->estimate - e->rating;
    for (const std::string& band : {"rated " + band_of(e->rating), std::string("rated, all")}) {
      Off& o = bands[band];
      ++o.players;
      const int rating = std::clamp(e->rating, 1600, 2800);  // as far as estimates go
      o.inside += e->low <= rating && rating <= e->high ? 1 : 0;
      o.sum += off;
      o.squares += off * off;
      o.width += e->high - e->low;
      o.bound += e->estimate <= 1600 || e->estimate >= 2800 ? 1 : 0;
    }
    std::cerr << player << " " << decisions.size() << " decisions, rated " << e->rating << ": "
              << fixed(e->ratio, 2) << " (" << fixed(e->interval.low, 2) << " to "
              << fixed(e->interval.high, 2) << "), " << e->estimate << " (" << e->low << " to "
              << e->high << ")\n";
  }
  std::cout << "| | players | mean error | spread | within the interval | its width | at a bound "
               "|\n| --- | --- | --- | --- | --- | --- | --- |\n";
  for (const auto& [band, off] : bands) print(band, off);
}

// Players put together of sides drawn by lot, who should have no habit.
void print_plain(const expect::Rows& rows, std::size_t games, int runs) {
  std::vector<std::vector<habits::Decision>> sides;
  for (const auto& [d, player, gap] : rows.rows) {
    if (sides.empty() || sides.back().back().place.game != d.place.game) sides.emplace_back();
    sides.back().push_back(d);
  }
  if (sides.size() < games) return;
  std::mt19937_64 random(1);
  std::map<std::string, int> named;
  int with_habit = 0, with_strength = 0;
  for (int run = 0; run < runs; ++run) {
    std::shuffle(sides.begin(), sides.end(), random);
    std::vector<habits::Decision> player;
    for (std::size_t i = 0; i < games; ++i) {
      player.insert(player.end(), sides[i].begin(), sides[i].end());
    }
    const auto found = habits::find_by_expectation(player, rows.topics, games).habits;
    with_habit += found.habits.empty() ? 0 : 1;
    with_strength += found.strengths.empty() ? 0 : 1;
    for (const habits::Habit& habit : found.habits) ++named[habit.words];
  }
  std::cout << "of " << runs << " players of " << games << " sides drawn by lot " << with_habit
            << " have a habit, " << with_strength << " a strength\n";
  for (const auto& [words, count] : named) std::cout << "  " << count << " " << words << "\n";
}

void print_rows(const expect::Rows& rows) {
  std::map<habits::TopicId, char> letters;
  for (std::size_t t = 0; t < rows.topics.all().size(); ++t) {
    const habits::Topics::Topic& topic = rows.topics.all()[t];
    if (topic.is_flaw() || topic.words.starts_with("in openings of") ||
        topic.words.starts_with("in games that begin"))
      continue;
    letters.emplace(static_cast<habits::TopicId>(t), static_cast<char>('0' + letters.size()));
    std::cout << letters.at(static_cast<habits::TopicId>(t)) << ' ' << topic.words << '\n';
  }
  std::uint32_t game = 0;
  bool first = true;
  for (const auto& [d, player, gap] : rows.rows) {
    if (first || d.place.game != game) std::cout << "game " << d.rating << '\n';
    first = false;
    game = d.place.game;
    for (const int chance : d.chances) std::cout << chance << ' ';
    std::cout << static_cast<int>(gap * 1000 + 0.5) << ' ';
    for (const habits::TopicId topic : d.topics) {
      if (const auto at = letters.find(topic); at != letters.end()) std::cout << at->second;
    }
    std::cout << '\n';
  }
}

}  // namespace

int main(int argc, char** argv) {
  const bool as_rows = argc > 1 && std::string_view(argv[1]) == "--rows";
  expect::Rows rows;
  for (int i = as_rows ? 2 : 1; i < argc; ++i) {
    if (!expect::add(argv[i], rows)) return 1;
  }
  if (rows.rows.empty()) {
    std::cerr << "usage: kairos_chances_held [--rows] LEDGERS...\n";
    return 2;
  }
  if (as_rows) {
    print_rows(rows);
  } else {
    print_sums(rows);
    print_ratings(rows, 200);
    print_plain(rows, 60, 200);
  }
  return 0;
}
