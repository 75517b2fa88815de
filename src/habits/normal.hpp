// The standard normal curve.
#pragma once

namespace kairos::habits {

// The probability of more than `point`, and the point that is exceeded with probability `tail`.
double normal_tail(double point);
double normal_point(double tail);

}  // namespace kairos::habits
