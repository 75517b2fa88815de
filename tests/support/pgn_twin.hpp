// The reader against its slow twin (tests/oracles/pgn_naive.hpp).
#pragma once

#include <string>
#include <string_view>

#include "kairos/pgn/reader.hpp"

namespace kairos::test {

// Whether the text meets one of the differences listed in tests/pgn/twin_test.cpp as open.
bool meets_open_difference(std::string_view text);

// Where reader and twin differ first, in words; "" when nowhere. Compared are tokens (kind, text,
// value, damage, place, what stands before them), games (tags, moves as written with their places,
// the tree, annotations, results) and faults (code and place), the text given whole, in pieces of
// 1, 7, 63, 64, 65 and 4,096 bytes, and packed.
// With `but_open`, texts that meet an open difference are left out.
std::string twin_difference(std::string_view text, bool but_open = true,
                            const pgn::ReaderLimits& limits = {});

// The same of the smallest text found by leaving parts out, with that text; for messages.
std::string smallest_difference(std::string text);

}  // namespace kairos::test
