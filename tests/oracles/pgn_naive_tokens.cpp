// Tokens of the standard's sections 4 to 8 and of leniencies 2, 4, 8, 9, 13 to 20, 25 and 30 to 34.
#include <algorithm>
#include <optional>
#include <utility>

#include "oracles/pgn_naive.hpp"

namespace kairos::oracles {

namespace {

using pgn::GameResult;
using pgn::TokenKind;
using Text = std::string_view;

bool is_in(char c, Text set) {
  return set.find(c) != Text::npos;
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool is_high(char c) {
  return static_cast<unsigned char>(c) >= 0x80;
}
bool is_line_end(char c) {
  return c == '\n' || c == '\r';
}
bool is_space(char c) {
  return c == ' ' || c == '\t';
}
bool is_control(char c) {
  return static_cast<unsigned char>(c) <= ' ';
}

// Characters that stand for others, longest first: dashes for the hyphen, one half, figures for the
// knight. A byte alone is ISO 8859-1 or its common extension.
constexpr Text half = "\x01";
struct Alias {
  Text bytes;
  Text plain;
};
const std::vector<Alias>& aliases() {
  static const std::vector<Alias> list = {
      {"\xE2\x80\x90", "-"}, {"\xE2\x80\x91", "-"}, {"\xE2\x80\x92", "-"}, {"\xE2\x80\x93", "-"},
      {"\xE2\x80\x94", "-"}, {"\xE2\x80\x95", "-"}, {"\xE2\x88\x92", "-"}, {"\xE2\x99\x94", "N"},
      {"\xE2\x99\x95", "N"}, {"\xE2\x99\x96", "N"}, {"\xE2\x99\x97", "N"}, {"\xE2\x99\x98", "N"},
      {"\xE2\x99\x99", "N"}, {"\xE2\x99\x9A", "N"}, {"\xE2\x99\x9B", "N"}, {"\xE2\x99\x9C", "N"},
      {"\xE2\x99\x9D", "N"}, {"\xE2\x99\x9E", "N"}, {"\xE2\x99\x9F", "N"}, {"\xC2\xBD", half}};
  return list;
}

// How many bytes the UTF-8 character at the front has, 1 when it is none.
std::size_t character_size(Text s) {
  const auto byte = [&s](std::size_t i) {
    return static_cast<unsigned char>(i < s.size() ? s[i] : 0);
  };
  const std::size_t size = byte(0) < 0xC2   ? 1U
                           : byte(0) < 0xE0 ? 2U
                           : byte(0) < 0xF0 ? 3U
                           : byte(0) < 0xF5 ? 4U
                                            : 1U;
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return 1;
  }
  return size;
}

std::string plain(Text s) {
  std::string all;
  while (!s.empty()) {
    const Text character = s.substr(0, character_size(s));
    Text as = character;
    for (const Alias& alias : aliases()) {
      if (alias.bytes == character) as = alias.plain;
    }
    if (character == "\x96" || character == "\x97") as = "-";
    if (character == "\xBD") as = half;
    all += as;
    s.remove_prefix(character.size());
  }
  return all;
}

bool is_square(Text s) {
  return s.size() >= 2 && s[0] >= 'a' && s[0] <= 'h' && s[1] >= '1' && s[1] <= '8';
}

// Castling: two or three letters O or zeros, one letter at least, hyphens between or not.
bool is_castling(Text s) {
  while (!s.empty() && is_in(s.back(), "+#")) s.remove_suffix(1);
  std::size_t count = 0;
  bool hyphens = false, letters = false;
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (s[i] == '-' && i > 0 && i + 1 < s.size() && s[i - 1] != '-') {
      hyphens = true;
      continue;
    }
    if (!is_in(s[i], "Oo0")) return false;
    letters = letters || s[i] != '0';
    ++count;
  }
  return (count == 2 || count == 3) && (hyphens || letters);
}

constexpr std::size_t longest_move = 12;    // in bytes
constexpr std::size_t look_back = 60;       // to the begin of a line, to an empty line
constexpr std::size_t nested_reach = 4096;  // see comment_close

// The look of a move: a letter that can begin one, then what moves are made of, a square among it.
bool is_move(Text s) {
  if (s.size() > longest_move) return false;
  if (s == "--" || s == "Z0" || s == "null" || s == "pass" || s == "@@@@" || is_castling(s))
    return true;
  if (s.empty() || !((s[0] >= 'A' && s[0] <= 'Z') || is_in(s[0], "abcdefghknqr"))) return false;
  bool square = false;
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (i > 0 && !is_in(s[i], "abcdefghknpqrxBKNPQRX12345678#+-/:=")) return false;
    square = square || is_square(s.substr(i));
  }
  return square;
}

