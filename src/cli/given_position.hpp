// The position a command is asked about: by FEN, from an EPD file, or from a game.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "kairos/audience/conversation.hpp"
#include "kairos/people/share.hpp"
#include "kairos/puzzle/puzzle.hpp"
#include "kairos/rules/letters.hpp"
#include "kairos/rules/position.hpp"

namespace CLI {
class App;
}

namespace kairos::cli {

struct PositionArguments {
  std::string fen;
  std::string epd;
  std::string id;
  std::string game;
  std::uint64_t number = 1;  // of the game in its file
  std::int64_t ply = -1;     // half-moves played before the position
  std::string move;          // "27w": the position before that move, instead of `ply`
  std::string after;         // moves played from there on
  rules::Letters letters = rules::Letters::english;  // of those moves
};

// --fen, --epd with --id, --game with --ply or --move and --number; --after.
void add_position_options(CLI::App& command, PositionArguments& place);

// As parse_fen, for the command line: each thing that is wrong is told once.
base::Result<rules::Position> read_fen(const std::string& text);

struct GivenPosition {
  rules::Position position = rules::Position::start();
  std::vector<rules::Key> earlier;  // keys of the game's positions before it
  std::vector<puzzle::Try> tries;   // known of the position, from an EPD file
  people::Before before{};          // played before it; known of a game only
  audience::Line line{};            // the whole game, or the position given without moves
  std::size_t plies = 0;            // of the line, played before what --after plays
  std::vector<rules::Move> after{};
};

// Exactly one of the three must be given. Whether a position that the Laws have ended will do is
// the command's to say.
enum class Ended : std::uint8_t { refused, accepted };
base::Result<GivenPosition> find_position(const PositionArguments& arguments,
                                          Ended ended = Ended::refused);

}  // namespace kairos::cli
