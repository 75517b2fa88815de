#include "weights.hpp"

#include <catch2/catch.hpp>

#include "kairos/search/evaluation.hpp"

using namespace kairos::search;

namespace {

void raise(int& value) {
  ++value;
}
void raise(Taper& value) {
  value += Taper(1, 0);
}

// Of the weights with the one at place `n` raised by one; empty when there are not so many.
std::string checksum_with_raised(std::size_t n) {
  Weights changed;
  std::size_t seen = 0;
  visit_weights(changed, [&](const char*, auto& values) {
    for (auto& value : values) {
      if (seen++ == n) raise(value);
    }
  });
  return n < seen ? checksum_of(changed) : "";
}

}  // namespace

TEST_CASE("the evaluation's checksum is that of its weights, in eight digits") {
  CHECK(evaluation_checksum() == checksum_of(Weights{}));
  CHECK(evaluation_checksum().size() == 8);
  CHECK(evaluation_checksum().find_first_not_of("0123456789abcdef") == std::string::npos);
}

TEST_CASE("every single weight changes the checksum") {
  std::size_t n = 0;
  for (std::string changed = checksum_with_raised(0); !changed.empty();
       changed = checksum_with_raised(++n)) {
    CAPTURE(n);
    CHECK(changed != evaluation_checksum());
  }
  CHECK(n > 1000);
}

TEST_CASE("both halves of a weight count for the checksum") {
  Weights changed;
  changed.tempo[0] += Taper(0, 1);
  CHECK(checksum_of(changed) != evaluation_checksum());
}
