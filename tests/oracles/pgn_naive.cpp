#include "oracles/pgn_naive.hpp"

#include <algorithm>
#include <optional>

namespace kairos::oracles {

namespace {

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
bool is_plain_blank(char c) {
  return static_cast<unsigned char>(c) <= ' ';
}

// A reader of one file: each question is answered from the text alone.
class Tokenizer {
 public:
  explicit Tokenizer(Text file) : text_(file) {}
  std::vector<NaiveToken> all();

 private:
  [[nodiscard]] char at(std::size_t i) const { return i < text_.size() ? text_[i] : '\n'; }
  [[nodiscard]] bool has(std::size_t i, Text what) const {
    return text_.substr(std::min(i, text_.size())).starts_with(what);
  }
  [[nodiscard]] std::size_t line_end(std::size_t i) const {
    while (i < text_.size() && !is_line_end(text_[i])) ++i;
    return i;
  }
  // Length of the blank that begins here, 0 when there is none.
  [[nodiscard]] std::size_t blank(std::size_t i) const {
    if (i >= text_.size()) return 0;
    if (is_plain_blank(text_[i])) return 1;
    for (const Text wide :
         {"\xEF\xBB\xBF", "\xC2\xA0", "\xE2\x80\x8B", "\xE2\x80\xA6", "\xA0", "\x85"}) {
      if (has(i, wide)) return wide.size();
    }
    return 0;
  }
  [[nodiscard]] std::size_t pass_blanks(std::size_t i, std::size_t limit) const {
    while (i < limit && is_plain_blank(text_[i])) ++i;
    return i;
  }
  [[nodiscard]] bool in_symbol(std::size_t i) const {
    if (i >= text_.size()) return false;
    const char c = text_[i];
    return is_letter(c) || is_digit(c) || is_in(c, "_+#=:-/@") || (is_high(c) && blank(i) == 0);
  }
  [[nodiscard]] bool is_odd(std::size_t i) const {
    return i < text_.size() && !in_symbol(i) && blank(i) == 0 &&
           !is_in(text_[i], ".[]{}();,*$!?<>");
  }
  void add(TokenKind kind, std::size_t begin, std::size_t end, int value = 0) {
    add(kind, begin, end, std::string(text_.substr(begin, end - begin)), value);
  }
  void add(TokenKind kind, std::size_t begin, std::size_t end, std::string text, int value = 0) {
    NaiveToken t;
    t.kind = kind;
    t.text = std::move(text);
    t.value = value;
    t.begin = begin;
    t.end = end;
    tokens_.push_back(std::move(t));
    position_ = end;
  }
  void next();
  bool tag();
  void braces();
  void symbol();
  void small_symbol(std::size_t begin, std::size_t end);
  bool spaced_castling();
  bool spaced_result();
  [[nodiscard]] bool closes_number() const;
  void place();