// A move that nothing need follow: it ends with a square, the man promoted to, or as castling does.
bool is_finished_move(Text s) {
  if (!is_move(s)) return false;
  while (is_in(s.back(), "+#")) s.remove_suffix(1);
  if (is_castling(s)) return true;
  if (is_in(s.back(), "QRBNqrbn")) s.remove_suffix(1);
  if (!s.empty() && s.back() == '=') s.remove_suffix(1);
  return !s.empty() && is_in(s.back(), "12345678");
}

GameResult result_of(Text s, bool& found) {
  static const std::vector<std::pair<Text, GameResult>> results = {
      {"1-0", GameResult::white_wins}, {"1:0", GameResult::white_wins},
      {"1-O", GameResult::white_wins}, {"0-1", GameResult::black_wins},
      {"0:1", GameResult::black_wins}, {"O-1", GameResult::black_wins},
      {"1/2-1/2", GameResult::draw},   {"1/2:1/2", GameResult::draw},
      {"1/2", GameResult::draw},       {"\x01-\x01", GameResult::draw},
      {half, GameResult::draw}};
  for (const auto& [text, result] : results) {
    if (text == s) return found = true, result;
  }
  return found = false, GameResult::unknown;
}

// Evaluation signs, 0 for none.
int sign_of(Text s) {
  static const std::vector<std::pair<Text, int>> signs = {
      {"=", 10},   {"+=", 14},  {"+/=", 14}, {"=+", 15}, {"=/+", 15},
      {"+/-", 16}, {"-/+", 17}, {"+-", 18},  {"-+", 19}, {"+--", 20}};
  for (const auto& [text, value] : signs) {
    if (text == s) return value;
  }
  return 0;
}

constexpr Text mark = "\xEF\xBB\xBF";  // byte order mark

class Tokenizer {
 public:
  Tokenizer(Text file, std::size_t at)
      : text_(file), front_(file.starts_with(mark) ? 3 : 0), position_(std::max(at, front_)) {}
  NaiveToken token();
  [[nodiscard]] std::size_t pass_line(std::size_t i) const;

 private:
  [[nodiscard]] Text rest(std::size_t i) const { return text_.substr(std::min(i, text_.size())); }
  [[nodiscard]] char at(std::size_t i) const { return i < text_.size() ? text_[i] : '\n'; }
  [[nodiscard]] std::size_t line_end(std::size_t i) const {
    while (i < text_.size() && !is_line_end(text_[i])) ++i;
    return i;
  }
  [[nodiscard]] bool in_first_column(std::size_t i) const {
    if (i >= 3 && text_.substr(i - 3, 3) == mark) i -= 3;
    return i == 0 || is_line_end(text_[i - 1]);
  }
  [[nodiscard]] std::size_t pass_spaces(std::size_t i) const {
    while (i < text_.size() && is_space(text_[i])) ++i;
    return i;
  }
  [[nodiscard]] std::size_t blank(std::size_t i) const;
  [[nodiscard]] bool in_symbol(std::size_t i) const;
  [[nodiscard]] bool is_odd(std::size_t i) const;
  [[nodiscard]] std::size_t symbol_end(std::size_t i) const;
  [[nodiscard]] bool nothing_before(std::size_t i, Text but) const;
  [[nodiscard]] bool closes_number(std::size_t i) const;
  [[nodiscard]] bool opens_tag(std::size_t i) const;
  [[nodiscard]] std::size_t comment_close(std::size_t i) const;

