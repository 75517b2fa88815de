#include "kairos/base/interval.hpp"

#include <catch2/catch.hpp>

using kairos::base::Interval;
using kairos::base::wilson_interval;

TEST_CASE("Wilson's interval agrees with worked examples") {
  struct Row {
    std::uint64_t hits, trials;
    double low, high;
  };
  // The first rows by the formula (Wilson 1927) with z = 1.959964; the last four are the examples
  // of Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, quoted from memory to 4 places.
  const Row rows[] = {
      {0, 10, 0, 0.277533},          {1, 10, 0.017876, 0.404150},
      {3, 20, 0.052369, 0.360419},   {8, 10, 0.490162, 0.943318},
      {10, 10, 0.722467, 1},         {12, 40, 0.180748, 0.454300},
      {30, 100, 0.218949, 0.395849}, {81, 263, 0.2553, 0.3662},
      {15, 148, 0.0624, 0.1605},     {0, 20, 0, 0.1611},
      {1, 29, 0.0061, 0.1718},
  };
  for (const Row& row : rows) {
    CAPTURE(row.hits, row.trials);
    const Interval interval = wilson_interval(row.hits, row.trials);
    CHECK(interval.low == Approx(row.low).margin(0.00006));
    CHECK(interval.high == Approx(row.high).margin(0.00006));
  }
}

TEST_CASE("Wilson's interval of no trials says nothing, and always holds the share seen") {
  CHECK(wilson_interval(0, 0).low == 0);
  CHECK(wilson_interval(0, 0).high == 1);
  for (std::uint64_t trials = 1; trials <= 60; ++trials) {
    for (std::uint64_t hits = 0; hits <= trials; ++hits) {
      const Interval interval = wilson_interval(hits, trials);
      const double share = static_cast<double>(hits) / static_cast<double>(trials);
      CHECK(interval.low >= 0);
      CHECK(interval.high <= 1);
      CHECK(interval.low <= share + 1e-12);
      CHECK(interval.high >= share - 1e-12);
    }
  }
}