  Text text_;
  std::size_t position_ = 0;
  std::vector<NaiveToken> tokens_;
};

// Section 8.1.1: `[`, a symbol, a string, `]`; leniencies 8 and 9.
bool Tokenizer::tag() {
  const std::size_t begin = position_, limit = line_end(begin);
  std::size_t line = begin;
  while (line > 0 && !is_line_end(text_[line - 1])) --line;
  std::size_t name = pass_blanks(begin + 1, limit);
  std::size_t i = name;
  if (!is_letter(at(i))) return false;
  while (i < limit && (is_letter(text_[i]) || is_digit(text_[i]) || is_in(text_[i], "_+#=:-/@") ||
                       is_high(text_[i])))
    ++i;
  const Text name_text = text_.substr(name, i - name);
  i = pass_blanks(i, limit);
  const bool quoted = i < limit && text_[i] == '"';
  if (quoted) {
    for (std::size_t q = i + 1; q < limit; ++q) {
      if (text_[q] == '\\' && q + 1 < limit && is_in(text_[q + 1], "\\\"")) {
        const std::size_t close = pass_blanks(q + 2, limit);
        const bool last = text_[q + 1] == '"' && at(close) == ']' && close < limit &&
                          pass_blanks(close + 1, limit) == limit;
        if (!last) {
          ++q;
          continue;
        }
        ++q;
      }
      if (text_[q] != '"') continue;
      const std::size_t close = pass_blanks(q + 1, limit);
      if (close >= limit || text_[close] != ']') continue;
      add(TokenKind::tag, begin, close + 1, std::string(text_.substr(i + 1, q - i - 1)));
      tokens_.back().name = name_text;
      return true;
    }
  }
  if (pass_blanks(line, begin) != begin && !quoted) return false;
  std::size_t from = quoted ? i + 1 : i, end = limit;
  while (end > from && is_plain_blank(text_[end - 1])) --end;
  const std::size_t whole = std::max(end, begin + 1);
  if (end > from && text_[end - 1] == ']') --end;
  while (end > from && is_plain_blank(text_[end - 1])) --end;
  if (end > from && text_[end - 1] == '"') --end;
  add(TokenKind::tag, begin, whole, std::string(text_.substr(from, end - from)));
  tokens_.back().name = name_text;
  tokens_.back().damaged = true;
  return true;
}

// Section 5; leniencies 19 and 20.
void Tokenizer::braces() {
  const std::size_t begin = position_;
  std::size_t depth = 1, i = begin + 1;
  std::optional<std::size_t> first;
  for (; i < text_.size(); ++i) {
    if (text_[i] == '{') ++depth;
    if (text_[i] == '}') {
      if (!first) first = i;
      if (--depth == 0) break;
    }
    // empty line / tag line
  }
  if (i >= text_.size() || depth != 0) i = first ? *first : text_.size();
  add(TokenKind::comment, begin, std::min(i + 1, text_.size()),
      std::string(text_.substr(begin + 1, i - begin - 1)));
  tokens_.back().damaged = i >= text_.size();
}

bool look_of_move(Text s) {
  if (s == "--" || s == "Z0" || s == "null" || s == "pass" || s == "@@@@") return true;
  while (!s.empty() && is_in(s.back(), "+#")) s.remove_suffix(1);
  if (s.empty() || !(is_letter(s[0]) || is_high(s[0]))) return false;
  for (std::size_t i = 0; i + 1 < s.size(); ++i) {
    if (is_in(s[i], "abcdefgh") && is_in(s[i + 1], "12345678")) return true;
  }
  return false;
}

int sign_value(Text s) {
  static const std::vector<std::pair<Text, int>> signs = {
      {"=", 10},   {"+=", 14},  {"+/=", 14}, {"=+", 15}, {"=/+", 15},
      {"+/-", 16}, {"-/+", 17}, {"+-", 18},  {"-+", 19}, {"+--", 20}};
  for (const auto& [text, value] : signs)
    if (text == s) return value;
  return -1;
}

void Tokenizer::small_symbol(std::size_t begin, std::size_t end) {
  const Text s = text_.substr(begin, end - begin);
  const std::size_t digits = std::min(s.find_first_not_of("0123456789"), s.size());
  if (digits == s.size()) return add(TokenKind::number, begin, end);
  if (look_of_move(s)) return add(TokenKind::move, begin, end);
  if (const int value = sign_value(s); value >= 0) return add(TokenKind::nag, begin, end, value);
  if (s.find_first_not_of("+#") == Text::npos || s == "-" || s == ":")
    return add(TokenKind::filler, begin, end);
  add(TokenKind::unknown, begin, end);
}

void Tokenizer::symbol() {
  const std::size_t begin = position_;
  std::size_t end = begin;
  while (in_symbol(end) && end - begin < pgn::TokenStream::longest_symbol) ++end;
  small_symbol(begin, end);
}

void Tokenizer::next() {
  const std::size_t i = position_;
  const char c = text_[i];
  if (is_line_end(at(i - 1)) && c == '%') {
    position_ = line_end(i);
    return;
  }
  if (const std::size_t n = blank(i)) {
    position_ += n;
    return;
  }
  if (c == '.') {
    ++position_;
    return;
  }
  if (c == '[') {
    if (!tag()) add(TokenKind::unknown, i, i + 1);
    return;
  }
  if (c == '{') return braces();
  if (c == ';')
    return add(TokenKind::comment, i, line_end(i),
               std::string(text_.substr(i + 1, line_end(i) - i - 1)));
  if (c == '(')
    return has(i, "(=)") ? add(TokenKind::filler, i, i + 3) : add(TokenKind::open, i, i + 1);
  if (c == ')') return add(TokenKind::close, i, i + 1);
  if (c == '*') return add(TokenKind::result, i, i + 1);
  if (c == ',') return add(TokenKind::filler, i, i + 1);
  if (in_symbol(i)) return symbol();
  std::size_t end = i + 1;
  while (in_symbol(end) || is_odd(end)) ++end;
  add(TokenKind::unknown, i, end);
}

void Tokenizer::place() {}

std::vector<NaiveToken> Tokenizer::all() {
  while (position_ < text_.size()) next();
  place();
  return std::move(tokens_);
}

}  // namespace

std::vector<NaiveToken> naive_tokens(std::string_view file) {
  return Tokenizer(file).all();
}

}  // namespace kairos::oracles
