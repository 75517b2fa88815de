// From a message to words.
//
// Everything that is no letter, digit or sign of notation ends a word; the end of a sentence is a
// word of its own (`other`), so that "my queen. e4!" is not a queen's move. Letters beyond ASCII
// are made plain before (typed_letters.cpp). Notation in one piece is recognised first
// (typed_notation.cpp); then words are looked up (typed_dictionary.cpp). Tested through
// kairos/audience/typed.hpp.
#include <algorithm>
#include <optional>

#include "kairos/audience/typed.hpp"
#include "kairos/base/text.hpp"

#include "typed_phrase.hpp"

namespace kairos::audience {

namespace {

using Kind = Word::Kind;

// Also a sign or mark (typed_phrase.hpp).
bool is_letter_or_digit(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         (c >= 1 && c <= cyrillic_mark);
}

bool is_o(char c) {
  return c == '0' || c == 'o' || c == 'O';
}

// Reads one run without blanks into words.
class Chunk {
 public:
  Chunk(std::string_view text, rules::Letters letters, std::vector<Word>& words)
      : text_(text), letters_(letters), words_(words) {}

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
           text_.find('@') != std::string_view::npos ||
           base::lower_case(text_.substr(0, 4)) == "www.";
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
      const std::size_t behind = end < text_.size() && text_[end] == '\'' ? end + 1 : end;
      const bool cut = behind < text_.size() && is_letter_or_digit(text_[behind]);
      if (cut || continues_castling(end)) continue;
      std::string piece(text_.substr(at_, length));
      if (const auto bracket = piece.find_first_of("(/"); bracket != std::string::npos) {
        if (bracket == 0 || (piece[bracket - 1] != '8' && piece[bracket - 1] != '1')) continue;
        piece[bracket] = '=';
      }
      std::replace(piece.begin(), piece.end(), ':', 'x');
      if (auto word = read_notation(piece, letters_)) {
        words_.push_back(std::move(*word));
        behind_number_ = false;
        at_ = end;
        return true;
      }
    }
    return false;
  }

  // "0-0" in "0-0-1" and in "1-0-0": more of the same follows, or stood before.
  [[nodiscard]] bool continues_castling(std::size_t end) const {
    if (at_ >= 2 && text_[at_ - 1] == '-' && is_o(text_[at_ - 2]) && is_o(text_[at_])) return true;
    return end + 1 < text_.size() && text_[end] == '-' &&
           (text_[end + 1] == '1' || is_o(text_[end + 1]));
  }

  bool take_word() {
    if (text_[at_] == '\'') return false;
    std::size_t end = at_;
    while (end < text_.size() && (is_letter_or_digit(text_[end]) || text_[end] == '\'')) ++end;
    if (end == at_) return false;
    std::string_view written = text_.substr(at_, end - at_);
    while (!written.empty() && written.back() == '\'') written.remove_suffix(1);
    const bool is_move_number = end < text_.size() && text_[end] == '.' &&
                                written.find_first_not_of("0123456789") == std::string_view::npos;
    if (!is_move_number) {
      words_.push_back(look_up(written, letters_));
      words_.back().said = base::lower_case(written);
      std::erase(words_.back().said, '\'');
    }
    behind_number_ = is_move_number;
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
        if (!behind_number_) words_.back().said = sign;
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
  rules::Letters letters_;
  std::vector<Word>& words_;
  std::size_t at_ = 0;
  bool behind_number_ = false;  // of a move: its dots end no clause
};

// "e.p." in any case as blanks.
void blank_en_passant(std::string& text) {
  const std::string lower = base::lower_case(text);
  for (std::size_t at = 0; (at = lower.find("e.p", at)) != std::string::npos; ++at) {
    text.replace(at, 3, 3, ' ');
    if (at + 3 < text.size() && text[at + 3] == '.') text[at + 3] = ' ';
  }
}

// "O - O" without its blanks.
void join_castling(std::string& text) {
  for (std::size_t at = 0; (at = text.find(" - ", at)) != std::string::npos; ++at) {
    const bool inside = at > 0 && at + 3 < text.size();
    if (inside && is_o(text[at - 1]) && is_o(text[at + 3])) text.replace(at, 3, "-");
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

std::vector<Word> typed_words(std::string_view text, rules::Letters letters) {
  text = text.substr(0, longest_typed);
  std::string plain = plain_letters(text);
  const auto is_small = [](char c) { return c >= 'a' && c <= 'z'; };
  // Capitals say something only beside small letters.
  if (std::none_of(text.begin(), text.end(), is_small)) plain = base::lower_case(plain);
  blank_en_passant(plain);
  join_castling(plain);
  for (char& c : plain) {
    if (c == '*' || c == '"' || c == '`' || c == '_') c = ' ';
  }
  if (auto castling = bare_castling(plain)) return {std::move(*castling)};
  std::vector<Word> words;
  for (const std::string_view chunk : base::fields(plain)) Chunk(chunk, letters, words).read();
  return words;
}

}  // namespace kairos::audience
