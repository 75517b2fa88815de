#include "given_position.hpp"

#include <CLI/CLI.hpp>

#include "kairos/pgn/gzip_source.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/puzzle/exercise_file.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/study/all_moves.hpp"

#include "numbers.hpp"

namespace kairos::cli {

namespace {

base::Fault usage(std::string words) {
  return {base::Code::usage, std::move(words), {}};
}

base::Result<GivenPosition> from_game(const PositionArguments& arguments) {
  auto source = pgn::open_games(arguments.game);
  if (!source) return std::move(source).faults();
  base::FaultList passed_over;
  pgn::Reader reader(**source, arguments.game, passed_over);
  std::optional<pgn::Game> game;
  for (std::uint64_t n = 0; n < arguments.number; ++n) {
    game = reader.next();
    if (!game) {
      return base::Fault{base::Code::usage,
                         "there are only " + std::to_string(n) + " games",
                         {.file = arguments.game}};
    }
  }
  const pgn::Replay replay = pgn::replay(*game, passed_over);
  if (replay.state == pgn::Replay::State::refused) return *replay.fault;
  const std::vector<rules::Move> moves = pgn::main_line_moves(*game);
  if (arguments.ply < 0 || arguments.ply > static_cast<std::int64_t>(moves.size())) {
    return usage("--ply is 0 (before the first move) to " + std::to_string(moves.size()) +
                 " (after the last) for this game");
  }
  GivenPosition place;
  std::vector<rules::Position> positions = {game->start};
  for (std::int64_t i = 0; i < arguments.ply; ++i) {
    place.earlier.push_back(positions.back().key());
    positions.push_back(positions.back().after(moves[static_cast<std::size_t>(i)]));
  }
  place.position = positions.back();
  place.before = study::before_of(positions, moves, static_cast<std::size_t>(arguments.ply));
  return place;
}

base::Result<GivenPosition> read_position(const PositionArguments& arguments) {
  GivenPosition place;
  if (!arguments.game.empty()) return from_game(arguments);
  if (!arguments.epd.empty()) {
    if (arguments.id.empty()) return usage("--epd needs --id ID");
    auto asked = puzzle::find_exercise(arguments.epd, arguments.id);
    if (!asked) return std::move(asked).faults();
    place.position = asked->puzzle.position;
    place.tries = std::move(asked->puzzle.tries);
    return place;
  }
  auto position = rules::parse_fen(arguments.fen);
  if (!position) return std::move(position).faults();
  place.position = *position;
  return place;
}

}  // namespace

void add_position_options(CLI::App& command, PositionArguments& place) {
  command.add_option("--fen", place.fen, "The position")->type_name("FEN");
  command.add_option("--epd", place.epd, "The position with this --id in an EPD file")
      ->type_name("FILE");
  command.add_option("--id", place.id, "With --epd: which")->type_name("ID");
  command.add_option("--game", place.game, "The position after --ply half-moves of a game")
      ->type_name("FILE");
  add_number(command, "--ply", place.ply, "With --game: half-moves played before the position",
             {.least = 0, .most = 1'000'000, .unit = "half-moves"})
      ->type_name("N");
  add_number(command, "--number", place.number, "With --game: which game of the file",
             {.least = 1, .most = 1'000'000'000})
      ->type_name("N")
      ->default_str("1");
}

base::Result<GivenPosition> find_position(const PositionArguments& arguments, Ended ended) {
  const int given = (arguments.fen.empty() ? 0 : 1) + (arguments.epd.empty() ? 0 : 1) +
                    (arguments.game.empty() ? 0 : 1);
  if (given != 1) return usage("give the position by one of --fen, --epd and --game");
  auto place = read_position(arguments);
  if (!place || ended == Ended::accepted) return place;
  switch (rules::game_status(place->position, place->earlier)) {
    case rules::GameStatus::checkmate:
      return usage("the game is over: checkmate");
    case rules::GameStatus::stalemate:
      return usage("the game is over: stalemate");
    case rules::GameStatus::bare_material:
      return usage("the game is over: neither side has men to mate with");
    case rules::GameStatus::fivefold:
      return usage("the game is over: the position has stood five times");
    case rules::GameStatus::seventy_five_moves:
      return usage("the game is over: 75 moves without a capture or a pawn's move");
    case rules::GameStatus::open:
    case rules::GameStatus::threefold:
    case rules::GameStatus::fifty_moves:
      break;
  }
  return place;
}

}  // namespace kairos::cli
