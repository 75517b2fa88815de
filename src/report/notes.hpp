// The player's own notes against the study: how many there are, which do not stand.
//
// A note is a variation (one, whatever its length) or a move of the game with a sign that judges
// it. It stands when nothing in it is contradicted by a claim. Pointers point into the study.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "kairos/pgn/game.hpp"
#include "kairos/report/writer.hpp"
#include "kairos/study/study.hpp"

namespace kairos::report {

struct NotesCheck {
  std::size_t notes = 0, standing = 0;
  std::vector<const study::Moment*> holes;  // all claims, the largest first
};

NotesCheck check_notes(const pgn::Game& game, const study::Study& study);

// "Of 14 notes (lines and signs) 11 stand." "" where there are none; where not all was looked at
// (moments open, or one player's alone) it tells the holes alone.
std::string notes_words(const NotesCheck& check, const RunFacts& facts);

// The node of the move that a moment speaks of: in the main line or, of a claim, in a variation.
// Looks at nodes before `end` only; pgn::no_node where there is none.
pgn::NodeId node_of(const pgn::Game& game, const std::vector<pgn::NodeId>& main_line,
                    const study::Moment& moment, pgn::NodeId end);

}  // namespace kairos::report
