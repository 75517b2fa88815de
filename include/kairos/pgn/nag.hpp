// Numeric Annotation Glyphs (PGN standard, section 10): numbers, meanings, and the move marks.
//
// $1..$6 are the marks ! ? !! ?? !? ?!; $7 and $8 forced and only moves; $10..$19 judge the
// position from level to decisive, even numbers for White and odd for Black from $14 on.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace kairos::pgn {

// "!", "?", "!!", "??", "!?", "?!" to 1..6.
std::optional<std::uint8_t> nag_of_suffix(std::string_view mark);
// The mark of 1..6, else "".
std::string_view suffix_of_nag(std::uint8_t nag);
// The standard's meaning in own words; "" where the standard has none (above 139).
std::string_view meaning_of_nag(std::uint8_t nag);

}  // namespace kairos::pgn
