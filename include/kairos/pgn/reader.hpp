// The streaming PGN reader: bytes in, one Game at a time out.
//
// Import format of the PGN standard (1994), sections 3 to 8, and files as they are. One pass,
// memory bounded by the largest game (itself bounded, see ReaderLimits), no recursion over the
// input. The reader never gives up on a file: damage is reported with its place and it goes on at
// the next game, so that games read + games skipped = games there. It does not know whether moves
// are legal; that is replay.hpp. Text in units of two bytes (UTF-16) is a failure, not read.
//
// Leniencies; (!) marks those that are told as faults. Each has a row in
// tests/pgn/leniency_test.cpp:
//   1. a UTF-8 byte order mark, at the front or between games
//   2. lines ending with LF, CR LF or CR, mixed
//   3. text that is not valid UTF-8, tag by tag and comment by comment: read as ISO 8859-1
//   4. NUL and other control bytes: blanks
//   5. no empty line, or no line end at all, between tags, moves and the next game
//   6. empty lines anywhere
//   7. text that belongs to no game, or stands before the moves: passed over by lines (!)
//   8. quotes in a tag's value that nobody escaped, backslashes that escape nothing
//   9. blanks inside a tag's brackets; a tag without its ] or quotes (!): read to the line's end
//   10. a tag, or the whole tag section, that comes twice (!): the first of each name counts
//   11. a tag section that comes again with other values: a game without moves before it
//   12. no tags: a game begins with a move, with its number or not, or with a result; it may be
//       nothing but a result, and one behind an empty line is then the next game
//   13. move numbers with any number of dots, with a colon, dash or closing bracket, glued to the
//       move, wrong, or left out
//   14. marks (! ? and their pairs), glued or apart: NAGs 1 to 6
//   15. a NAG that is not $0 to $255: passed over (!)
//   16. evaluation signs (+- = -/+), alone or glued to a move: NAGs 10 to 20
//   17. a line that begins with %: passed over, but not inside a comment
//   18. `;` comments; several comments after one move; line ends in a comment: one space
//   19. { inside a comment, when its } follows before an empty line
//   20. a comment without its } (!): ends at the next game's tags
//   21. a variation without its ) (!); a result inside a variation
//   22. a ) without its ( (!)
//   23. a variation before any move: an alternative to the first
//   24. a variation without moves: its comments go to the move before it
//   25. results as 1/2, with a colon or a dash for the hyphen, with a letter O for the zero, with
//       the sign for one half, with blanks around the hyphen
//   26. several results, or one unlike the Result tag (!): the last counts; a move number that goes
//       on counting takes the game up again
//   27. no result (!): the Result tag's, else none
//   28. no result and no tags after it (!): number 1 behind an empty line begins the next game
//   29. comments, NAGs and variations after the result: of the last move
//   30. e.p. after a move, (=), commas and lone + or #: passed over
//   31. anything else among the moves, < > and [ ] among it: passed over (!)
//   32. castling with zeros or with blanks around the hyphens, e8Q and e8(Q), long algebraic, null
//       moves, figures, other languages' letters, and whatever else may be meant as a move (ed,
//       P-K4): moves as written, for replay to judge
//   33. no-break and zero-width spaces, the one-character ellipsis: blanks
//   34. > at the front of lines, as in quoted mail: passed over
//   35. 0-0 behind the moves where the Result tag has it too (!): no castling but both lost, for
//       which there is no result
//   36. a tag longer than 8 KB (!): cut, and the rest of its line, up to another tag, passed over
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
  std::size_t tag_bytes = 1 << 13;           // of a tag's value, as it is kept in UTF-8; ...
  std::size_t comment_bytes = 1 << 16;       // ... of a comment; the rest is passed over
  std::size_t game_comment_bytes = 1 << 23;  // of all comments and NAGs of one game
  // Moves of the main line. No game is longer in which a draw ends it after 75 moves without a
  // capture or pawn move: 16 pawns make 96 moves, 30 men are captured, 8 of these captures at least
  // are pawn moves too, so the game can begin to count 118 times, and 118 times 75 are 8,850 moves.
  std::size_t plies = 17'700;
  std::size_t variation_plies = 1 << 17;  // of all variations of one game; the main line goes on
  std::size_t depth = 1 << 16;            // variations inside one another
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
