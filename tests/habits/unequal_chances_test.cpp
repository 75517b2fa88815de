// The statistics of unequal chances against sums over every outcome.
#include <bit>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "kairos/habits/statistics.hpp"

#include "normal.hpp"

using namespace kairos;
using habits::Division;
using habits::GameSum;

namespace {

using Chances = std::vector<double>;

class Random {
 public:
  explicit Random(std::uint64_t seed) : random_(seed) {}
  double share() { return static_cast<double>(random_() >> 11) * 0x1.0p-53; }
  Chances chances(std::size_t count) {
    Chances all;
    while (all.size() < count) all.push_back(share());
    return all;
  }

 private:
  std::mt19937_64 random_;
};

// The probability of one outcome: bit i says whether event i came.
double probability(const Chances& chances, unsigned outcome) {
  double p = 1;
  for (std::size_t i = 0; i < chances.size(); ++i) {
    p *= (outcome >> i & 1U) != 0 ? chances[i] : 1 - chances[i];
  }
  return p;
}

// By adding up every outcome.
Chances slow_distribution(const Chances& chances) {
  Chances of(chances.size() + 1, 0.0);
  for (unsigned outcome = 0; outcome < 1U << chances.size(); ++outcome) {
    of[static_cast<std::size_t>(std::popcount(outcome))] += probability(chances, outcome);
  }
  return of;
}

double tail_of(const Chances& probabilities, double observed) {
  double tail = 0, whole = 0;
  for (const double p : probabilities) {
    whole += p;
    if (p <= observed * (1 + 1e-7)) tail += p;
  }
  return tail / whole;
}

// How likely it is that these have 0, 1, 2 .. of so many errors.
Chances slow_divisions(const Chances& these, const Chances& others, std::size_t errors) {
  const Chances one = slow_distribution(these), two = slow_distribution(others);
  Chances divisions(these.size() + 1, 0.0);
  double whole = 0;
  for (std::size_t i = 0; i <= std::min(errors, these.size()); ++i) {
    if (errors - i <= others.size()) divisions[i] = one[i] * two[errors - i];
    whole += divisions[i];
  }
  for (double& p : divisions) p /= whole;
  return divisions;
}

double test_of(const Division& division) {
  return habits::division_test(std::span(&division, 1));
}

double sum(const Chances& chances) {
  double all = 0;
  for (const double c : chances) all += c;
  return all;
}

double variance(const Chances& chances) {
  double all = 0;
  for (const double c : chances) all += c * (1 - c);
  return all;
}

}  // namespace

TEST_CASE("a sum of unequal chances is distributed as all its outcomes add up to") {
  Random random(11);
  for (std::size_t n = 0; n <= 12; ++n) {
    Chances chances = random.chances(n);
    if (n > 3) chances[1] = 0;
    if (n > 5) chances[4] = 1;
    const Chances slow = slow_distribution(chances);
    const habits::SumDistribution fast = habits::sum_distribution(chances);
    CHECK(fast.at(-1) == 0);
    CHECK(fast.at(static_cast<std::int64_t>(n) + 1) == 0);
    for (std::size_t k = 0; k <= n; ++k) {
      CAPTURE(n, k);
      CHECK(fast.at(static_cast<std::int64_t>(k)) == Approx(slow[k]).margin(1e-12));
      if (slow[k] > 0) {
        CHECK(habits::sum_test(chances, k) == Approx(tail_of(slow, slow[k])).margin(1e-9));
      }
    }
  }
}

TEST_CASE("what is cut off of a long sum is nothing") {
  Random random(12);
  Chances chances = random.chances(3000);
  for (double& chance : chances) chance *= 0.2;
  const habits::SumDistribution sum = habits::sum_distribution(chances);
  CHECK(sum.of.size() < 600);
  double whole = 0, mean = 0, expected = 0;
  for (std::size_t i = 0; i < sum.of.size(); ++i) {
    whole += sum.of[i];
    mean += sum.of[i] * static_cast<double>(sum.first + i);
  }
  for (const double chance : chances) expected += chance;
  CHECK(whole == Approx(1).margin(1e-12));
  CHECK(mean == Approx(expected).margin(1e-9));
}

