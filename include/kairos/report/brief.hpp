// A game in brief, for the terminal at the end of its scan: who played, the story, each turning
// point in its text, without boards and lines, and what of the notes does not stand.
//
// Rows end with a line end and are at most `width` characters; names are isolated and stripped
// (base/foreign.hpp). Pure.
#pragma once

#include <cstddef>
#include <string>

#include "kairos/report/writer.hpp"

namespace kairos::report {

// Of the study number `index`.
std::string brief_text(const Collection& collection, std::size_t index, std::size_t width);

}  // namespace kairos::report