  void add(TokenKind kind, std::size_t end, int value = 0, bool damaged = false);
  void next();
  void sign(char c);
  bool tag();
  void braces();
  void nag();
  void group(char close);
  void symbol();
  bool spaced_castling();
  bool spaced_result();
  bool en_passant();

  Text text_;
  std::size_t front_;  // behind a byte order mark
  std::size_t position_;
  std::optional<NaiveToken> token_;
};

// Length of the blank character here that is more than a control byte (leniency 33), and the byte
// order mark (leniency 1).
std::size_t wide_blank(Text s) {
  const Text character = s.substr(0, character_size(s));
  for (const Text wide :
       {"\xEF\xBB\xBF", "\xC2\xA0", "\xA0", "\xE2\x80\x8B", "\xE2\x80\xA6", "\x85"}) {
    if (character == wide) return wide.size();
  }
  return 0;
}

std::size_t Tokenizer::blank(std::size_t i) const {
  if (i >= text_.size()) return 0;
  return is_control(text_[i]) ? 1 : wide_blank(rest(i));
}

bool Tokenizer::in_symbol(std::size_t i) const {
  if (i >= text_.size()) return false;
  const char c = text_[i];
  return is_letter(c) || is_digit(c) || is_in(c, "_+#=:-/@") || (is_high(c) && blank(i) == 0);
}

// What may stand in a run that has no meaning in PGN.
bool Tokenizer::is_odd(std::size_t i) const {
  return i < text_.size() && !is_control(text_[i]) && !is_in(text_[i], "$().;[]{}");
}

std::size_t Tokenizer::symbol_end(std::size_t i) const {
  const std::size_t begin = i;
  while (in_symbol(i) && i - begin < pgn::TokenStream::longest_symbol) {
    i += is_high(text_[i]) ? character_size(rest(i)) : 1;
  }
  return std::min(i, begin + pgn::TokenStream::longest_symbol);
}

bool Tokenizer::nothing_before(std::size_t i, Text but) const {
  const std::size_t begin = i;
  while (!in_first_column(i) && begin - i < look_back &&
         (is_space(text_[i - 1]) || is_in(text_[i - 1], but)))
    --i;
  return in_first_column(i);
}

void Tokenizer::add(TokenKind kind, std::size_t end, int value, bool damaged) {
  NaiveToken token;
  token.kind = kind;
  token.text = text_.substr(position_, end - position_);
  token.value = value;
  token.damaged = damaged;
  token.begin = position_;
  token.end = end;
  token_ = std::move(token);
  position_ = end;
}

// A line's begin: `[`, a name, `"`.
bool Tokenizer::opens_tag(std::size_t i) const {
  if (at(i) != '[' || !is_letter(at(i + 1))) return false;
  for (++i; is_letter(at(i)) || is_digit(at(i)) || at(i) == '_';) ++i;
  return at(pass_spaces(i)) == '"';
}

