// What a typed phrase says of a move, before anyone asks whether the board agrees; and the words it
// is made of.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/rules/letters.hpp"
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
  // Counts only where no reading of a lower one fits the board: 0; 1 for what the capitals speak
  // against; for letters of a tongue that is not asked for 2 in English, 3 in one whose words are
  // known, 4 in the others.
  std::uint8_t rank = 0;

  friend bool operator==(const Reading&, const Reading&) = default;
};
inline constexpr std::uint8_t last_rank = 4;

struct Word {
  enum class Kind : std::uint8_t {
    piece,
    file,      // a letter a, c..h alone
    square,    // alone
    notation,  // a whole move or more than a square of it: "Nbd2", "exd", "o-o"
    takes,
    goes,    // to, goes, moves
    from,    // from, on, at
    stands,  // auf, en, na: where it goes, or where it is when more follows
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
  std::vector<Reading> readings;  // of `notation`: the ways in which its letters can be meant
  bool is_letter_b = false;       // piece: "b" alone, bishop or b-file
  bool is_capital = false;        // of such a b
  // Small letters without apostrophes, or a sign that ends a clause; empty for notation.
  std::string said;
};

// A man in every tongue, as one byte among letters: U+0001 to U+0006.
constexpr char sign_of(rules::PieceType man) {
  return static_cast<char>(man + 1);
}
constexpr rules::PieceType man_of_sign(char c) {
  return c >= 1 && c <= 6 ? static_cast<rules::PieceType>(c - 1) : rules::no_piece_type;
}
// Stands before a word that was Cyrillic.
inline constexpr char cyrillic_mark = '\7';

// ASCII, signs and marks; no other control characters.
std::string plain_letters(std::string_view text);

// `letters` are those of the tongue that is asked for: they go before the others' where both are
// legal. English words are always known.

// One run of letters and digits; talk is `other`.
Word look_up(std::string_view written, rules::Letters letters);
// The whole of `written` as notation or a square, whatever its case.
std::optional<Word> read_notation(std::string_view written, rules::Letters letters);

// The words of a message; never more than half as many again as its bytes.
std::vector<Word> typed_words(std::string_view text, rules::Letters letters);

// A phrase found in the words, and where the next one may begin.
struct Phrase {
  std::vector<Reading> readings;
  std::size_t end = 0;  // one past its last word
};

// All phrases that may begin with word `at`, the one to be tried first in front; none where it is a
// description or talk.
std::vector<Phrase> phrases_at(const std::vector<Word>& words, std::size_t at);

}  // namespace kairos::audience
