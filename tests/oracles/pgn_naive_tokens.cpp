// Tokens: sections 4 to 8 of the standard and leniencies 1, 2, 4, 8, 9, 13 to 20, 25, 30 to 34 and
// 36.
#include <utility>

#include "oracles/pgn_naive_tokenizer.hpp"

namespace kairos::oracles {

namespace {

using pgn::GameResult;
using pgn::TokenKind;

constexpr std::size_t longest = pgn::TokenStream::longest_symbol;
constexpr std::size_t longest_group = 256;  // bytes between [ and ]
constexpr std::size_t look_back = 60;       // to a line's begin; to an empty line one less
constexpr std::size_t nested_reach = 4096;  // see comment_close

}  // namespace

// Length of the blank here, 0 when there is none.
std::size_t Tokenizer::blank(std::size_t i) const {
  if (i >= text_.size()) return 0;
  if (is_control(text_[i])) return 1;
  const Text c = character(rest(i));
  return is_wide_blank(c) ? c.size() : 0;
}

// On the line.
std::size_t Tokenizer::pass_blanks(std::size_t i) const {
  while (!is_end(i) && blank(i) != 0) i += blank(i);
  return i;
}

// Section 7, and what files hold.
bool Tokenizer::in_symbol(std::size_t i) const {
  const char c = at(i);
  return is_letter(c) || is_digit(c) || is_in(c, "_+#=:-/@") || (is_high(c) && blank(i) == 0);
}

std::size_t Tokenizer::symbol_end(std::size_t i) const {
  while (in_symbol(i)) i += character(rest(i)).size();
  return i;
}

std::size_t Tokenizer::symbol_begin(std::size_t i) const {
  while (i > 0 && in_symbol(i - 1)) --i;
  return i;
}

bool Tokenizer::in_first_column(std::size_t i) const {
  if (text_.substr(0, i).ends_with(mark)) i -= mark.size();
  return i == 0 || is_end(i - 1);
}

// Whether nothing but blanks and `but` stands before on the line.
bool Tokenizer::begins_line(std::size_t i, Text but) const {
  const std::size_t begin = i;
  while (!in_first_column(i) && begin - i < look_back &&
         (is_control(at(i - 1)) || is_in(at(i - 1), but)))
    --i;
  return in_first_column(i);
}

// A line of blanks and dots is empty.
bool Tokenizer::after_empty_line(std::size_t i) const {
  std::size_t line_ends = 0;
  for (std::size_t b = i; b > 0 && i - b + 1 < look_back;) {
    std::size_t size = is_control(text_[b - 1]) || text_[b - 1] == '.' ? 1 : 0;
    for (std::size_t wide = std::min<std::size_t>(b, 3); size == 0 && wide > 0; --wide) {
      const Text c = text_.substr(b - wide, wide);
      if (is_wide_blank(c) && c != mark) size = wide;
    }
    if (size == 0) break;
    b -= size;
    if (is_end(b) && !rest(b).starts_with("\r\n")) ++line_ends;
  }
  return line_ends >= 2;
}

void Tokenizer::add(TokenKind kind, std::size_t end, int value, bool damaged) {
  NaiveToken token;
  token.kind = kind;
  token.text = text_.substr(position_, end - position_);
  token.value = value;
  token.damaged = damaged;
  token.begin = position_;
  token.end = position_ = end;
  token_ = std::move(token);
}

// `[`, a name of letters, digits and underscores, `"`.
bool Tokenizer::opens_tag(std::size_t i) const {
  if (at(i) != '[' || !is_letter(at(i + 1))) return false;
  for (++i; is_letter(at(i)) || is_digit(at(i)) || at(i) == '_';) ++i;
  return at(pass_blanks(i)) == '"';
}

// The quote that ends a value: one before ] that nothing escapes, else one that something does,
// when no other quote follows (leniency 8). npos when there is none.
std::size_t Tokenizer::tag_close(std::size_t value, std::size_t limit) const {
  std::size_t escaped = Text::npos;
  for (std::size_t i = value; i < limit; ++i) {
    const bool escapes = rest(i).starts_with("\\\"") || rest(i).starts_with("\\\\");
    if (escapes) ++i;
    if (at(i) != '"' || i >= limit) continue;
    escaped = Text::npos;
    if (at(pass_blanks(i + 1)) != ']') continue;
    if (!escapes) return i;
    escaped = i;
  }
  return escaped;
}

// Section 8.1.1: `[`, a name, a string, `]`; leniencies 8, 9 and 36.
bool Tokenizer::take_tag() {
  const std::size_t begin = position_, name = pass_blanks(begin + 1);
  if (!is_letter(at(name))) return false;
  const std::size_t limit = std::min(line_end(begin), begin + pgn::TokenStream::longest_tag);
  const std::size_t name_end = std::min(symbol_end(name), limit);
  std::size_t value = pass_blanks(name_end), value_end = limit;
  const bool quoted = at(value) == '"';
  if (quoted) ++value;
  const std::size_t close = quoted ? tag_close(value, limit) : Text::npos;
  if (close != Text::npos) {
    value_end = close;
    add(TokenKind::tag, pass_blanks(close + 1) + 1);
  } else if (!quoted && !in_first_column(begin)) {
    return false;
  } else if (limit < line_end(begin)) {
    add(TokenKind::tag, pass_line(limit));
    token_->cut = true;
  } else {
    add(TokenKind::tag, limit, 0, true);
    while (value_end > value && (is_control(at(value_end - 1)) || is_in(at(value_end - 1), "\"].")))
      --value_end;
  }
  token_->text = text_.substr(value, value_end - value);
  token_->name = text_.substr(name, name_end - name);
  return true;
}

// The comment's own } when a { stands inside it (leniency 19): it must follow before an empty line
// and the next tag, and not too far away.
std::size_t Tokenizer::comment_close(std::size_t first) const {
  std::size_t depth = 1;
  for (std::size_t i = position_ + 1; i < std::min(first + nested_reach, text_.size()); ++i) {
    if (i > first && is_end(i) && !rest(i).starts_with("\r\n")) {
      std::size_t line = i + 1;
      while (line < text_.size() && !is_end(line) && is_control(at(line))) ++line;
      if (is_end(line) || (at(line) == '[' && is_letter(at(pass_blanks(line + 1))))) return first;
    }
    if (at(i) == '{') ++depth;
    if (at(i) == '}' && --depth == 0) return i;
  }
  return first;
}

// The next game's tags: one behind an empty line, or its first of the roster (leniency 20).
bool Tokenizer::ends_open_comment(std::size_t i) const {
  if (!is_end(i - 1) || !opens_tag(i)) return false;
  if (rest(i).starts_with("[Event") && !is_letter(at(i + 6))) return true;
  const std::size_t before = i - (text_.substr(0, i).ends_with("\r\n") ? 2 : 1);
  return before > position_ && is_end(before - 1);
}

// Section 5.
void Tokenizer::take_braces() {
  const std::size_t from = position_ + 1;
  std::size_t close = from;
  while (close < text_.size() && at(close) != '}' && !ends_open_comment(close)) ++close;
  const bool closed = at(close) == '}';
  if (closed) close = comment_close(close);
  add(TokenKind::comment, closed ? close + 1 : close, 0, !closed);
  token_->text = text_.substr(from, close - from);
}

void Tokenizer::take_nag() {
  std::size_t end = position_ + 1, value = 0;
  for (; is_digit(at(end)) && end - position_ <= longest; ++end) {
    value = std::min<std::size_t>(value * 10 + static_cast<std::size_t>(at(end) - '0'), 1000);
  }
  const bool damaged = end == position_ + 1 || value > 255;
  add(TokenKind::nag, end, damaged ? 0 : static_cast<int>(value), damaged);
}

// Section 7 reserves < and >; a [ that opens no tag is like it (leniency 31).
void Tokenizer::take_group(char close, std::size_t most) {
  std::size_t i = position_ + 1;
  while (!is_end(i) && at(i) != close && at(i) != at(position_)) ++i;
  const bool whole = at(i) == close && i - position_ < most;
  add(TokenKind::unknown, whole ? i + 1 : position_ + 1);
}

// `O - O` and `O - O - O`, with one blank on each side of the first hyphen (leniency 32).
bool Tokenizer::take_spaced_castling() {
  std::size_t i = position_, count = 0;
  if (i > 0 && is_digit(at(i - 1))) return false;
  for (; is_in(at(i), "Oo"); ++count) {
    ++i;
    if (rest(i).starts_with(" - ") && is_in(at(i + 3), "Oo"))
      i += 3;
    else if (count > 0 && at(i) == '-' && is_in(at(i + 1), "Oo"))
      i += 1;
    else
      break;
  }
  if (count == 0) return false;
  while (is_in(at(i), "+#")) ++i;
  add(count < 3 ? TokenKind::move : TokenKind::unknown, i);
  return true;
}

// The `- 0` of `1 - 0` (leniency 25).
bool Tokenizer::take_spaced_result() {
  const std::size_t i = position_;
  if (i < 2 || (i > 2 && in_symbol(i - 3)) || in_symbol(i + 3)) return false;
  const Text around = text_.substr(i - 2, 5);
  const bool white = around == "1 - 0" || around == "1 : 0";
  if (!white && around != "0 - 1" && around != "0 : 1") return false;
  add(TokenKind::result, i + 3, white ? 1 : 2);
  return true;
}

// The ) of `1)` (leniency 13): four digits at most before it, a letter of a move behind it.
bool Tokenizer::closes_number(std::size_t i) const {
  std::size_t digits = i;
  while (digits > 0 && is_digit(at(digits - 1))) --digits;
  if (digits == i || i - digits > 4) return false;
  if (digits > 0 && !is_control(at(digits - 1)) && at(digits - 1) != '.') return false;
  for (++i; i < text_.size() && (is_control(at(i)) || at(i) == '.');) ++i;
  return (at(i) >= 'a' && at(i) <= 'h') || (at(i) >= 'A' && at(i) <= 'Z');
}

void Tokenizer::take_symbol() {
  const std::size_t begin = position_, end = symbol_end(begin);
  if (take_spaced_castling() || take_spaced_result()) return;
  if (end - symbol_begin(begin) > longest) {
    return add(TokenKind::unknown, std::min(end, begin + longest));
  }
  const std::string s = plain(text_.substr(begin, end - begin));
  if (result_of(s) >= 0) return add(TokenKind::result, end, result_of(s));
  if (sign_of(s) >= 0) return add(TokenKind::nag, end, sign_of(s));
  if (s == "ep" || s == "-" || s == ":" || without_checks(s).empty())
    return add(TokenKind::filler, end);
  const std::size_t digits = std::min(s.find_first_not_of("0123456789"), s.size());
  const Text tail = Text(s).substr(digits);
  if (tail.empty()) return add(TokenKind::number, end);
  const bool has_number =
      digits > 0 && (is_in(tail[0], "abcdefghKQRBNPO") || tail == "-" || tail == ":");
  if (has_number && !is_castling(s)) return add(TokenKind::number, begin + digits);
  for (std::size_t n = 1; n < s.size(); ++n) {  // leniency 16
    const bool is_split = sign_of(Text(s).substr(n)) >= 0 && is_finished_move(Text(s).substr(0, n));
    if (is_split) return add(TokenKind::move, begin + n);
  }
  std::size_t i = end;
  if (s.back() == 'e' && rest(end).starts_with(".p.")) {
    i += 3;
  } else if (s.size() > 1 && is_in(s.back(), "18") && at(end) == '(' &&
             is_in(at(end + 1), "QRBNqrbn") && at(end + 2) == ')') {
    for (i += 3; is_in(at(i), "+#");) ++i;
  }
  add(is_move(s) ? TokenKind::move : TokenKind::unknown, i);
}

void Tokenizer::take_sign() {
  const std::size_t i = position_;
  const char c = at(i);
  if (c == '[') {
    if (!take_tag()) take_group(']', longest_group);
  } else if (c == '{') {
    take_braces();
  } else if (c == ';') {
    add(TokenKind::comment, line_end(i));
    token_->text.erase(0, 1);
  } else if (rest(i).starts_with("(=)")) {
    add(TokenKind::filler, i + 3);
  } else if (c == '(') {
    add(TokenKind::open, i + 1);
  } else if (c == ')') {
    add(closes_number(i) ? TokenKind::filler : TokenKind::close, i + 1);
  } else if (c == '*') {
    add(TokenKind::result, i + 1);
  } else if (c == ',' || (c == '>' && begins_line(i, ">"))) {
    add(TokenKind::filler, i + 1);
  } else if (c == '$') {
    take_nag();
  } else if (c == '!' || c == '?') {
    const bool two = is_in(at(i + 1), "!?"), same = at(i + 1) == c;
    const int first = c == '!' ? 1 : 2, second = same ? 2 : 4;
    add(TokenKind::mark, i + (two ? 2 : 1), two ? first + second : first);
  } else if (c == '<') {
    take_group('>', longest);
  } else {
    std::size_t end = i + 1;
    while (c != ']' && c != '}' && end - i < longest && end < text_.size() &&
           !is_control(at(end)) && !is_in(at(end), "$().;[]{}"))
      ++end;
    add(TokenKind::unknown, end);
  }
}

void Tokenizer::next() {
  const std::size_t i = position_;
  if (at(i) == '%' && in_first_column(i)) {  // section 6
    position_ = line_end(i);
  } else if (blank(i) != 0) {
    position_ += blank(i);
  } else if (at(i) == '.') {
    ++position_;
  } else if (rest(i).starts_with("e.p.")) {
    add(TokenKind::filler, i + 4);
  } else if (in_symbol(i)) {
    take_symbol();
  } else {
    take_sign();
  }
}

NaiveToken Tokenizer::token() {
  while (!token_ && position_ < text_.size()) next();
  if (!token_) add(TokenKind::end, text_.size());
  token_->begins_line = begins_line(token_->begin, "");
  token_->after_empty_line = after_empty_line(token_->begin);
  return *token_;
}

std::size_t Tokenizer::pass_line(std::size_t i) const {
  while (i < text_.size() && !is_end(i) && !opens_tag(i)) ++i;
  return i;
}

// Lines end with LF, CR LF or CR.
NaiveFile::NaiveFile(Text text) : text_(text) {
  line_starts_.push_back(text.starts_with(mark) ? mark.size() : 0);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (is_line_end(text[i]) && !text.substr(i).starts_with("\r\n")) line_starts_.push_back(i + 1);
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
