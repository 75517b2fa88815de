// What all text reports share: how they begin, headings between their parts, and the note on fair
// play at the end.
#pragma once

#include <string>
#include <string_view>

namespace kairos::report {

// How a player's text and an overview begin: "KAIROS 1.0: Marrowby, Silas".
inline constexpr std::string_view text_mark = "KAIROS ";
// Without blanks and line ends: the same however it was broken into rows.
std::string without_blanks(std::string_view text);
// What stands behind mark and version in the first paragraph, without blanks; "" where there is no
// such beginning.
std::string text_head(std::string_view text);

// Between two rules, an empty row before and after.
std::string text_heading(std::string_view title);

// A title of a list in capitals; of ASCII letters.
std::string capitals(std::string text);

// Last, so that nobody can miss it who reads to the end.
std::string text_closing();

}  // namespace kairos::report
