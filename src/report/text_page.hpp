// What all text reports share: headings between their parts, and the note on fair play at the end.
#pragma once

#include <string>
#include <string_view>

namespace kairos::report {

// Between two rules, an empty row before and after.
std::string text_heading(std::string_view title);

// A title of a list in capitals; of ASCII letters.
std::string capitals(std::string text);

// Last, so that nobody can miss it who reads to the end.
std::string text_closing();

}  // namespace kairos::report
