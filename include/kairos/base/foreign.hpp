// Texts that others wrote, made fit to be shown: names of players, events and files, words that
// people type. They may hold anything.
//
// Three sorts of characters do harm. Control characters (U+0000 to U+001F, U+007F to U+009F)
// command a terminal or break a line. Hidden ones are not seen, turn the direction of writing or
// end a line: U+00AD, U+061C, U+180E, U+200B to U+200F, U+2028 to U+202E, U+2060 to U+206F, U+FEFF,
// U+FFF9 to U+FFFB, U+E0000 to U+E007F (Unicode, general category Cf, and the two line separators).
// Letters that run from right to left take the figures and signs beside them along. What is done:
//
//   where                                       by         control    hidden     right to left
//   messages, progress, log, standard output    visible    as \x1b    as \u202e  stays
//   people's names in a live count              stripped   a blank    left out   stays
//   report.txt, the HTML pages                  isolated   a blank    left out   between U+2068,
//   U+2069 JSON, the ledger                            json.hpp   as \u001b  as \u202e  stays: it
//   is data PGN, EPD, CSV                               to_utf8    a blank    stays: they are data
//
// All functions are pure and give valid UTF-8.
#pragma once

#include <string>
#include <string_view>

namespace kairos::base {

// Of the second sort.
bool is_hidden(char32_t point);

// One line in which everything can be seen: \n \r \t \x1b \u202e, \xe9 for a byte that is no UTF-8.
// The marks that `isolated` has put there are left out: a terminal may not know them.
std::string visible(std::string_view text);

// As `to_utf8` (text.hpp), without what is hidden.
std::string stripped(std::string_view text);

// As `stripped`; with letters from right to left it stands in marks (Unicode annex 9: first strong
// isolate), so that the words around it keep their order.
std::string isolated(std::string_view text);

// A text put together of our words and isolated ones, or cut out of such: as `stripped`, but the
// marks stay, each with its other half.
std::string balanced(std::string_view text);

}  // namespace kairos::base
