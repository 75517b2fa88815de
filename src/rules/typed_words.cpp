// From a message to words.
//
// Everything that is no letter, digit or sign of notation ends a word; the end of a sentence is a
// word of its own (`other`), so that "my queen. e4!" is not a queen's move. Notation in one piece
// is recognised first, whatever its case; then words are looked up in one small list. Tested
// through kairos/rules/typed.hpp.
#include <algorithm>
#include <array>
#include <optional>

#include "kairos/base/text.hpp"
#include "kairos/rules/typed.hpp"

#include "typed_phrase.hpp"

namespace kairos::rules {

namespace {

using Kind = Word::Kind;

struct Entry {
  std::string_view word;
  Kind kind;
  PieceType piece = no_piece_type;
};

constexpr std::array<Entry, 105> dictionary{{
    {"king", Kind::piece, king},
    {"queen", Kind::piece, queen},
    {"rook", Kind::piece, rook},
    {"bishop", Kind::piece, bishop},
    {"knight", Kind::piece, knight},
    {"night", Kind::piece, knight},
    {"horse", Kind::piece, knight},
    {"pawn", Kind::piece, pawn},
    {"k", Kind::piece, king},
    {"q", Kind::piece, queen},
    {"r", Kind::piece, rook},
    {"n", Kind::piece, knight},
    {"p", Kind::piece, pawn},
    {"x", Kind::takes},
    {"takes", Kind::takes},
    {"take", Kind::takes},
    {"taking", Kind::takes},
    {"captures", Kind::takes},
    {"capture", Kind::takes},
    {"capturing", Kind::takes},
    {"grabs", Kind::takes},
    {"to", Kind::goes},
    {"into", Kind::goes},
    {"goes", Kind::goes},
    {"go", Kind::goes},
    {"going", Kind::goes},
    {"moves", Kind::goes},
    {"move", Kind::goes},
    {"jumps", Kind::goes},
    {"slides", Kind::goes},
    {"from", Kind::from},
    {"on", Kind::from},
    {"at", Kind::from},
    {"castle", Kind::castles},
    {"castles", Kind::castles},
    {"castling", Kind::castles},
    {"short", Kind::short_side},
    {"kingside", Kind::short_side},
    {"long", Kind::long_side},
    {"queenside", Kind::long_side},
    {"side", Kind::side},
    {"promotes", Kind::becomes},
    {"promote", Kind::becomes},
    {"promoting", Kind::becomes},
    {"promotion", Kind::becomes},
    {"becomes", Kind::becomes},
    {"becoming", Kind::becomes},
    {"makes", Kind::becomes},
    {"making", Kind::becomes},
    {"the", Kind::filler},
    {"an", Kind::filler},
    {"my", Kind::filler},
    {"our", Kind::filler},
    {"your", Kind::filler},
    {"his", Kind::filler},
    {"her", Kind::filler},
    {"their", Kind::filler},
    {"play", Kind::verb},
    {"plays", Kind::verb},
    {"playing", Kind::verb},
    {"try", Kind::verb},
    {"or", Kind::or_},
    {"not", Kind::not_},
    {"never", Kind::not_},
    {"don't", Kind::not_},
    {"dont", Kind::not_},
    {"isn't", Kind::not_},
    {"isnt", Kind::not_},
    {"avoid", Kind::not_},
    {"avoids", Kind::not_},
    {"attacking", Kind::describes},
    {"attacks", Kind::describes},
    {"attack", Kind::describes},
    {"threatening", Kind::describes},
    {"threatens", Kind::describes},
    {"hitting", Kind::describes},
    {"hits", Kind::describes},
    {"defending", Kind::describes},
    {"defends", Kind::describes},
    {"protecting", Kind::describes},
    {"protects", Kind::describes},
    {"guarding", Kind::describes},
    {"guards", Kind::describes},
    {"covering", Kind::describes},
    {"covers", Kind::describes},
    {"controlling", Kind::describes},
    {"controls", Kind::describes},
    {"pinning", Kind::describes},
    {"pins", Kind::describes},
    {"forking", Kind::describes},
    {"forks", Kind::describes},
    {"winning", Kind::describes},
    {"wins", Kind::describes},
    {"losing", Kind::describes},
    {"loses", Kind::describes},
    {"hangs", Kind::describes},
    {"hanging", Kind::describes},
    {"blocking", Kind::describes},
    {"blocks", Kind::describes},
    {"eyeing", Kind::describes},
    {"targeting", Kind::describes},
    {"against", Kind::describes},
    {"behind", Kind::describes},
    {"weakens", Kind::describes},
    {"weakening", Kind::describes},
}};

bool is_file(char c) {
  return c >= 'a' && c <= 'h';
}

bool is_rank(char c) {
  return c >= '1' && c <= '8';
}

PieceType promotion_letter(char c) {
  switch (c) {
    case 'q':
      return queen;
    case 'r':
      return rook;
    case 'b':
      return bishop;
    case 'n':
      return knight;
    default:
      return no_piece_type;
  }
}

PieceType man_letter(char c) {
  return c == 'k' ? king : c == 'p' ? pawn : promotion_letter(c);
}

Square square_of(char file, char rank) {
  return square_at(file - 'a', rank - '1');
}

// "e8q" and "e8=q" without the piece, which is put into `reading`.
std::string_view without_promotion(std::string_view text, Reading& reading) {
  if (text.size() < 3) return text;
  const PieceType piece = promotion_letter(text.back());
  const std::string_view rest = text.substr(0, text.size() - 1);
  const std::size_t end = rest.find_last_not_of('=');
  if (piece == no_piece_type || end == std::string_view::npos) return text;
  if (rest[end] != '1' && rest[end] != '8') return text;
  reading.promoted = piece;
  return rest.substr(0, end + 1);
}

// "bd2", "3xe5", "g1-f3", "xd4", "d4": what stands behind the man, or all of a pawn's move.
std::optional<Reading> read_way(std::string_view text, Reading reading) {
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

// Notation that begins with no man: a pawn's, or two squares, which say nothing of the man.
std::optional<Reading> read_unnamed(std::string_view text) {
  if (text.size() == 3 && text[1] == 'x' && is_file(text[0]) && is_file(text[2])) {
    const int aside = text[0] - text[2];
    if (aside != 1 && aside != -1) return std::nullopt;
    Reading reading;
    reading.man = pawn;
    reading.takes = true;
    reading.from_file = static_cast<std::int8_t>(text[0] - 'a');
    reading.to_file = static_cast<std::int8_t>(text[2] - 'a');
    return reading;
  }
  std::optional<Reading> reading = read_way(text, {});
  if (!reading) return std::nullopt;
  const bool from_square = reading->from_file >= 0 && reading->from_rank >= 0;
  const bool alone = reading->from_file < 0 && reading->from_rank < 0;
  if (!from_square && (!alone || !reading->takes)) reading->man = pawn;
  if (!from_square && reading->from_rank >= 0) return std::nullopt;  // "4e5"
  // "ee5" is no pawn's way; "ed5" takes.
  if (reading->man == pawn && reading->from_file >= 0) {
    if (reading->from_file == file_of(reading->to)) return std::nullopt;
    reading->takes = true;
  }
  return reading;
}

std::optional<Reading> read_named(std::string_view text) {
  const PieceType man = text.empty() ? no_piece_type : man_letter(text.front());
  if (man == no_piece_type) return std::nullopt;
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

// The whole of `written` as notation.
std::optional<Word> read_notation(std::string_view written) {
  const std::string text = base::lower_case(written);
  Word word;
  word.kind = Kind::notation;
  if (text.size() == 2 && is_file(text[0]) && is_rank(text[1])) {
    word.kind = Kind::square;
    word.square = square_of(text[0], text[1]);
    return word;
  }
  if (const auto castling = read_castling(text)) word.readings.push_back(*castling);
  if (const auto named = read_named(text)) word.readings.push_back(*named);
  if (const auto unnamed = read_unnamed(text)) word.readings.push_back(*unnamed);
  if (word.readings.empty()) return std::nullopt;
  word.proper = is_proper_bishop(written);
  return word;
}

std::optional<Word> look_up(std::string_view written) {
  const std::string text = base::lower_case(written);
  Word word;
  if (text == "b") {
    word.kind = Kind::piece;
    word.piece = bishop;
    word.file = 1;
    word.is_letter_b = true;
    word.proper = written == "B";
    return word;
  }
  if (text.size() == 1 && is_file(text[0])) {
    word.kind = Kind::file;
    word.file = static_cast<std::int8_t>(text[0] - 'a');
    return word;
  }
  for (const Entry& entry : dictionary) {
    if (entry.word != text) continue;
    word.kind = entry.kind;
    word.piece = entry.piece;
    return word;
  }
  return std::nullopt;
}

// UTF-8 signs of notation in ASCII, any other byte beyond ASCII as a blank.
std::string plain_ascii(std::string_view text) {
  constexpr std::string_view men = "KQRBNPKQRBNP";
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = [&](std::size_t k) {
      return i + k < text.size() ? static_cast<unsigned char>(text[i + k]) : 0u;
    };
    if (byte(0) < 0x80) {
      plain += text[i];
    } else if (byte(0) == 0xE2 && byte(1) == 0x99 && byte(2) >= 0x94 && byte(2) <= 0x9F) {
      plain += men[byte(2) - 0x94];  // U+2654 to U+265F
      i += 2;
    } else if (byte(0) == 0xE2 && byte(1) == 0x80 && byte(2) >= 0x90 && byte(2) <= 0x95) {
      plain += '-';  // U+2010 to U+2015
      i += 2;
    } else if (byte(0) == 0xE2 && byte(1) == 0x80 && byte(2) == 0x99) {
      plain += '\'';
      i += 2;
    } else if (byte(0) == 0xC3 && byte(1) == 0x97) {
      plain += 'x';  // the multiplication sign
      ++i;
    } else {
      plain += ' ';
    }
  }
  return plain;
}

bool is_letter_or_digit(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// Reads one run without blanks into words.
class Chunk {
 public:
  Chunk(std::string_view text, std::vector<Word>& words) : text_(text), words_(words) {}

  void read() {
    if (is_address()) {
      words_.emplace_back();
      return;
    }
    while (at_ < text_.size()) {
      if (take_notation() || take_word()) continue;
      take_sign();
    }
  }

 private:
  // Of a page or a mailbox: nothing in it is a move.
  [[nodiscard]] bool is_address() const {
    return text_.find("://") != std::string_view::npos ||
           text_.find('@') != std::string_view::npos || text_.substr(0, 4) == "www.";
  }

  // The longest piece of notation from here that ends where a word ends.
  bool take_notation() {
    constexpr std::size_t longest = 8;  // "Ng1xf3", "e7xd8=q"
    if (at_ > 0 && is_letter_or_digit(text_[at_]) && is_letter_or_digit(text_[at_ - 1])) {
      return false;
    }
    const std::size_t room = std::min(longest, text_.size() - at_);
    for (std::size_t length = room; length >= 2; --length) {
      const std::size_t end = at_ + length;
      const bool cut = end < text_.size() && (is_letter_or_digit(text_[end]) || text_[end] == '\'');
      if (cut || continues_castling(end)) continue;
      std::string piece(text_.substr(at_, length));
      if (const auto bracket = piece.find_first_of("(/"); bracket != std::string::npos) {
        if (bracket == 0 || (piece[bracket - 1] != '8' && piece[bracket - 1] != '1')) continue;
        piece[bracket] = '=';
      }
      std::replace(piece.begin(), piece.end(), ':', 'x');
      if (auto word = read_notation(piece)) {
        words_.push_back(std::move(*word));
        at_ = end;
        return true;
      }
    }
    return false;
  }

  // "0-0" in "0-0-1", "e4" in "e4-e5": more of the same follows.
  [[nodiscard]] bool continues_castling(std::size_t end) const {
    return end + 1 < text_.size() && text_[end] == '-' &&
           (text_[end + 1] == '0' || text_[end + 1] == '1' || text_[end + 1] == 'o' ||
            text_[end + 1] == 'O');
  }

  bool take_word() {
    std::size_t end = at_;
    while (end < text_.size() && (is_letter_or_digit(text_[end]) || text_[end] == '\'')) ++end;
    if (end == at_) return false;
    std::string_view written = text_.substr(at_, end - at_);
    while (!written.empty() && written.back() == '\'') written.remove_suffix(1);
    const bool is_move_number = end < text_.size() && text_[end] == '.' &&
                                written.find_first_not_of("0123456789") == std::string_view::npos;
    if (!is_move_number) words_.push_back(look_up(written).value_or(Word{}));
    at_ = end;
    return true;
  }

  void take_sign() {
    const char sign = text_[at_++];
    switch (sign) {
      case '.':
      case ',':
      case ';':
      case '!':
      case '?':
      case ':':
        words_.emplace_back();
        break;
      case '/':
        words_.emplace_back().kind = Kind::or_;
        break;
      case '=':
        words_.emplace_back().kind = Kind::becomes;
        break;
      default:
        break;
    }
  }

  std::string_view text_;
  std::vector<Word>& words_;
  std::size_t at_ = 0;
};

void erase_all(std::string& text, std::string_view part) {
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos;) {
    text.replace(at, part.size(), part.size(), ' ');
  }
}

// "oo" and "000" are castling only when there is nothing else: "ooo, nice".
std::optional<Word> bare_castling(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" !?.+#"), end = text.find_last_not_of(" !?.+#");
  if (begin == std::string_view::npos) return std::nullopt;
  const std::string_view core = text.substr(begin, end - begin + 1);
  if (core.size() < 2 || core.size() > 3) return std::nullopt;
  if (core.find_first_not_of("oO") != std::string_view::npos &&
      core.find_first_not_of('0') != std::string_view::npos) {
    return std::nullopt;
  }
  Word word;
  word.kind = Kind::notation;
  Reading reading;
  reading.kind = core.size() == 2 ? Reading::Kind::short_castling : Reading::Kind::long_castling;
  word.readings.push_back(reading);
  return word;
}

}  // namespace

std::vector<Word> typed_words(std::string_view text) {
  std::string plain = plain_ascii(text.substr(0, longest_typed));
  erase_all(plain, "e.p.");
  erase_all(plain, "e.p");
  for (char& c : plain) {
    const bool blank = static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
    if (blank || c == '*' || c == '"' || c == '`' || c == '_') c = ' ';
  }
  if (auto castling = bare_castling(plain)) return {std::move(*castling)};
  std::vector<Word> words;
  for (const std::string_view chunk : base::fields(plain)) Chunk(chunk, words).read();
  return words;
}

}  // namespace kairos::rules
