// One piece of typed notation, in any case: "Nbd2", "nbd2", "e4e5", "exd", "e8=Q", "0-0", "Ng1-f3",
// "Sf3", "e8D".
//
// Says what the letters may mean; which of it the board allows is seen later. First the shape is
// found: [letter of a man] [from] [takes] to [letter of what it becomes]. Then each tongue
// (rules/letters.hpp) that knows its letters gives a reading: that of the tongue asked for goes
// first, then English, then the tongues whose words are known (typed_dictionary.cpp), then all
// others. The last have no say about letters that are English ones, and none but the tongue asked
// for about pawns: nobody writes these. A
// leading letter may also be a pawn's file, so such a text has more readings; of a small b neither
// the bishop nor the pawn goes first. Tested through kairos/audience/typed.hpp.
#include <algorithm>

#include "kairos/base/text.hpp"

#include "typed_phrase.hpp"

namespace kairos::audience {

namespace {

using rules::Letters;

bool is_file(char c) {
  return c >= 'a' && c <= 'h';
}

bool is_rank(char c) {
  return c >= '1' && c <= '8';
}

// A reading whose men are still letters, small ones; 0 for none.
struct Shape {
  Reading reading;
  char man = 0;
  char promoted = 0;
};

// The man of a small letter or sign.
rules::PieceType man_of_letter(const rules::Alphabet& alphabet, char letter) {
  if (const rules::PieceType man = man_of_sign(letter); man != rules::no_piece_type) return man;
  for (std::size_t man = 0; man < alphabet.men.size(); ++man) {
    const std::string_view known = alphabet.men[man];
    if (known.size() == 1 && known[0] == letter - 'a' + 'A') {
      return static_cast<rules::PieceType>(man);
    }
  }
  return rules::no_piece_type;
}

bool is_english(char letter) {
  return man_of_letter(rules::alphabet_of(Letters::english), letter) != rules::no_piece_type;
}

// In any tongue.
bool is_letter_of_a_man(char letter) {
  static const std::string known = [] {
    std::string letters;
    for (const rules::Alphabet& alphabet : rules::alphabets()) {
      for (const std::string_view man : alphabet.men) {
        if (man.size() == 1) letters += base::lower_case(man);
      }
    }
    return letters;
  }();
  return known.find(letter) != std::string::npos || man_of_sign(letter) != rules::no_piece_type;
}

bool has_words(Letters letters) {
  using enum Letters;
  return letters == english || letters == german || letters == french || letters == spanish ||
         letters == italian || letters == dutch || letters == polish || letters == russian ||
         letters == portuguese;
}

// Whether a tongue that is not asked for has a say about the letter.
bool may_mean(const rules::Alphabet& alphabet, char letter) {
  if (letter == 0 || alphabet.letters == Letters::english) return true;
  if (is_english(letter) && !has_words(alphabet.letters)) return false;
  return man_of_letter(alphabet, letter) != rules::pawn || letter == sign_of(rules::pawn);
}

std::uint8_t rank_of(Letters letters) {
  return letters == Letters::english ? 2 : has_words(letters) ? 3 : last_rank;
}

// The shape in that tongue; none where a letter is not one of its men, or no pawn becomes it.
std::optional<Reading> meaning(const Shape& shape, const rules::Alphabet& alphabet) {
  Reading reading = shape.reading;
  if (shape.man != 0) {
    reading.man = man_of_letter(alphabet, shape.man);
    if (reading.man == rules::no_piece_type) return std::nullopt;
  }
  if (shape.promoted != 0) {
    reading.promoted = man_of_letter(alphabet, shape.promoted);
    const bool may_be = reading.promoted != rules::no_piece_type &&
                        reading.promoted != rules::pawn && reading.promoted != rules::king;
    if (!may_be) return std::nullopt;
  }
  return reading;
}

// Each reading once, with the lowest rank that any tongue gives it.
void add(std::vector<Reading>& readings, Reading reading, std::uint8_t rank) {
  for (Reading& known : readings) {
    reading.rank = known.rank;
    if (known != reading) continue;
    known.rank = std::min(known.rank, rank);
    return;
  }
  reading.rank = rank;
  readings.push_back(reading);
}

// Adds what the shape means: with that rank in the tongue asked for.
void add_meanings(std::vector<Reading>& readings, const Shape& shape, Letters letters,
                  std::uint8_t rank) {
  if (const auto own = meaning(shape, rules::alphabet_of(letters))) add(readings, *own, rank);
  if (shape.man == 0 && shape.promoted == 0) return;
  for (const rules::Alphabet& alphabet : rules::alphabets()) {
    if (!may_mean(alphabet, shape.man) || !may_mean(alphabet, shape.promoted)) continue;
    if (const auto other = meaning(shape, alphabet)) {
      add(readings, *other, rank_of(alphabet.letters));
    }
  }
}

rules::Square square_of(char file, char rank) {
  return rules::square_at(file - 'a', rank - '1');
}

// "e8q" and "e8=q" without the piece, which is put into `shape`.
std::string_view without_promotion(std::string_view text, Shape& shape) {
  if (text.size() < 3) return text;
  const std::string_view rest = text.substr(0, text.size() - 1);
  const std::size_t end = rest.find_last_not_of('=');
  if (end == std::string_view::npos || (rest[end] != '1' && rest[end] != '8')) return text;
  if (!is_letter_of_a_man(text.back())) return text;
  shape.promoted = text.back();
  return rest.substr(0, end + 1);
}

bool is_from_square(const Reading& reading) {
  return reading.from_file >= 0 && reading.from_rank >= 0;
}

// "bd2", "3xe5", "g1-f3", "xd4", "d4": what stands behind the man, or all of a pawn's move.
std::optional<Shape> read_way(std::string_view text, Shape shape) {
  const bool in_passing = text.size() > 4 && text.substr(text.size() - 2) == "ep" &&
                          (text[text.size() - 3] == '3' || text[text.size() - 3] == '6');
  if (in_passing) text.remove_suffix(2);
  text = without_promotion(text, shape);
  if (text.size() < 2 || !is_rank(text.back()) || !is_file(text[text.size() - 2])) {
    return std::nullopt;
  }
  Reading& reading = shape.reading;
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
  return shape;
}

// "exd", "exd=n".
std::optional<Shape> read_files(std::string_view text) {
  if (text.size() < 3 || text[1] != 'x' || !is_file(text[0]) || !is_file(text[2])) {
    return std::nullopt;
  }
  const int aside = text[0] - text[2];
  if (aside != 1 && aside != -1) return std::nullopt;
  Shape shape;
  shape.reading.man = rules::pawn;
  shape.reading.takes = true;
  shape.reading.from_file = static_cast<std::int8_t>(text[0] - 'a');
  shape.reading.to_file = static_cast<std::int8_t>(text[2] - 'a');
  if (text.size() == 3) return shape;
  if (text.size() != 5 || text[3] != '=' || !is_letter_of_a_man(text[4])) return std::nullopt;
  shape.promoted = text[4];
  return shape;
}

// Notation that begins with no man: a pawn's, or two squares, which say nothing of the man.
std::optional<Shape> read_unnamed(std::string_view text) {
  if (const auto by_files = read_files(text)) return by_files;
  std::optional<Shape> shape = read_way(text, {});
  if (!shape || is_from_square(shape->reading)) return shape;
  Reading& reading = shape->reading;
  if (reading.from_rank >= 0) return std::nullopt;  // "4e5"
  if (reading.from_file < 0) {
    if (!reading.takes) reading.man = rules::pawn;
    return shape;
  }
  // "ee5" is no pawn's way; "ed5" takes.
  if (reading.from_file == file_of(reading.to)) return std::nullopt;
  reading.man = rules::pawn;
  reading.takes = true;
  return shape;
}

std::optional<Shape> read_named(std::string_view text) {
  if (text.empty() || !is_letter_of_a_man(text.front())) return std::nullopt;
  return read_way(text.substr(1), {.reading = {}, .man = text.front()});
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

// A capital before small letters.
bool is_proper(std::string_view written) {
  return written.front() >= 'A' && written.front() <= 'Z' &&
         std::none_of(written.begin() + 1, written.end(),
                      [](char c) { return (c >= 'A' && c <= 'H') || c == 'X'; });
}

// In that tongue: a small b is the bishop as often as the file.
bool is_open(std::string_view text, Letters letters) {
  return text.front() == 'b' && man_of_letter(rules::alphabet_of(letters), 'b') == rules::bishop;
}

}  // namespace

// The whole of `written` as notation.
std::optional<Word> read_notation(std::string_view written, Letters letters) {
  const std::string text = base::lower_case(written);
  Word word;
  word.kind = Word::Kind::notation;
  if (text.size() == 2 && is_file(text[0]) && is_rank(text[1])) {
    word.kind = Word::Kind::square;
    word.square = square_of(text[0], text[1]);
    return word;
  }
  std::vector<Reading>& readings = word.readings;
  if (const auto castling = read_castling(text)) readings.push_back(*castling);
  const auto named = read_named(text), unnamed = read_unnamed(text);
  // "b2c3" is from square to square before it is a bishop from the second rank; "B2c3" is not.
  const bool squares = unnamed && is_from_square(unnamed->reading);
  const bool proper = is_proper(written);
  const bool man_first = proper || (!squares && is_open(text, letters));
  if (named && man_first) add_meanings(readings, *named, letters, 0);
  if (unnamed) add_meanings(readings, *unnamed, letters, named && proper ? 1 : 0);
  if (named && !man_first) add_meanings(readings, *named, letters, unnamed ? 1 : 0);
  if (readings.empty()) return std::nullopt;
  std::ranges::stable_sort(readings, {}, &Reading::rank);
  return word;
}

}  // namespace kairos::audience
