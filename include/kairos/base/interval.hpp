// Wilson's score interval for a share: what x hits in n trials say of the true rate.
//
// E. B. Wilson, JASA 22 (1927) 209-212; recommended for small n by Brown, Cai and DasGupta,
// Statistical Science 16 (2001) 101-133. Two-sided, 95 %. The trials must be independent: moves of
// one game are not, so callers count games. n = 0 gives the whole range 0..1.
#pragma once

#include <cstdint>

namespace kairos::base {

struct Interval {
  double low = 0;
  double high = 1;
};

// `hits` must not exceed `trials`.
Interval wilson_interval(std::uint64_t hits, std::uint64_t trials);

}  // namespace kairos::base
