// Forms of some rules of the motifs for the name alone, most of them wider.
//
// src/study/means.cpp asks the forms of played_line.hpp, because it also tells which men took part,
// and those are where that form says: the guard is the man that answers, the slider the one that
// takes next. Here the same motif is borne out later in the line, or by what the other side could
// not do. Definitions: with the narrow forms, at the tops of motifs_guards.cpp and
// motifs_lines.cpp. Pure functions of the line.
#pragma once

#include "played_line.hpp"

namespace kairos::study {

// A deflection that is refused, or after which a check comes before the stroke.
bool is_wider_deflection(const PlayedLine& s);
// A guard is taken that is not itself the greater gain, or is driven off by a man worth less.
bool is_guard_removed(const PlayedLine& s);
// The man in front of a skewer stays and falls.
bool is_front_of_skewer_won(const PlayedLine& s);
// The discovered attack wins a move later, or where its target has run, or what the key took.
bool is_wider_discovered_attack(const PlayedLine& s);

}  // namespace kairos::study
