// Studies, moments and puzzles as JSON and back: what the ledger's records hold.
//
// The round trip is exact. Positions are FEN; moves are in coordinates ("e2e4", "e7e8q", "e1g1" for
// castling, "0000" for a null move, "-" for no move), a line is such moves with blanks between.
// Reading plays every line on its position, so that a record that decodes holds legal moves only,
// whoever wrote it; refutations and the lines of reasons start where their role says
// (study::position_of). Enumerations are numbers, those of reasons names.
// Faults: json_damaged with the member's name.
//
// What depends on the run and not on the game is left out and filled in by the reader of the
// ledger: GameFacts::file, line, number and Puzzle::game.
#pragma once

#include <cstdint>
#include <vector>

#include "kairos/base/json.hpp"
#include "kairos/puzzle/compose.hpp"
#include "kairos/puzzle/puzzle.hpp"
#include "kairos/study/study.hpp"

namespace kairos::batch {

// All that came of verifying one candidate.
struct Findings {
  int ply = 0;
  std::vector<study::Moment> moments{};
  std::vector<puzzle::Puzzle> puzzles{};
  std::vector<puzzle::Drop> drops{};  // of moments that made no puzzle
  // Of the searcher: proofs (of mates, of material) and glances are not among them.
  std::uint64_t nodes = 0;

  friend bool operator==(const Findings&, const Findings&) = default;
};

// Without the moments: those are in Findings.
base::Json encode(const study::Study& study);
base::Result<study::Study> decode_study(const base::Json& json);

base::Json encode(const Findings& findings);
base::Result<Findings> decode_findings(const base::Json& json);

}  // namespace kairos::batch
