#include "measures.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace kairos::people_tools {

namespace {

constexpr double error_cost = 0.10;
// As the design defines an only move: the best keeps so much, the second is so far behind.
constexpr double only_least = 0.35, only_lead = 0.28;
constexpr std::array band_ends = {2000, 2200, 2400, 2600, 10'000};
constexpr std::array<const char*, 6> band_names = {"below 2000",   "2000 to 2199", "2200 to 2399",
                                                   "2400 to 2599", "from 2600",    "all"};
constexpr std::size_t all_bands = 5;

std::size_t band_of(int rating) {
  std::size_t band = 0;
  while (rating >= band_ends[band]) ++band;
  return band;
}

struct Mean {
  double sum = 0, count = 0;
  void add(double value) {
    sum += value;
    ++count;
  }
  [[nodiscard]] double value() const { return count > 0 ? sum / count : 0; }
};
using ByBand = std::array<Mean, 6>;

void add(ByBand& bands, int rating, double value) {
  bands[band_of(rating)].add(value);
  bands[all_bands].add(value);
}

void print_row(const char* name, const std::vector<double>& values, double count) {
  std::printf("| %s | %.0f |", name, count);
  for (const double value : values) std::printf(" %.4f |", value);
  std::printf("\n");
}

ByBand log_loss(const Cases& cases, const Model& model) {
  ByBand bands;
  for (const Case& c : cases.list) {
    if (c.held_out) add(bands, c.rating, -std::log(shares_of(cases, c, model)[c.played]));
  }
  return bands;
}

ByBand log_loss_of_average(const Cases& cases) {
  ByBand found, bands;
  for (const Case& c : cases.list) {
    if (!c.held_out) add(found, c.rating, c.played == c.best);
  }
  for (const Case& c : cases.list) {
    if (!c.held_out) continue;
    const double share = found[band_of(c.rating)].value();
    const double rest = (1 - share) / static_cast<double>(c.moves - 1);
    add(bands, c.rating, -std::log(c.played == c.best ? share : rest));
  }
  return bands;
}

bool has_only_move(const Case& c) {
  return c.lead >= only_lead && c.best_expectation >= only_least;
}

double area_under_the_curve(std::vector<std::pair<double, bool>> cases) {
  std::ranges::sort(cases);
  double ordered = 0, missed = 0;
  for (const auto& [share, found] : cases) {
    if (!found) {
      ++missed;
    } else {
      ordered += missed;
    }
  }
  const double pairs = missed * (static_cast<double>(cases.size()) - missed);
  return pairs > 0 ? ordered / pairs : 0;
}

}  // namespace

void print_log_loss(const Cases& cases, const std::vector<Model>& models) {
  std::vector<ByBand> losses;
  std::printf("| rating | cases |");
  for (const Model& model : models) {
    std::printf(" %s |", model.name.c_str());
    losses.push_back(log_loss(cases, model));
  }
  std::printf(" best move with its average share |\n");
  losses.push_back(log_loss_of_average(cases));
  for (std::size_t band = 0; band < band_names.size(); ++band) {
    std::vector<double> values;
    for (const ByBand& loss : losses) values.push_back(loss[band].value());
    print_row(band_names[band], values, losses.front()[band].count);
  }
}

std::string quality_of(const Cases& cases, const std::vector<Model>& models) {
  const double without = log_loss(cases, models.front())[all_bands].value();
  const double with = log_loss(cases, models.back())[all_bands].value();
  char text[160];
  std::snprintf(text, sizeof text,
                "// mean log loss %.4f, %.1f %% below the %.4f of the cost in the end alone.\n",
                with, 100 * (1 - with / without), without);
  return text;
}

void print_find_rates(const Cases& cases, const Model& model, Places places) {
  std::array<Mean, 10> said, was;
  for (const Case& c : cases.list) {
    if (!c.held_out || (places == Places::only_moves && !has_only_move(c))) continue;
    const double share = shares_of(cases, c, model)[c.best];
    const std::size_t band = std::min<std::size_t>(9, static_cast<std::size_t>(share * 10));
    said[band].add(share);
    was[band].add(c.played == c.best);
  }
  std::printf("| share of the %s move | cases | said | played |\n",
              places == Places::all ? "best" : "only");
  for (std::size_t band = 0; band < 10; ++band) {
    const std::string name = "0." + std::to_string(band) + " on";
    print_row(name.c_str(), {said[band].value(), was[band].value()}, said[band].count);
  }
}

void print_errors(const Cases& cases, const Model& model) {
  ByBand said, made;
  for (const Case& c : cases.list) {
    if (!c.held_out) continue;
    const std::vector<double> shares = shares_of(cases, c, model);
    double share = 0;
    for (std::size_t m = 0; m < c.moves; ++m) {
      if (cases.costs[c.first + m] >= error_cost) share += shares[m];
    }
    add(said, c.rating, share);
    add(made, c.rating, cases.costs[c.first + c.played] >= error_cost);
  }
  std::printf("| rating | cases | errors said | errors made | said / made |\n");
  for (std::size_t band = 0; band < band_names.size(); ++band) {
    const double s = said[band].value(), m = made[band].value();
    print_row(band_names[band], {s, m, m > 0 ? s / m : 0}, said[band].count);
  }
}

void print_only_moves(const Cases& cases, const std::vector<Model>& models) {
  std::printf("| model | only moves | found | area under the curve |\n");
  for (const Model& model : models) {
    std::vector<std::pair<double, bool>> shares;
    double found = 0;
    for (const Case& c : cases.list) {
      if (!c.held_out || !has_only_move(c)) continue;
      shares.emplace_back(shares_of(cases, c, model)[c.best], c.played == c.best);
      found += c.played == c.best;
    }
    print_row(model.name.c_str(),
              {found / static_cast<double>(shares.size()), area_under_the_curve(shares)},
              static_cast<double>(shares.size()));
  }
}

}  // namespace kairos::people_tools
