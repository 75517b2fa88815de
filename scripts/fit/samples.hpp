// Quiet positions with what became of them: the material the weights are fitted to.
//
// A sample is one line of text: FEN, ';', result of its game from White's side in half points
// (0, 1, 2), ';', score of a search from White's side in centipawns, ';', number of the game.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "kairos/rules/position.hpp"

namespace kairos::fit {

struct Sample {
  rules::Position position;
  int half_points;  // White's: 0, 1, 2
  int score;        // of the search, White's
  std::uint32_t game;
};

std::vector<Sample> read_samples(const std::string& path);

// Quiet positions of the games in `files`, each searched with `nodes` nodes, written to `out`.
int collect(const std::vector<std::string>& files, std::uint64_t nodes, const std::string& out);
// The same from games that the core plays against itself, from random openings of a fixed seed.
int play(int games, std::uint64_t nodes, std::uint64_t seed, const std::string& out);

// Fits the weights to the samples and prints them; `share` is how much the game's result counts
// against the search's score, in percent.
int fit(const std::vector<std::string>& files, int share);

}  // namespace kairos::fit