TEST_CASE("the division of errors is tested as all outcomes with as many errors have it") {
  Random random(13);
  for (int run = 0; run < 12; ++run) {
    const Chances these = random.chances(1 + static_cast<std::size_t>(run) % 6);
    const Chances others = random.chances(7 - static_cast<std::size_t>(run) % 5);
    for (std::size_t k = 0; k <= these.size(); ++k) {
      for (std::size_t j = 0; j <= others.size(); ++j) {
        const Chances divisions = slow_divisions(these, others, k + j);
        CAPTURE(run, k, j);
        CHECK(test_of({these, others, k, j}) ==
              Approx(tail_of(divisions, divisions[k])).margin(1e-9));
      }
    }
  }
}

TEST_CASE("of several groups the errors together are tested, given those of each") {
  Random random(17);
  for (int run = 0; run < 8; ++run) {
    const Division one{random.chances(4), random.chances(5), 2, 3};
    const Division two{random.chances(3), random.chances(6), 3, 1};
    const Chances first = slow_divisions(one.chances, one.others, 5);
    const Chances second = slow_divisions(two.chances, two.others, 4);
    Chances both(8, 0.0);
    for (std::size_t i = 0; i < first.size(); ++i) {
      for (std::size_t j = 0; j < second.size(); ++j) both[i + j] += first[i] * second[j];
    }
    const std::vector<Division> groups{one, two};
    CHECK(habits::division_test(groups) == Approx(tail_of(both, both[5])).margin(1e-9));
  }
}

TEST_CASE("with equal chances the division is Fisher's exact test, whatever the chance") {
  for (const double chance : {0.05, 0.5}) {
    for (std::uint64_t k = 0; k <= 9; k += 3) {
      CAPTURE(chance, k);
      CHECK(test_of({Chances(9, chance), Chances(14, chance), k, 6}) ==
            Approx(habits::exact_test({k, 9}, {6, 14})).margin(1e-9));
    }
  }
}

TEST_CASE("where one side has no decisions, or all are errors, there is nothing to divide") {
  CHECK(test_of({{}, {0.1, 0.2}, 0, 1}) == 1);
  CHECK(test_of({{0.1, 0.2}, {}, 1, 0}) == 1);
  CHECK(test_of({{0.1, 0.2}, {0.3}, 0, 0}) == 1);
  CHECK(test_of({{0.1, 0.2}, {0.3}, 2, 1}) == 1);
  CHECK(habits::division_test({}) == 1);
}

TEST_CASE("the chances are so many times as great that as many errors are to be expected") {
  Random random(15);
  const Chances chances = random.chances(40);
  const auto expected = [&chances](double times) {
    double sum = 0;
    for (const double chance : chances) sum += habits::so_many_times(chance, times);
    return sum;
  };
  for (const std::uint64_t errors : {0U, 1U, 7U, 20U, 35U}) {
    CHECK(expected(habits::times_to_expect(chances, errors)) ==
          Approx(static_cast<double>(errors)).margin(1e-6));
  }
  // No more than 0.95 of forty can be expected.
  CHECK(expected(habits::times_to_expect(chances, 40)) == Approx(38));
  CHECK(habits::times_to_expect({}, 0) >= 0);
  CHECK(habits::so_many_times(0.3, 2) == Approx(0.6));
  CHECK(habits::so_many_times(0.6, 2) == habits::most_likely);
}

// The normal curve, from where it is used, against the exact division of one decision less.
TEST_CASE("beyond the exact test p is off by half at most, down to 0.001") {
  Random random(16);
  const auto some = [&random](std::size_t count) {
    Chances chances = random.chances(count);
    for (double& chance : chances) chance = 0.02 + 0.15 * chance;
    return chances;
  };
  const std::size_t few = habits::most_exact / 10, many = habits::most_exact - few;
  const Chances these = some(few);
  Chances others = some(many);
  const double deviation = std::sqrt(1 / (1 / variance(these) + 1 / variance(others)));
  const auto errors = static_cast<std::uint64_t>(std::lround(sum(these) + sum(others)));
  for (const double off : {-3.3, -2.0, -1.0, 1.0, 2.0, 3.3}) {
    const auto k = static_cast<std::uint64_t>(std::lround(sum(these) + off * deviation));
    const double exact = test_of({these, others, k, errors - k});
    Chances more = others;
    more.push_back(0);  // one too many for the exact test, and of no weight
    const double normal = test_of({these, more, k, errors - k});
    CAPTURE(off, normal, exact);
    CHECK(normal != exact);
    CHECK(normal / exact > 0.67);
    CHECK(normal / exact < 1.5);
  }
}