// Section 8.1.1: `[`, a symbol, a string, `]`; leniencies 8 and 9.
bool Tokenizer::tag() {
  const std::size_t begin = position_;
  const std::size_t limit = std::min(line_end(begin), begin + pgn::TokenStream::longest_tag);
  const std::size_t name = pass_spaces(begin + 1);
  std::size_t i = name;
  if (!is_letter(at(i))) return false;
  while (i < limit &&
         (is_letter(at(i)) || is_digit(at(i)) || is_in(at(i), "_+#=:-/@") || is_high(at(i))))
    ++i;
  const std::string name_text(text_.substr(name, i - name));
  i = pass_spaces(i);
  const bool quoted = at(i) == '"';
  if (quoted) ++i;
  std::size_t close = Text::npos, escaped_close = Text::npos;
  for (std::size_t q = i; quoted && q < limit && close == Text::npos; ++q) {
    const bool escapes = at(q) == '\\' && is_in(at(q + 1), "\"\\");
    if (escapes) ++q;
    if (at(q) != '"' || q >= limit) continue;
    escaped_close = Text::npos;
    if (at(pass_spaces(q + 1)) == ']') (escapes ? escaped_close : close) = q;
  }
  if (close == Text::npos) close = escaped_close;
  if (close == Text::npos && !quoted && !in_first_column(begin)) return false;
  if (close != Text::npos) {
    add(TokenKind::tag, pass_spaces(close + 1) + 1);
    token_->text = text_.substr(i, close - i);
  } else if (limit < line_end(begin)) {  // leniency 36
    add(TokenKind::tag, pass_line(limit));
    token_->text = text_.substr(i, limit - i);
    token_->cut = true;
  } else {
    std::size_t end = limit;
    add(TokenKind::tag, end, 0, true);
    while (end > i && (is_control(at(end - 1)) || is_in(at(end - 1), "\"]."))) --end;
    token_->text = text_.substr(i, end - i);
  }
  token_->name = name_text;
  return true;
}

// The comment's own } when a { stands inside it (leniency 19): it must follow before an empty line
// and the next tag, and not too far away.
std::size_t Tokenizer::comment_close(std::size_t first) const {
  std::size_t depth = 1;
  for (std::size_t i = position_ + 1; i < std::min(first + nested_reach, text_.size()); ++i) {
    if (is_line_end(text_[i]) && i > first) {
      std::size_t line = i + (rest(i).starts_with("\r\n") ? 2 : 1);
      while (line < text_.size() && !is_line_end(text_[line]) && is_control(text_[line])) ++line;
      if (line == text_.size() || is_line_end(text_[line])) return first;
      if (text_[line] == '[' && is_letter(at(pass_spaces(line + 1)))) return first;
    }
    if (text_[i] == '{') ++depth;
    if (text_[i] == '}' && --depth == 0) return i;
  }
  return first;
}

// Section 5; leniencies 19 and 20.
void Tokenizer::braces() {
  std::size_t close = position_ + 1;
  bool closed = false;
  for (; close < text_.size(); ++close) {
    if (text_[close] == '}') {
      close = comment_close(close);
      closed = true;
      break;
    }
    if (close == 0 || !is_line_end(text_[close - 1]) || !opens_tag(close)) continue;
    const std::size_t line_before = close - (text_.substr(0, close).ends_with("\r\n") ? 2 : 1);
    const bool empty_line = line_before > position_ && is_line_end(text_[line_before - 1]);
    const bool event = rest(close).starts_with("[Event") && is_in(at(close + 6), " \t\"");
    if (empty_line || event) break;
  }
  const std::size_t from = position_ + 1;
  add(TokenKind::comment, closed ? close + 1 : close, 0, !closed);
  token_->text = text_.substr(from, close - from);
}

void Tokenizer::nag() {
  std::size_t end = position_ + 1, value = 0;
  for (; is_digit(at(end)) && end - position_ <= pgn::TokenStream::longest_symbol; ++end)
    value = std::min<std::size_t>(value * 10 + static_cast<std::size_t>(at(end) - '0'), 1000);
  const bool damaged = end == position_ + 1 || value > 255;
  add(TokenKind::nag, end, damaged ? 0 : static_cast<int>(value), damaged);
}

// Section 7: `<` and `>` are reserved, and `[` not of a tag: all of it up to its end on the line.
void Tokenizer::group(char close) {
  const char open = at(position_);
  std::size_t i = position_ + 1;
  while (i < text_.size() && !is_line_end(text_[i]) && text_[i] != close && text_[i] != open) ++i;
  const bool whole = at(i) == close && i - position_ < pgn::TokenStream::longest_symbol;
  add(TokenKind::unknown, whole ? i + 1 : position_ + 1);
}

