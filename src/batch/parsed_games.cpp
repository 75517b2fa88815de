#include "parsed_games.hpp"

#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"

namespace kairos::batch {

namespace {

std::size_t bytes_of(const std::vector<std::string>& texts) {
  std::size_t bytes = texts.size() * sizeof(std::string);
  for (const std::string& text : texts) bytes += text.size();
  return bytes;
}

std::size_t bytes_of(const study::Scoresheet& sheet) {
  std::size_t bytes = sheet.game.text.size() + sheet.game.nodes.size() * sizeof(pgn::Node) +
                      sheet.positions.size() * (sizeof(rules::Position) + sizeof(rules::Key) + 16);
  for (const pgn::Tag& tag : sheet.game.tags) bytes += sizeof(tag) + tag.value.size();
  for (const pgn::Annotation& annotation : sheet.game.annotations) {
    bytes += sizeof(annotation);
    bytes += bytes_of(annotation.comments) + bytes_of(annotation.before);
  }
  return bytes;
}

}  // namespace

base::Result<ParsedGames::Sheet> ParsedGames::of_text(const GameKey& key, const std::string& text) {
  if (Sheet known = kept_.find(key)) return known;
  base::FaultList told_at_intake;
  base::MemorySource source(text);
  pgn::Reader reader(source, "", told_at_intake);
  auto game = reader.next();
  if (!game || pgn::replay(*game, told_at_intake).state == pgn::Replay::State::refused) {
    return base::Fault{base::Code::ledger_damaged, "game: pgn cannot be read as a game", {}};
  }
  return keep(key, std::move(*game));
}

ParsedGames::Sheet ParsedGames::keep(const GameKey& key, pgn::Game game) {
  study::Scoresheet sheet = study::scoresheet_of(std::move(game));
  const std::size_t bytes = bytes_of(sheet);
  return kept_.put(key, std::move(sheet), bytes);
}

}  // namespace kairos::batch