TEST_CASE("games that scatter more weaken what a test says, those that scatter less do not") {
  std::vector<GameSum> even(20, GameSum{2, 2, 1.8});
  CHECK(habits::scatter_by_game(even) == 1);
  std::vector<GameSum> uneven;
  for (int i = 0; i < 20; ++i) uneven.push_back({2, i % 2 == 0 ? 5.0 : -1.0 + 2, 1.8});
  CHECK(habits::scatter_by_game(uneven) == Approx((9 + 1) / 2.0 / 1.8));
  CHECK(habits::p_of_scattered(0.01, 1) == Approx(0.01).margin(1e-9));
  // 1.96 deviations are one and a half as many as 1.307.
  CHECK(habits::p_of_scattered(0.05, 2.25) ==
        Approx(2 * habits::normal_tail(1.959964 / 1.5)).margin(1e-6));
  CHECK(habits::p_of_scattered(1, 4) == 1);
}

// Student's t of 0.975, from the tables in every book (from memory): 2.776 for 4, 2.262 for 9,
// 2.045 for 29.
TEST_CASE("the interval of a ratio is that of leaving each game out, by Student's t") {
  for (const auto& [games, point] :
       std::vector<std::pair<std::size_t, double>>{{5, 2.776}, {10, 2.262}, {30, 2.045}}) {
    std::vector<GameSum> sums;
    for (std::size_t i = 0; i < games; ++i) {
      sums.push_back({1.0 + static_cast<double>(i % 3), static_cast<double>(i % 4) + 1, 1});
    }
    double expected = 0, errors = 0;
    for (const GameSum& g : sums) expected += g.expected, errors += g.errors;
    std::vector<double> left_out;
    double mean = 0;
    for (const GameSum& g : sums) {
      left_out.push_back(std::log((errors - g.errors) / (expected - g.expected)));
      mean += left_out.back() / static_cast<double>(games);
    }
    double scatter = 0;
    for (const double x : left_out) scatter += (x - mean) * (x - mean);
    const auto n = static_cast<double>(games);
    const double margin = point * std::sqrt(scatter * (n - 1) / n);
    const auto ratio = habits::ratio_by_game(sums);
    REQUIRE(ratio);
    CHECK(ratio->ratio == Approx(errors / expected));
    CHECK(std::log(ratio->interval.high / ratio->ratio) == Approx(margin).epsilon(0.005));
    CHECK(std::log(ratio->ratio / ratio->interval.low) == Approx(margin).epsilon(0.005));
  }
}

TEST_CASE("of too few games or errors no ratio is told") {
  CHECK_FALSE(habits::ratio_by_game({}));
  CHECK_FALSE(habits::ratio_by_game(std::vector<GameSum>(4, GameSum{3, 3, 2})));
  CHECK_FALSE(habits::ratio_by_game(std::vector<GameSum>(40, GameSum{3, 0.1, 2})));
  CHECK(habits::ratio_by_game(std::vector<GameSum>(5, GameSum{3, 1, 2})));
}

TEST_CASE("ratios are shrunk by how much they scatter beyond chance") {
  const std::vector<GameSum> alike{{10, 11, 10}, {20, 18, 20}, {30, 31, 30}};
  CHECK(std::isinf(habits::ratio_strength(alike)));
  CHECK(habits::shrunk_ratio(alike[0], habits::ratio_strength(alike)) == 1);
  const std::vector<GameSum> apart{{10, 20, 10}, {20, 10, 20}, {30, 33, 30}};
  // Squares 100 + 100 + 9, less 60 by chance; squares of what was expected 1400.
  const double strength = habits::ratio_strength(apart);
  CHECK(strength == Approx(1400.0 / 149));
  CHECK(habits::shrunk_ratio(apart[0], strength) == Approx((20 + strength) / (10 + strength)));
}

TEST_CASE("so many expected errors tell a doubled number as often as asked for") {
  // 1.96 and 0.84 deviations: (1.96 + 0.84 * sqrt 2)^2 times what is left beside the part itself.
  CHECK(habits::expected_to_tell(2, 0.1, 0.05, 0.8) ==
        Approx(std::pow(1.95996 + 0.84162 * std::sqrt(2.0), 2) * 0.9).epsilon(0.001));
  CHECK(habits::expected_to_tell(3, 0.1, 0.05, 0.8) <
        habits::expected_to_tell(2, 0.1, 0.05, 0.8) / 3);
}
