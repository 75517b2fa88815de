#include "kairos/study/scoresheet.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"

#include "clock.hpp"

namespace kairos::study {

namespace {

int rating_of(std::string_view text) {
  return static_cast<int>(std::clamp<std::int64_t>(base::to_integer(text).value_or(0), 0, 9999));
}

GameFacts facts_of(const pgn::Game& game) {
  const auto text = [&](std::string_view tag) {
    return std::string(base::cut(game.tag(tag), longest_fact));
  };
  GameFacts facts;
  facts.event = text("Event");
  facts.site = text("Site");
  facts.date = text("Date");
  facts.round = text("Round");
  facts.white = text("White");
  facts.black = text("Black");
  facts.result = pgn::to_string(game.result);
  facts.termination = text("Termination");
  facts.eco = text("ECO");
  facts.white_elo = rating_of(game.tag("WhiteElo"));
  facts.black_elo = rating_of(game.tag("BlackElo"));
  facts.file = game.place.file;
  facts.line = game.place.line;
  facts.number = game.place.game;
  return facts;
}

}  // namespace

rules::Move Scoresheet::move_at(int ply) const {
  const auto at = static_cast<std::size_t>(ply);
  return ply >= 0 && at < moves.size() ? moves[at] : rules::Move{};
}

Scoresheet scoresheet_of(pgn::Game game) {
  Scoresheet sheet;
  sheet.facts = facts_of(game);
  sheet.main_line = game.main_line();
  sheet.positions.push_back(game.start);
  for (const pgn::NodeId node : sheet.main_line) {
    sheet.moves.push_back(game.nodes[node].move);
    sheet.positions.push_back(sheet.positions.back().after(sheet.moves.back()));
    sheet.clock_seconds.push_back(clock_seconds(game, node));
  }
  for (const rules::Position& position : sheet.positions) sheet.keys.push_back(position.key());
  sheet.game = std::move(game);
  return sheet;
}

}  // namespace kairos::study
