// Letters of the men in other languages (PGN standard, section 17), and as figures (U+2654 to
// U+2659, the white ones for both sides, as printers do: common practice). They are for people:
// what is stored as PGN, EPD or FEN keeps the English letters of the standard.
//
// Of Russian, which is not in the standard's table, the letters are from memory: its king has two.
// Each table names its men in the order of PieceType, as UTF-8. Pure functions.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "kairos/rules/piece.hpp"

namespace kairos::rules {

enum class Letters : std::uint8_t {
  english,
  czech,
  danish,
  dutch,
  estonian,
  finnish,
  french,
  german,
  hungarian,
  icelandic,
  italian,
  norwegian,
  polish,
  portuguese,
  romanian,
  russian,
  spanish,
  swedish,
  figures
};

struct Alphabet {
  Letters letters = Letters::english;
  std::string_view name;  // "german"
  std::array<std::string_view, piece_type_count> men;
};

// All, in the order of Letters.
std::span<const Alphabet> alphabets();
const Alphabet& alphabet_of(Letters letters);
// By its name in small letters.
std::optional<Letters> letters_named(std::string_view name);

// The text with every move in it in these letters. A move is SAN that stands alone: no letter,
// figure or slash (as in FEN) touches it.
std::string in_letters(std::string_view text, Letters letters);
// As much of a text's end as may be the begin of a move, or 0: whoever hands a text on in parts
// keeps that for the next.
std::size_t unfinished_move(std::string_view text);

}  // namespace kairos::rules
