#include "tasks.hpp"

#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"

namespace kairos::batch {

base::Result<pgn::Game> read_game(const std::string& text) {
  base::FaultList told_at_intake;
  base::MemorySource source(text);
  pgn::Reader reader(source, "", told_at_intake);
  auto game = reader.next();
  if (!game || pgn::replay(*game, told_at_intake).state == pgn::Replay::State::refused) {
    return base::Fault{base::Code::ledger_damaged, "game: pgn cannot be read as a game", {}};
  }
  return std::move(*game);
}

base::Result<std::optional<study::Study>> survey_text(const std::string& text,
                                                      const study::Settings& settings,
                                                      search::Searcher& searcher,
                                                      const std::atomic<bool>* stop) {
  const auto game = read_game(text);
  if (!game) return game.faults();
  return study::survey(*game, settings, searcher, stop);
}

Findings verify_and_compose(study::Study study, const study::Candidate& candidate,
                            const study::Settings& settings, search::Searcher& searcher) {
  Findings findings;
  findings.ply = candidate.ply;
  const std::uint64_t before = searcher.nodes();
  findings.moments = study::verify(study, candidate, settings, searcher);
  study.moments = findings.moments;  // composing looks at the moments beside
  for (const study::Moment& moment : findings.moments) {
    puzzle::Composition composition = puzzle::compose(study, moment, settings, searcher);
    if (composition.puzzle) {
      findings.puzzles.push_back(std::move(*composition.puzzle));
    } else {
      findings.drops.push_back(composition.drop);
    }
  }
  findings.nodes = searcher.nodes() - before;
  return findings;
}

}  // namespace kairos::batch
