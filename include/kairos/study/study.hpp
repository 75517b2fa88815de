// A study: what kairos knows of one game. Plain data; the ledger stores it, the reports read it.
//
// `notes` has one entry for each decision of the main line and one for the last position, so
// notes[i] speaks of the position after i half-moves and notes.size() == moves.size() + 1. The
// notes come from the survey; the moments are verified. What the players noted themselves stands in
// the game's scoresheet (scoresheet.hpp).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/verdict.hpp"
#include "kairos/study/moment.hpp"

namespace kairos::study {

// Bytes of each text of GameFacts: a tag may hold thousands, and lists of all games hold these.
inline constexpr std::size_t longest_fact = 200;

struct GameFacts {
  std::string event, site, date, round, white, black, result, termination, eco;
  int white_elo = 0, black_elo = 0;  // 0: not given
  std::string file;                  // where it was read, and
  std::uint64_t line = 0;            // at which line it starts
  std::uint64_t number = 0;          // in the run, from 1

  friend bool operator==(const GameFacts&, const GameFacts&) = default;
};

// No clock tells more (%clk of three numbers up to a thousand).
inline constexpr int most_clock_seconds = 1000 * 3600 + 1000 * 60 + 1000;

// A move that costs so much of the expectation is an error.
inline constexpr double error_cost = 0.10;
// Beyond this expectation, and its mirror, nothing is decided any more.
inline constexpr double most_open = 0.97;

// How many of `chance_of` players of each of these ratings would err in a position, by the model of
// players (src/study/error_chance.hpp); all `no_chance` where none can (may_err).
inline constexpr std::array chance_ratings = {1600, 2000, 2400, 2800};
inline constexpr int chance_of = 1000, no_chance = -1;
using ErrorChances = std::array<int, chance_ratings.size()>;
inline constexpr ErrorChances no_chances = {no_chance, no_chance, no_chance, no_chance};

struct Note {
  std::vector<search::Line> lines;  // best two moves, fewer where there are fewer
  search::Score played_score = 0;   // of the move played, from the same side
  int depth = 0;
  std::uint64_t nodes = 0;
  int clock_seconds = -1;  // left after the move, by %clk; -1: not given
  ErrorChances error_chances = no_chances;

  friend bool operator==(const Note&, const Note&) = default;
};

// Whether there was something to decide: two moves at least, in a position that was open.
bool is_decision(const Note& note, double most = most_open);
// Whether a move could be an error there: where so much is not left to lose none can.
bool may_err(const Note& note);

struct Study {
  GameFacts facts;
  rules::Position start = rules::Position::start();
  std::vector<rules::Move> moves;
  std::vector<Note> notes;
  std::vector<Moment> moments;  // by ply, then kind

  friend bool operator==(const Study&, const Study&) = default;
};

// "Aronov - Bellini, Club Open 2026, round 3": for people, of the parts that are known.
std::string label_of(const GameFacts& facts);

// Equal for the same game wherever it was studied (pgn/same_game.hpp).
std::uint64_t identity_of(const Study& study);

// Whether one side won at the board: by the result, and not by forfeit or adjudication (Termination
// tag).
bool was_won_at_the_board(const GameFacts& facts);
// The side that lost; of a game that was won.
rules::Color loser_of(const GameFacts& facts);
// The rating of the player of that side; 0: not given.
int elo_of(const GameFacts& facts, rules::Color side);
// The same; `unrated` where it is not given.
int rating_of(const GameFacts& facts, rules::Color side);
// Whether a moment of the loser's is told that may explain the loss: a swing, a slide, a turn, or
// a game given up early.
bool tells_where_it_was_lost(const Study& study);

// The position after `plies` half-moves of the main line.
rules::Position position_after(const Study& study, std::size_t plies);

}  // namespace kairos::study
