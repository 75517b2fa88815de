// Which names in the games mean the player somebody asks for.
//
// People write one name in many ways: "Kasparov, Garry", "Garry Kasparov", "Kasparov, G.". Names
// are compared word by word: small letters, accents off, titles (GM, WIM) left out, any order; a
// single letter stands for any word that begins with it. A name is the player's when all words
// asked for are found in it. Safe: when the names so found cannot all be one person, none is taken
// and they are listed, unless one of them is exactly what was asked; and a name with an initial
// that somebody else in the games may be is left out. More than `most_spellings` names are taken
// for those of several people: each is compared with all others. Pure.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/batch/run.hpp"

namespace kairos::batch {

inline constexpr std::size_t most_spellings = 100;

// Both names of every game, as in the tags.
std::vector<std::string> names_in(const Input& input);

// Of `names` (as in the tags, repeats allowed) those that are the player's, sorted. A fault (usage)
// says that there is none, or which there are.
base::Result<std::vector<std::string>> find_player(std::string_view wanted,
                                                   const std::vector<std::string>& names);

}  // namespace kairos::batch