// `O - O`, `O - O - O` with one blank on each side of the first hyphen.
bool Tokenizer::spaced_castling() {
  const Text letters = "Oo";
  if (!is_in(at(position_), letters) || (position_ > 0 && is_digit(at(position_ - 1))))
    return false;
  std::size_t i = position_ + 1, count = 1;
  const auto follows = [&](Text hyphen) {
    return rest(i).starts_with(hyphen) && is_in(at(i + hyphen.size()), letters);
  };
  if (!follows(" - ")) return false;
  while (follows(" - ") || follows("-")) {
    i += follows("-") ? 2 : 4;
    ++count;
  }
  while (is_in(at(i), "+#")) ++i;
  add(count <= 3 ? TokenKind::move : TokenKind::unknown, i);
  return true;
}

// The `- 0` of `1 - 0` (leniency 25).
bool Tokenizer::spaced_result() {
  const std::size_t i = position_;
  if (i < 2 || !is_in(at(i), "-:") || at(i - 1) != ' ' || at(i + 1) != ' ') return false;
  const char left = at(i - 2), right = at(i + 2);
  if (!((left == '1' && right == '0') || (left == '0' && right == '1'))) return false;
  if (in_symbol(i + 3) || (i > 2 && !is_control(at(i - 3)) && at(i - 3) != '.')) return false;
  add(TokenKind::result, i + 3,
      static_cast<int>(left == '1' ? GameResult::white_wins : GameResult::black_wins));
  return true;
}

bool Tokenizer::closes_number(std::size_t i) const {
  std::size_t digits = i;
  while (digits > 0 && is_digit(text_[digits - 1])) --digits;
  if (digits == i || i - digits > 4 ||
      (digits > 0 && !is_control(text_[digits - 1]) && text_[digits - 1] != '.'))
    return false;
  for (++i; i < text_.size() && (is_control(text_[i]) || text_[i] == '.');) ++i;
  return (at(i) >= 'a' && at(i) <= 'h') || (at(i) >= 'A' && at(i) <= 'Z');
}

void Tokenizer::symbol() {
  const std::size_t begin = position_;
  if (spaced_castling() || spaced_result()) return;
  const std::size_t end = symbol_end(begin);
  const std::string s = plain(text_.substr(begin, end - begin));
  bool found = false;
  if (const GameResult result = result_of(s, found); found)
    return add(TokenKind::result, end, static_cast<int>(result));
  if (const int value = sign_of(s); value != 0) return add(TokenKind::nag, end, value);
  const std::size_t digits = std::min(s.find_first_not_of("0123456789"), s.size());
  const Text tail = Text(s).substr(digits);
  if (tail.empty()) return add(TokenKind::number, end);
  if (s == "ep" || s == "-" || s == ":" || s.find_first_not_of("+#") == Text::npos)
    return add(TokenKind::filler, end);
  if (digits > 0 && (is_in(tail[0], "abcdefghKQRBNPO") || tail == "-" || tail == ":") &&
      !is_castling(s))
    return add(TokenKind::number, begin + digits);
  // A move with an evaluation sign behind it (leniency 16).
  for (std::size_t n = 1; n < s.size(); ++n) {
    if (sign_of(Text(s).substr(n)) != 0 && is_finished_move(Text(s).substr(0, n))) {
      return add(TokenKind::move, begin + n);
    }
  }
  const TokenKind kind = is_move(s) ? TokenKind::move : TokenKind::unknown;
  if (s.back() == 'e' && rest(end).starts_with(".p.")) return add(kind, end + 3);
  const bool last_rank = s.size() >= 2 && is_in(s.back(), "18");
  if (!last_rank || at(end) != '(' || !is_in(at(end + 1), "QRBNqrbn") || at(end + 2) != ')')
    return add(kind, end);
  std::size_t i = end + 3;
  while (is_in(at(i), "+#")) ++i;
  add(kind, i);
}

