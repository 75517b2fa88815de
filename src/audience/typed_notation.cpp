// One piece of typed notation, in any case: "Nbd2", "nbd2", "e4e5", "exd", "e8=Q", "0-0", "Ng1-f3".
//
// Says what the letters may mean; which of it the board allows is seen later. A leading b may be
// the bishop or the pawn's file, so such a text has two readings. Tested through
// kairos/audience/typed.hpp.
#include <algorithm>

#include "kairos/base/text.hpp"

#include "typed_phrase.hpp"

namespace kairos::audience {

namespace {

bool is_file(char c) {
  return c >= 'a' && c <= 'h';
}

bool is_rank(char c) {
  return c >= '1' && c <= '8';
}

rules::PieceType promotion_letter(char c) {
  switch (c) {
    case 'q':
      return rules::queen;
    case 'r':
      return rules::rook;
    case 'b':
      return rules::bishop;
    case 'n':
      return rules::knight;
    default:
      return rules::no_piece_type;
  }
}

rules::PieceType man_letter(char c) {
  return c == 'k' ? rules::king : c == 'p' ? rules::pawn : promotion_letter(c);
}

rules::Square square_of(char file, char rank) {
  return rules::square_at(file - 'a', rank - '1');
}

// "e8q" and "e8=q" without the piece, which is put into `reading`.
std::string_view without_promotion(std::string_view text, Reading& reading) {
  if (text.size() < 3) return text;
  const rules::PieceType piece = promotion_letter(text.back());
  const std::string_view rest = text.substr(0, text.size() - 1);
  const std::size_t end = rest.find_last_not_of('=');
  if (piece == rules::no_piece_type || end == std::string_view::npos) return text;
  if (rest[end] != '1' && rest[end] != '8') return text;
  reading.promoted = piece;
  return rest.substr(0, end + 1);
}

bool is_from_square(const Reading& reading) {
  return reading.from_file >= 0 && reading.from_rank >= 0;
}

// "bd2", "3xe5", "g1-f3", "xd4", "d4": what stands behind the man, or all of a pawn's move.
std::optional<Reading> read_way(std::string_view text, Reading reading) {
  const bool in_passing = text.size() > 4 && text.substr(text.size() - 2) == "ep" &&
                          (text[text.size() - 3] == '3' || text[text.size() - 3] == '6');
  if (in_passing) text.remove_suffix(2);
  text = without_promotion(text, reading);
  if (text.size() < 2 || !is_rank(text.back()) || !is_file(text[text.size() - 2])) {
    return std::nullopt;
  }
  reading.to = square_of(text[text.size() - 2], text.back());
  text.remove_suffix(2);
  if (!text.empty() && (text.back() == 'x' || text.back() == '-')) {
    reading.takes = text.back() == 'x';
    text.remove_suffix(1);
  }
  if (!text.empty() && is_file(text.front())) {
    reading.from_file = static_cast<std::int8_t>(text.front() - 'a');
    text.remove_prefix(1);
  }
  if (!text.empty() && is_rank(text.front())) {
    reading.from_rank = static_cast<std::int8_t>(text.front() - '1');
    text.remove_prefix(1);
  }
  if (!text.empty()) return std::nullopt;
  return reading;
}

// "exd", "exd=n".
std::optional<Reading> read_files(std::string_view text) {
  if (text.size() < 3 || text[1] != 'x' || !is_file(text[0]) || !is_file(text[2])) {
    return std::nullopt;
  }
  const int aside = text[0] - text[2];
  if (aside != 1 && aside != -1) return std::nullopt;
  Reading reading;
  reading.man = rules::pawn;
  reading.takes = true;
  reading.from_file = static_cast<std::int8_t>(text[0] - 'a');
  reading.to_file = static_cast<std::int8_t>(text[2] - 'a');
  if (text.size() == 3) return reading;
  if (text.size() != 5 || text[3] != '=') return std::nullopt;
  reading.promoted = promotion_letter(text[4]);
  if (reading.promoted == rules::no_piece_type) return std::nullopt;
  return reading;
}

// Notation that begins with no man: a pawn's, or two squares, which say nothing of the man.
std::optional<Reading> read_unnamed(std::string_view text) {
  if (const auto by_files = read_files(text)) return by_files;
  std::optional<Reading> reading = read_way(text, {});
  if (!reading || is_from_square(*reading)) return reading;
  if (reading->from_rank >= 0) return std::nullopt;  // "4e5"
  if (reading->from_file < 0) {
    if (!reading->takes) reading->man = rules::pawn;
    return reading;
  }
  // "ee5" is no pawn's way; "ed5" takes.
  if (reading->from_file == file_of(reading->to)) return std::nullopt;
  reading->man = rules::pawn;
  reading->takes = true;
  return reading;
}

std::optional<Reading> read_named(std::string_view text) {
  const rules::PieceType man = text.empty() ? rules::no_piece_type : man_letter(text.front());
  if (man == rules::no_piece_type) return std::nullopt;
  Reading reading;
  reading.man = man;
  return read_way(text.substr(1), reading);
}

std::optional<Reading> read_castling(std::string_view text) {
  std::string zeros(text);
  std::replace(zeros.begin(), zeros.end(), 'o', '0');
  Reading reading;
  if (zeros == "0-0") {
    reading.kind = Reading::Kind::short_castling;
  } else if (zeros == "0-0-0") {
    reading.kind = Reading::Kind::long_castling;
  } else {
    return std::nullopt;
  }
  return reading;
}

// A capital B before small letters.
bool is_proper_bishop(std::string_view written) {
  return written.front() == 'B' && std::none_of(written.begin() + 1, written.end(), [](char c) {
           return (c >= 'A' && c <= 'H') || c == 'X';
         });
}

}  // namespace

// The whole of `written` as notation.
std::optional<Word> read_notation(std::string_view written) {
  const std::string text = base::lower_case(written);
  Word word;
  word.kind = Word::Kind::notation;
  if (text.size() == 2 && is_file(text[0]) && is_rank(text[1])) {
    word.kind = Word::Kind::square;
    word.square = square_of(text[0], text[1]);
    return word;
  }
  if (const auto castling = read_castling(text)) word.readings.push_back(*castling);
  const auto named = read_named(text), unnamed = read_unnamed(text);
  const bool proper = is_proper_bishop(written);
  if (named) word.readings.push_back(*named);
  if (unnamed) word.readings.push_back(*unnamed);
  if (word.readings.empty()) return std::nullopt;
  // "b2c3" is from square to square before it is a bishop from the second rank; "B2c3" is not.
  const bool squares = unnamed && is_from_square(*unnamed);
  if (squares && !proper) std::reverse(word.readings.begin(), word.readings.end());
  word.in_order = squares || proper;
  return word;
}

}  // namespace kairos::audience
