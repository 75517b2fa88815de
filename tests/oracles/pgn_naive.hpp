// A slow, obvious twin of the PGN reader: the whole file in memory, byte by byte, every question
// answered by looking at the text again.
//
// Written from the PGN standard (1994; sections 3.2 and 4 to 8) and the leniencies listed in
// kairos/pgn/reader.hpp, by someone who has not read the reader. It knows no window, no pieces, no
// blocks and no runs, and shares no code with the part it checks beyond the names of kinds and
// faults, and base::to_utf8.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "kairos/base/diagnostics.hpp"
#include "kairos/pgn/game.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/tokens.hpp"

namespace kairos::oracles {

// As pgn::Token, with what a TokenStream answers about it. A comment is always whole.
struct NaiveToken {
  pgn::TokenKind kind = pgn::TokenKind::end;
  std::string text;
  std::string name;
  int value = 0;
  bool damaged = false;
  bool cut = false;       // a tag longer than its bound, of whose text this is the front
  std::size_t begin = 0;  // where it stands in the file ...
  std::size_t end = 0;    // ... and one past its last byte
  std::size_t line = 0;
  std::size_t column = 0;
  bool begins_line = false;
  bool after_empty_line = false;
};

class NaiveFile {
 public:
  // `text` must outlive it.
  explicit NaiveFile(std::string_view text);
  // The first token that begins at this byte or behind it; at the end of the file `end`.
  [[nodiscard]] NaiveToken token(std::size_t at) const;
  // Where reading goes on when the rest of the line is passed over: at the next, or at a tag.
  [[nodiscard]] std::size_t pass_line(std::size_t at) const;
  [[nodiscard]] std::vector<NaiveToken> tokens() const;

 private:
  std::string_view text_;
  std::vector<std::size_t> line_starts_;
};

struct NaiveMove {
  std::string text;
  std::size_t parent = 0;
  std::vector<std::size_t> children;  // the main one first
  std::size_t line = 0;
  std::size_t column = 0;
  std::vector<int> nags;
  std::vector<std::string> before;
  std::vector<std::string> comments;
};

struct NaiveGame {
  std::vector<std::pair<std::string, std::string>> tags;
  std::vector<NaiveMove> moves;  // the first is none: the start position
  pgn::GameResult result = pgn::GameResult::unknown;
  std::size_t line = 0;
  std::size_t column = 0;
};

// Of a fault its detail is not told.
struct NaiveReading {
  std::vector<NaiveGame> games;
  std::vector<base::Fault> faults;
  std::string open;  // of the open differences (tests/pgn/twin_test.cpp) one met, "" if none
};

NaiveReading naive_games(std::string_view file, const pgn::ReaderLimits& limits = {});

}  // namespace kairos::oracles