void Tokenizer::next() {
  const std::size_t i = position_;
  const char c = text_[i];
  if (c == '%' && in_first_column(i)) {  // section 6
    position_ = line_end(i);
  } else if (blank(i) != 0) {
    position_ += blank(i);
  } else if (c == '.') {
    ++position_;
  } else if (in_symbol(i)) {
    if (rest(i).starts_with("e.p."))
      add(TokenKind::filler, i + 4);
    else
      symbol();
  } else {
    sign(c);
  }
}

void Tokenizer::sign(char c) {
  const std::size_t i = position_;
  if (c == '[') {
    if (!tag()) group(']');
  } else if (c == '{') {
    braces();
  } else if (c == ';') {
    add(TokenKind::comment, line_end(i));
    token_->text.erase(0, 1);
  } else if (c == '(') {
    if (rest(i).starts_with("(=)"))
      add(TokenKind::filler, i + 3);
    else
      add(TokenKind::open, i + 1);
  } else if (c == ')') {
    add(closes_number(i) ? TokenKind::filler : TokenKind::close, i + 1);
  } else if (c == '*') {
    add(TokenKind::result, i + 1);
  } else if (c == ',') {
    add(TokenKind::filler, i + 1);
  } else if (c == '$') {
    nag();
  } else if (c == '!' || c == '?') {
    const bool two = is_in(at(i + 1), "!?");
    const int first = c == '!' ? 1 : 2;
    add(TokenKind::mark, i + (two ? 2 : 1), !two ? first : at(i + 1) == c ? first + 2 : first + 4);
  } else if (c == '<') {
    group('>');
  } else if (c == '>' && nothing_before(i, ">")) {
    add(TokenKind::filler, i + 1);
  } else {
    std::size_t end = i + 1;
    while (c != ']' && c != '}' && end - i < pgn::TokenStream::longest_symbol && is_odd(end)) ++end;
    add(TokenKind::unknown, end);
  }
}

NaiveToken Tokenizer::token() {
  while (!token_ && position_ < text_.size()) next();
  if (!token_) add(TokenKind::end, text_.size());
  const std::size_t begin = token_->begin;
  token_->begins_line = nothing_before(begin, "");
  std::size_t line_ends = 0;  // a line of blanks and dots is empty
  for (std::size_t b = begin; b > 0 && begin - b + 1 < look_back; --b) {
    if (!is_control(text_[b - 1]) && text_[b - 1] != '.') break;
    if (is_line_end(text_[b - 1]) && !rest(b - 1).starts_with("\r\n")) ++line_ends;
  }
  token_->after_empty_line = line_ends >= 2;
  return *token_;
}

std::size_t Tokenizer::pass_line(std::size_t i) const {
  while (i < text_.size() && !is_line_end(text_[i]) && !opens_tag(i)) ++i;
  return i;
}

}  // namespace

// Lines end with LF, CR LF or CR.
NaiveFile::NaiveFile(Text text) : text_(text) {
  line_starts_.push_back(text.starts_with(mark) ? 3 : 0);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool ends = is_line_end(text[i]) && !text.substr(i).starts_with("\r\n");
    if (ends) line_starts_.push_back(i + 1);
  }
}

NaiveToken NaiveFile::token(std::size_t at) const {
  NaiveToken token = Tokenizer(text_, at).token();
  const auto line = std::upper_bound(line_starts_.begin(), line_starts_.end(), token.begin);
  token.line = static_cast<std::size_t>(line - line_starts_.begin());
  token.column = token.begin - *(line - 1) + 1;
  return token;
}

std::size_t NaiveFile::pass_line(std::size_t at) const {
  return Tokenizer(text_, at).pass_line(at);
}

std::vector<NaiveToken> NaiveFile::tokens() const {
  std::vector<NaiveToken> all{token(0)};
  while (all.back().kind != TokenKind::end) all.push_back(token(all.back().end));
  return all;
}

}  // namespace kairos::oracles
