// What a move does by force, in words that complete a sentence about it.
#pragma once

#include <cstdint>
#include <string>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"
#include "kairos/study/spoils.hpp"

namespace kairos::study {

// The move in SAN with its number: "12... Nf3".
std::string numbered(const rules::Position& p, rules::Move move);
std::string side(rules::Color c);

// Of a move that the searcher sees mating: "is mate", "mates in 2" where that is proved, "leads to
// mate" where it is not.
std::string mate_words(const Spoils& spoils);

// " mates in 2", " wins a knight" or nothing where nothing is proved. `score`, `since` as in
// spoils_of; `nodes` grows by what the proof took.
std::string deed(const rules::Position& p, rules::Move move, search::Score score,
                 std::uint64_t& nodes, const rules::Position* since = nullptr);

}  // namespace kairos::study
