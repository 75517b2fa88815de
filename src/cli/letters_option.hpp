// --letters: in which letters moves are written to people, and which of a typed letter's meanings
// goes first. What programs read (PGN, EPD, FEN, CSV, JSON) keeps the letters of the standard.
#pragma once

#include "kairos/rules/letters.hpp"

namespace CLI {
class App;
}

namespace kairos::cli {

void add_letters_option(CLI::App& command, rules::Letters& letters);

}  // namespace kairos::cli
