// e^x and ln x in plain IEEE arithmetic, so that shares are the same to the bit on every machine:
// no machine's library of exponentials has a say. Exact to some fourteen digits.
#pragma once

namespace kairos::people {

// x within +-700.
double exponential(double x);
// x above 0.
double logarithm(double x);

}  // namespace kairos::people
