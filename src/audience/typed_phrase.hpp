// What a typed phrase says of a move, before anyone asks whether the board agrees; and the words it
// is made of.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/rules/piece.hpp"
#include "kairos/rules/square.hpp"

namespace kairos::audience {

// One way to understand a phrase. What is not said stays empty.
struct Reading {
  enum class Kind : std::uint8_t { man, castling, short_castling, long_castling };

  Kind kind = Kind::man;
  rules::PieceType man = rules::no_piece_type;  // no_piece_type: any man
  std::int8_t from_file = -1;
  std::int8_t from_rank = -1;
  bool takes = false;
  rules::PieceType taken = rules::no_piece_type;
  rules::Square to = rules::no_square;
  std::int8_t to_file = -1;  // "exd": the square is not said
  rules::PieceType promoted = rules::no_piece_type;
};

struct Word {
  enum class Kind : std::uint8_t {
    piece,
    file,      // a letter a, c..h alone
    square,    // alone
    notation,  // a whole move or more than a square of it: "Nbd2", "exd", "o-o"
    takes,
    goes,  // to, goes, moves
    from,  // from, on, at
    castles,
    short_side,
    long_side,
    becomes,  // promotes, =, makes
    filler,   // the, my
    verb,     // play, try: a move may follow
    or_,
    not_,
    describes,  // attacking, defends: a square behind it is no move
    side,       // "king side"
    other       // talk, or the end of a sentence
  };

  Kind kind = Kind::other;
  rules::PieceType piece = rules::no_piece_type;
  std::int8_t file = -1;
  rules::Square square = rules::no_square;
  // Of `notation`: one reading, or two where a b may be the bishop or the pawn.
  std::vector<Reading> readings;
  bool in_order = false;     // the second reading only where the first does not fit
  bool is_letter_b = false;  // piece: "b" alone, bishop or b-file
  // Small letters without apostrophes, or a sign that ends a clause; empty for notation.
  std::string said;
};

// One run of letters and digits; talk is `other`.
Word look_up(std::string_view written);
// The whole of `written` as notation or a square, whatever its case.
std::optional<Word> read_notation(std::string_view written);

// The words of a message; never more than its bytes.
std::vector<Word> typed_words(std::string_view text);

// A phrase found in the words, and where the next one may begin.
struct Phrase {
  std::vector<Reading> readings;
  bool in_order = false;  // as in Word
  std::size_t end = 0;    // one past its last word
};

// All phrases that may begin with word `at`, the one to be tried first in front; none where it is a
// description or talk.
std::vector<Phrase> phrases_at(const std::vector<Word>& words, std::size_t at);

}  // namespace kairos::audience
