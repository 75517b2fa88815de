#include "given_position.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>

#include "kairos/audience/typed.hpp"
#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
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

// The half-moves before the place asked for.
base::Result<std::size_t> plies_asked(const PositionArguments& arguments,
                                      const std::vector<rules::Position>& positions) {
  const std::size_t last = positions.size() - 1;
  if (arguments.move.empty()) {
    if (arguments.ply >= 0 && arguments.ply <= static_cast<std::int64_t>(last)) {
      return static_cast<std::size_t>(arguments.ply);
    }
    return usage("--ply is 0 (before the first move) to " + std::to_string(last) +
                 " (after the last) for this game");
  }
  const auto number = audience::read_move_number(arguments.move);
  if (!number) return usage("--move takes a move of the game, as 27w or 27b");
  const auto found = std::ranges::find_if(positions, [&](const rules::Position& p) {
    return p.fullmove_number() == number->number && p.side_to_move() == number->side;
  });
  if (found != positions.end()) return static_cast<std::size_t>(found - positions.begin());
  const auto name = [](const rules::Position& p) {
    return std::to_string(p.fullmove_number()) + (p.side_to_move() == rules::white ? "w" : "b");
  };
  return usage("--move is " + name(positions.front()) + " to " + name(positions.back()) +
               " (after the last) for this game");
}

base::Result<pgn::Game> read_game(const PositionArguments& arguments, base::Diagnostics& told) {
  auto source = pgn::open_games(arguments.game);
  if (!source) return std::move(source).faults();
  pgn::Reader reader(**source, arguments.game, told);
  std::optional<pgn::Game> game;
  for (std::uint64_t n = 0; n < arguments.number; ++n) {
    game = reader.next();
    if (!game) {
      return base::Fault{
          base::Code::usage,
          "there " + std::string(n == 1 ? "is" : "are") + " only " + base::counted(n, "game"),
          {.file = arguments.game}};
    }
  }
  return *std::move(game);
}

base::Result<GivenPosition> from_game(const PositionArguments& arguments) {
  base::FaultList passed_over;
  auto game = read_game(arguments, passed_over);
  if (!game) return std::move(game).faults();
  const pgn::Replay replay = pgn::replay(*game, passed_over);
  if (replay.state == pgn::Replay::State::refused) return *replay.fault;
  GivenPosition place;
  place.line = {.start = game->start, .moves = pgn::main_line_moves(*game)};
  std::vector<rules::Position> positions = {game->start};
  for (const rules::Move move : place.line.moves) positions.push_back(positions.back().after(move));
  const auto plies = plies_asked(arguments, positions);
  if (!plies) return plies.faults();
  positions.resize(*plies + 1, game->start);
  place.plies = *plies;
  for (std::size_t i = 0; i < *plies; ++i) place.earlier.push_back(positions[i].key());
  place.position = positions.back();
  place.before = study::before_of(positions, place.line.moves, *plies);
  return place;
}

// As people type a line; all of it must be playable.
base::Status play_after(const PositionArguments& arguments, GivenPosition& place) {
  const audience::TypedLine line =
      audience::read_typed_line(place.position, arguments.after, {}, arguments.letters);
  const audience::TypedMove& wrong = line.moves.empty() ? line.refused : line.ended_by;
  if (line.moves.empty() || wrong.problem != base::Code::not_a_move) {
    if (wrong.problem == base::Code::not_a_move) return usage("no moves to play in --after");
    return usage("--after: " + wrong.text + ": " + wrong.why);
  }
  for (const rules::Move move : line.moves) {
    place.earlier.push_back(place.position.key());
    place.position.play(move);
    place.after.push_back(move);
  }
  place.tries.clear();
  place.before = {};
  return base::done();
}

base::Result<GivenPosition> read_position(const PositionArguments& arguments) {
  GivenPosition place;
  if (!arguments.game.empty()) return from_game(arguments);
  if (!arguments.epd.empty()) {
    if (arguments.id.empty()) return usage("--epd needs --id ID");
    auto asked = puzzle::find_exercise(arguments.epd, arguments.id);
    if (!asked) return std::move(asked).faults();
    place.position = place.line.start = asked->puzzle.position;
    place.tries = std::move(asked->puzzle.tries);
    return place;
  }
  const auto position = read_fen(arguments.fen);
  if (!position) return position.faults();
  place.position = place.line.start = *position;
  return place;
}

}  // namespace

// Of each sort of fault the first, with what the others of it say besides; a text without the ranks
// of a board is told as what it is.
base::Result<rules::Position> read_fen(const std::string& text) {
  auto position = rules::parse_fen(text);
  if (position) return position;
  if (text.find('/') == std::string::npos) {
    constexpr std::size_t shown = 40;
    return usage("a position is written in FEN, as \"" + std::string(rules::start_fen) +
                 "\", not as \"" + base::elided(base::visible(text), shown) + "\"");
  }
  base::Faults told;
  for (const base::Fault& fault : position.faults()) {
    const auto same = std::ranges::find(told, fault.code, &base::Fault::code);
    if (same == told.end()) {
      told.push_back(fault);
    } else if (fault.code == base::Code::king_count) {
      same->detail += "; " + fault.detail;
    }
  }
  return told;
}

void add_position_options(CLI::App& command, PositionArguments& place) {
  command.add_option("--fen", place.fen, "The position")->type_name("FEN");
  command.add_option("--epd", place.epd, "The position with this --id in an EPD file")
      ->type_name("FILE");
  command.add_option("--id", place.id, "With --epd: which")->type_name("ID");
  command.add_option("--game", place.game, "The position at --ply or --move of a game")
      ->type_name("FILE");
  add_number(command, "--ply", place.ply, "With --game: half-moves played before the position",
             {.least = 0, .most = 1'000'000, .unit = "half-moves"})
      ->type_name("N");
  command.add_option("--move", place.move, "Instead of --ply: before this move, as 27w or 27b")
      ->type_name("MOVE");
  add_number(command, "--number", place.number, "With --game: which game of the file",
             {.least = 1, .most = 1'000'000'000})
      ->type_name("N")
      ->default_str("1");
  command.add_option("--after", place.after, "After these moves from there, as \"Nxe5 Rxg8\"")
      ->type_name("MOVES");
}

base::Result<GivenPosition> find_position(const PositionArguments& arguments, Ended ended) {
  const int given = (arguments.fen.empty() ? 0 : 1) + (arguments.epd.empty() ? 0 : 1) +
                    (arguments.game.empty() ? 0 : 1);
  if (given != 1) return usage("give the position by one of --fen, --epd and --game");
  if (!arguments.move.empty() && arguments.game.empty()) return usage("--move goes with --game");
  auto place = read_position(arguments);
  if (place && !arguments.after.empty()) {
    if (const auto played = play_after(arguments, *place); !played) return played.faults();
  }
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
