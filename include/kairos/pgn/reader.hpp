// The streaming PGN reader: bytes in, one Game at a time out.
//
// Import format of the PGN standard (1994), sections 3 to 8, and files as they are. One pass,
// memory bounded by the largest game (itself bounded, see ReaderLimits), no recursion over the
// input. The reader never gives up on a file: damage is reported with its place and it goes on at
// the next game, so that games read + games skipped = games there. It does not know whether moves
// are legal; that is replay.hpp. Leniencies: one numbered list (each number has a row in
// tests/pgn/leniency_test.cpp).
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "kairos/base/bytes.hpp"
#include "kairos/base/diagnostics.hpp"
#include "kairos/pgn/game.hpp"

namespace kairos::pgn {

struct ReaderLimits {
  std::size_t comment_bytes = 1 << 16;       // the rest of a longer comment is passed over
  std::size_t game_comment_bytes = 1 << 23;  // of all comments and NAGs of one game
  std::size_t nodes = 1 << 19;               // moves of one game, variations included
  std::size_t depth = 1 << 17;               // variations inside one another
  std::size_t tags = 256;
  std::size_t faults = 32;  // told singly per game; further ones are told as a number
};

class Reader {
 public:
  // `source` and `diagnostics` must outlive the reader; `name` is the file's, for places.
  Reader(base::ByteSource& source, std::string name, base::Diagnostics& diagnostics,
         ReaderLimits limits = {});
  ~Reader();

  // The next game, or nothing at the end. Reuses nothing of earlier games.
  std::optional<Game> next();
  // The same into a game of the caller's, whose storage is used again; false at the end. The way to
  // read many games fast.
  bool next(Game& into);

  // Games met so far, good or bad, and bytes taken from the source.
  [[nodiscard]] std::uint64_t games() const;
  [[nodiscard]] std::uint64_t bytes() const;
  // Set when the source itself failed (a damaged gzip stream, a read error).
  [[nodiscard]] const std::optional<base::Fault>& failure() const;

 private:
  class Implementation;
  std::unique_ptr<Implementation> implementation_;
};

// Opens plain or gzip files (told by their first bytes, not their name); "-" is standard input.
base::Result<std::unique_ptr<base::ByteSource>> open_games(const std::string& path);

}  // namespace kairos::pgn
