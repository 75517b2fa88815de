// The tokenizer's main switch, and the short tokens. How bytes are found: token_window.cpp.
#include <algorithm>
#include <bit>

#include "kairos/pgn/nag.hpp"
#include "kairos/pgn/tokens.hpp"

#include "blocks.hpp"

namespace kairos::pgn {

namespace {

constexpr bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

}  // namespace

const Token& TokenStream::next() {
  if (block_ >= attention_at_ && attend()) return token_;
  for (;;) {
    while (starts_ == 0) {
      next_block();
      if (block_ >= attention_at_ && attend()) return token_;
    }
    const auto k = static_cast<unsigned>(std::countr_zero(starts_));
    const std::size_t at = block_ + k;
    starts_ &= starts_ - 1;
    begin_token(at);
    if ((symbols_ >> k & 1) != 0) {
      symbol(at);
      return token_;
    }
    if (punctuation(at)) return token_;
    if (block_ >= attention_at_ && attend()) return token_;
  }
}

// `at` lies in the current block.
void TokenStream::begin_token(std::size_t at) {
  const Bits before = newlines_ & ((Bits{1} << (at - block_)) - 1);
  const std::uint64_t line_start =
      before != 0 ? base_ + block_ + 64 - static_cast<unsigned>(std::countl_zero(before))
                  : line_start_;
  token_.value = 0;
  token_.partial = false;
  token_.damaged = false;
  token_.line_comment = false;
  token_.line = line_ + static_cast<std::uint32_t>(std::popcount(before));
  token_.column = static_cast<std::uint32_t>(base_ + at - line_start + 1);
  token_.blank_line = token_.line - previous_line_ > 1;
  previous_line_ = token_.line;
}

void TokenStream::finish(TokenKind kind, std::size_t at, std::size_t end) {
  token_.kind = kind;
  token_.text = view(at, end);
  seek(end);
}

// False when what begins here is no token but an escaped line.
bool TokenStream::punctuation(std::size_t at) {
  const char next_byte = window_[at + 1];
  switch (window_[at]) {
    case '[':
      tag(at);
      return true;
    case '{':
    case ';':
      token_.line_comment = window_[at] == ';';
      token_.line_comment ? line_comment(at + 1) : comment_body(at + 1);
      set_attention();
      return true;
    case '(':
      if (next_byte == '=' && window_[at + 2] == ')') {
        finish(TokenKind::filler, at, at + 3);
      } else {
        finish(TokenKind::open, at, at + 1);
      }
      return true;
    case ')':
      finish(TokenKind::close, at, at + 1);
      return true;
    case '!':
    case '?':
      mark(at);
      return true;
    case '$':
      nag(at);
      return true;
    case '*':
      finish(TokenKind::result, at, at + 1);
      return true;
    case ',':
      finish(TokenKind::filler, at, at + 1);
      return true;
    case '%':
      if (token_.column != 1) break;
      position_ = at + 1;
      skip_line();
      return false;
    default:
      break;
  }
  unknown(at);
  return true;
}

void TokenStream::mark(std::size_t at) {
  const auto is_mark = [](char c) { return c == '!' || c == '?'; };
  const std::size_t end = at + (is_mark(window_[at + 1]) ? 2 : 1);
  finish(TokenKind::mark, at, end);
  token_.value = nag_of_suffix(token_.text).value_or(0);
}

void TokenStream::nag(std::size_t at) {
  std::size_t end = at + 1;
  unsigned value = 0;
  while (is_digit(window_[end]) && end - at <= longest_symbol) {
    value = std::min(value * 10 + static_cast<unsigned>(window_[end++] - '0'), 256U);
  }
  finish(TokenKind::nag, at, end);
  token_.damaged = end == at + 1 || value > 255;
  token_.value = static_cast<std::uint8_t>(value);
}

// Up to the next blank or anything that could begin a token; `<...>` (reserved, section 7.7) whole.
void TokenStream::unknown(std::size_t at) {
  const std::size_t limit = std::min(data_end_, at + longest_symbol);
  std::size_t end = at + 1;
  if (window_[at] == '<') {
    const std::size_t line = line_end(at, limit);
    const auto close = view(at, line).find('>');
    if (close != std::string_view::npos) end = at + close + 1;
  } else if (window_[at] != '}' && window_[at] != ']') {
    while (end < limit && !is_blank_byte(window_[end]) &&
           std::string_view("[](){};$").find(window_[end]) == std::string_view::npos) {
      ++end;
    }
  }
  finish(TokenKind::unknown, at, end);
}

}  // namespace kairos::pgn
