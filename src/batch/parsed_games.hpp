// The games of a ledger, each parsed once: whoever studies or reports a game gets its scoresheet.
//
// A game is known by the key of its text, so ledgers may share one such store. It keeps the first
// games that come, some thousand of usual length; the text of others is parsed when it is asked
// for.
#pragma once

#include <memory>
#include <string>

#include "kairos/base/result.hpp"
#include "kairos/batch/run.hpp"
#include "kairos/study/scoresheet.hpp"

#include "kept.hpp"

namespace kairos::batch {

class ParsedGames {
 public:
  using Sheet = std::shared_ptr<const study::Scoresheet>;
  static constexpr std::size_t usual_bytes = std::size_t{32} << 20;

  explicit ParsedGames(std::size_t most_bytes = usual_bytes) : kept_(most_bytes) {}

  // Null unless it is kept.
  [[nodiscard]] Sheet find(const GameKey& key) const { return kept_.find(key); }
  // The game whose export text this is; parsed unless it is known. Faults: it is no game.
  base::Result<Sheet> of_text(const GameKey& key, const std::string& text);
  // A game that has been parsed: replayed, and in its export form (pgn::exported).
  Sheet keep(const GameKey& key, pgn::Game game);

 private:
  Kept<GameKey, study::Scoresheet> kept_;
};

}  // namespace kairos::batch
