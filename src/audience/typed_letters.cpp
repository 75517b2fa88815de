// From the letters that people type to the ASCII that the rest of the reader knows.
//
// Figures (U+2654 to U+265F) become signs that are men in every tongue (`sign_of`). Latin letters
// lose their marks ("laufer", "wieza"). A Cyrillic word is written in Latin letters behind a mark
// of its own, so that it is never taken for another tongue's word; where Cyrillic letters stand in
// notation ("Cf3" with a Cyrillic C, "exd5" with a Cyrillic x) the man is a sign, and letters that
// look like Latin ones are these. Everything else beyond ASCII, and control characters, is a blank.
#include <algorithm>
#include <array>
#include <optional>

#include "kairos/base/text.hpp"

#include "typed_phrase.hpp"

namespace kairos::audience {

namespace {

// U+00C0 to U+00FF and U+0100 to U+017F without their marks, in small letters.
constexpr std::string_view latin_1 =
    "aaaaaaaceeeeiiiidnoooooxouuuuytsaaaaaaaceeeeiiiidnooooo ouuuuyty";
constexpr std::string_view latin_a =
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkkllllllllllnnnnnnnnnooooooo"
    "orrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";
static_assert(latin_1.size() == 64 && latin_a.size() == 128);

// U+0430 to U+044F.
constexpr std::array<std::string_view, 32> cyrillic{
    "a", "b", "v", "g", "d", "e", "zh", "z",  "i",  "j",   "k", "l", "m", "n", "o",  "p",
    "r", "s", "t", "u", "f", "h", "c",  "ch", "sh", "sch", "",  "y", "j", "e", "yu", "ya"};

// The letter in the row above; U+0451 is written as e.
std::optional<char32_t> cyrillic_small(char32_t point) {
  if (point == 0x401 || point == 0x451) return 0x435;
  if (point >= 0x410 && point <= 0x42F) return point + 0x20;
  if (point >= 0x430 && point <= 0x44F) return point;
  return std::nullopt;
}

bool is_ascii_word(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// The Latin letter of notation that a Cyrillic one looks like.
char look_alike(char32_t small) {
  switch (small) {
    case 0x430:
      return 'a';
    case 0x441:
      return 'c';
    case 0x435:
      return 'e';
    case 0x445:
      return 'x';
    default:
      return '\0';
  }
}

rules::PieceType man_of(char32_t small) {
  switch (small) {
    case 0x43A:
      return rules::knight;
    case 0x444:
      return rules::queen;
    case 0x43B:
      return rules::rook;
    case 0x441:
      return rules::bishop;
    case 0x43F:
      return rules::pawn;
    default:
      return rules::no_piece_type;
  }
}

class Folder {
 public:
  explicit Folder(std::string_view text) : text_(text) {}

  std::string fold() {
    while (at_ < text_.size()) {
      if (cyrillic_small(point_at(at_))) {
        cyrillic_run();
      } else {
        take();
      }
    }
    return std::move(plain_);
  }

 private:
  [[nodiscard]] base::Character character(std::size_t at) const {
    return base::first_character(text_.substr(at));
  }
  [[nodiscard]] char32_t point_at(std::size_t at) const {
    return at < text_.size() ? character(at).point.value_or(U' ') : U' ';
  }

  void take() {
    const base::Character next = character(at_);
    at_ += next.size;
    const char32_t point = next.point.value_or(U' ');
    if (point >= 0x20 && point < 0x7F) {
      plain_ += static_cast<char>(point);
    } else if (point >= 0x2654 && point <= 0x265F) {
      plain_ += sign_of(static_cast<rules::PieceType>(rules::king - (point - 0x2654) % 6));
    } else if (point >= 0xC0 && point <= 0xFF) {
      plain_ += latin_1[point - 0xC0];
    } else if (point >= 0x100 && point <= 0x17F) {
      plain_ += latin_a[point - 0x100];
    } else if (point >= 0x2010 && point <= 0x2015) {
      plain_ += '-';
    } else if (point == 0x2019) {
      plain_ += '\'';
    } else if (point < 0x300 || point > 0x36F) {  // a mark that stands for itself is left out
      plain_ += ' ';
    }
  }

  void cyrillic_run() {
    std::u32string small;
    const bool is_capital = point_at(at_) < 0x430;
    for (std::size_t next = at_; const auto letter = cyrillic_small(point_at(next));
         next += character(next).size) {
      small += *letter;
      end_ = next + character(next).size;
    }
    const char behind = end_ < text_.size() ? text_[end_] : ' ';
    if (!notation(small, is_capital, behind)) word(small, behind);
    at_ = end_;
  }

  // Puts letters of notation: a man, letters that look like Latin ones, or both.
  bool notation(const std::u32string& small, bool is_capital, char behind) {
    const bool touches = is_ascii_word(behind) || behind == ':' || behind == '-';
    const bool is_king = small.starts_with(U"\u043A\u0440");
    const rules::PieceType man = is_king ? rules::king : man_of(small.front());
    const bool is_rank = behind >= '1' && behind <= '8';
    if (small == U"\u043E" && (behind == '-' || plain_.ends_with('-'))) {
      plain_ += 'o';
      return true;
    }
    std::size_t men = man == rules::no_piece_type ? 0 : is_king ? 2 : 1;
    // A c alone before its rank is the file ("c4"), but for a large one with more behind ("C1d2");
    // a man alone is written large.
    const bool goes_on = is_capital && end_ + 1 < text_.size() && is_ascii_word(text_[end_ + 1]);
    const bool is_file = is_rank && look_alike(small.front()) != '\0' && !goes_on;
    if (small.size() == men && (is_file || (!touches && !is_capital))) men = 0;
    if (men == 0 && !touches) return false;
    std::string letters;
    for (const char32_t letter : small.substr(men)) {
      if (look_alike(letter) == '\0') return false;
      letters += look_alike(letter);
    }
    if (!letters.empty() && !touches) return false;
    if (men > 0) plain_ += sign_of(man);
    plain_ += letters;
    return true;
  }

  void word(const std::u32string& small, char behind) {
    plain_ += cyrillic_mark;
    for (const char32_t letter : small) plain_ += cyrillic[letter - 0x430];
    if (is_ascii_word(behind)) plain_ += ' ';
  }

  std::string_view text_;
  std::string plain_;
  std::size_t at_ = 0, end_ = 0;
};

}  // namespace

std::string plain_letters(std::string_view text) {
  return Folder(text).fold();
}

}  // namespace kairos::audience
