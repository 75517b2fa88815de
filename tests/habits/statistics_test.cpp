#include "kairos/habits/statistics.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace kairos;
using habits::Rate;

namespace {

constexpr double digits = 0.00001;

}  // namespace

// R. A. Fisher, The Design of Experiments (1935), chapter 2: the lady tasting tea has three of four
// cups right of either sort; 34 of 70 tables are no likelier. From memory, and easily counted.
TEST_CASE("the exact test of the tea cups") {
  CHECK(habits::exact_test({3, 4}, {1, 4}) == Approx(34.0 / 70).margin(digits));
  CHECK(habits::exact_test({4, 4}, {0, 4}) == Approx(2.0 / 70).margin(digits));
  CHECK(habits::exact_test({2, 4}, {2, 4}) == Approx(1).margin(digits));
}

TEST_CASE("the exact test adds up to what counting every table gives") {
  // Every way to draw `errors` of all decisions, counted by Pascal's triangle.
  const auto choose = [](int n, int k) {
    std::vector<double> row{1};
    for (int i = 0; i < n; ++i) {
      row.push_back(1);
      for (std::size_t j = row.size() - 2; j > 0; --j) row[j] += row[j - 1];
    }
    return k < 0 || k > n ? 0.0 : row[static_cast<std::size_t>(k)];
  };
  for (int n1 = 1; n1 <= 9; n1 += 2) {
    for (int n2 = 1; n2 <= 8; ++n2) {
      for (int k1 = 0; k1 <= n1; ++k1) {
        for (int k2 = 0; k2 <= n2; ++k2) {
          const int errors = k1 + k2;
          const double seen = choose(n1, k1) * choose(n2, k2);
          double tail = 0;
          for (int k = 0; k <= n1; ++k) {
            const double ways = choose(n1, k) * choose(n2, errors - k);
            if (ways <= seen) tail += ways;
          }
          CAPTURE(k1, n1, k2, n2);
          const Rate one{static_cast<std::uint64_t>(k1), static_cast<std::uint64_t>(n1)};
          const Rate other{static_cast<std::uint64_t>(k2), static_cast<std::uint64_t>(n2)};
          CHECK(habits::exact_test(one, other) ==
                Approx(tail / choose(n1 + n2, errors)).margin(1e-9));
        }
      }
    }
  }
}

// Y. Benjamini, Y. Hochberg, JRSS B 57 (1995) 289-300, their example; adjusted values calculated in
// ../shared/facts.md, section 8.2.
TEST_CASE("the published example of many tests at once") {
  const std::vector<double> p{0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344,
                              0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0000};
  const std::vector<double> adjusted{0.0015,   0.0030,   0.0095,   0.035625, 0.0603,
                                     0.063857, 0.063857, 0.0645,   0.0765,   0.486,
                                     0.581182, 0.714875, 0.753231, 0.813214, 1};
  const std::vector<double> found = habits::adjusted_for_many(p);
  REQUIRE(found.size() == adjusted.size());
  int rejected = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    CHECK(found[i] == Approx(adjusted[i]).margin(digits));
    rejected += found[i] <= 0.05 ? 1 : 0;
  }
  CHECK(rejected == 4);
  // In any order.
  const std::vector<double> turned =
      habits::adjusted_for_many(std::vector<double>(p.rbegin(), p.rend()));
  CHECK(std::equal(turned.rbegin(), turned.rend(), found.begin()));
}

// ../shared/facts.md, section 8.3, beta-binomial example with its moments.
TEST_CASE("shrinking by the scatter of the rates themselves") {
  std::vector<Rate> rates;
  for (const std::uint64_t errors : std::vector<std::uint64_t>{2, 1, 0, 3, 5, 1, 0, 2, 4, 2})
    rates.push_back({errors, 20});
  const std::vector<double> centres(rates.size(), 0.1);
  const double strength = habits::prior_strength(rates, centres, 1);
  CHECK(strength == Approx(38.461538).margin(digits));
  CHECK(habits::shrunk(rates[4], 0.1, strength) == Approx(0.151316).margin(digits));
  CHECK(habits::shrunk(rates[2], 0.1, strength) == Approx(0.065789).margin(digits));
}

TEST_CASE("shrinking by a fixed prior") {
  CHECK(habits::shrunk({3, 10}, 0.08, 50) == Approx(0.116667).margin(digits));
  CHECK(habits::shrunk({0, 10}, 0.08, 50) == Approx(0.066667).margin(digits));
  CHECK(habits::shrunk({30, 100}, 0.08, 50) == Approx(0.226667).margin(digits));
}

TEST_CASE("rates that scatter no more than chance are pooled") {
  const std::vector<Rate> rates{{10, 100}, {11, 100}, {9, 100}};
  const std::vector<double> centres(3, 0.1);
  const double strength = habits::prior_strength(rates, centres);
  CHECK(std::isinf(strength));
  CHECK(habits::shrunk(rates[1], 0.1, strength) == 0.1);
}

TEST_CASE("so many decisions tell two rates apart as often as asked for") {
  const std::uint64_t needed = habits::decisions_to_tell(0.10, 0.05, 0.05, 0.8);
  // By the normal curve: 1.96 and 0.84 standard deviations.
  CHECK(needed == 435);
  CHECK(habits::decisions_to_tell(0.10, 0.05, 0.001, 0.8) > 2 * needed);
  CHECK(habits::decisions_to_tell(0.20, 0.05, 0.05, 0.8) < needed / 4);
}
