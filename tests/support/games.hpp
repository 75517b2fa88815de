// A small way to write games in tests: a FEN, the moves in SAN, tags and a result.
//
// The game is built and replayed as the reader would leave it; a move that is not legal fails the
// test at once.
#pragma once

#include <catch2/catch.hpp>
#include <string_view>

#include "kairos/base/text.hpp"
#include "kairos/pgn/game.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::support {

inline rules::Position position(std::string_view fen) {
  auto read = rules::parse_fen(fen);
  INFO(fen);
  REQUIRE(read.ok());
  return *read;
}

inline rules::Move move(const rules::Position& p, std::string_view san) {
  auto read = rules::parse_san(p, san);
  INFO(rules::to_fen(p) << " " << san);
  REQUIRE(read.ok());
  return *read;
}

// "Nf3 d5 e3" played from `p`.
inline std::vector<rules::Move> line(rules::Position p, std::string_view moves) {
  std::vector<rules::Move> made;
  for (const std::string_view san : base::fields(moves)) {
    made.push_back(move(p, san));
    p.play(made.back());
  }
  return made;
}

inline pgn::Game game(std::string_view fen, std::string_view moves,
                      pgn::GameResult result = pgn::GameResult::unknown) {
  pgn::Game g = pgn::empty_game();
  g.start = position(fen);
  if (fen != rules::start_fen) {
    g.set_tag("SetUp", "1");
    g.set_tag("FEN", fen);
  }
  g.set_tag("White", "Aronov");
  g.set_tag("Black", "Bellini");
  g.set_tag("Result", pgn::to_string(result));
  g.result = result;
  g.place.game = 1;
  pgn::NodeId at = 0;
  for (const rules::Move m : line(g.start, moves)) at = g.add_child(at, m);
  return g;
}

}  // namespace kairos::support
