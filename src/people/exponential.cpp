#include "exponential.hpp"

#include <cmath>

namespace kairos::people {

namespace {

constexpr double ln_2 = 0.693147180559945309417;

}  // namespace

// e^x = 2^n e^r with r within half of ln 2 of zero, where the series is short. ldexp, frexp and
// floor are exact.
double exponential(double x) {
  const double n = std::floor(x / ln_2 + 0.5);
  const double r = x - n * ln_2;
  double sum = 1, term = 1;
  for (int i = 1; i <= 16; ++i) {
    term *= r / i;
    sum += term;
  }
  return std::ldexp(sum, static_cast<int>(n));
}

// ln x = n ln 2 + ln m with m within 1/2 .. 1, and ln m = 2 artanh((m - 1) / (m + 1)).
double logarithm(double x) {
  int n = 0;
  const double m = std::frexp(x, &n);
  const double z = (m - 1) / (m + 1);
  double sum = 0, power = z;
  for (int i = 1; i <= 31; i += 2) {
    sum += power / i;
    power *= z * z;
  }
  return n * ln_2 + 2 * sum;
}

}  // namespace kairos::people
