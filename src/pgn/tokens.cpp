// The tokenizer's main switch, and the short tokens.
//
// Bytes are classed 64 at a time into sets of bits (blocks.hpp): blanks, symbol characters, ends of
// lines. A token's end is then the lowest bit of a set, not a loop over bytes, so "12. Nf3" costs a
// few instructions however long it is. Where the bytes come from and how a token that crosses two
// buffers is kept whole: token_window.cpp. Tests: tests/pgn/tokens_test.cpp, which also cuts the
// input at every place.
#include "kairos/pgn/tokens.hpp"

#include <algorithm>
#include <bit>

#include "kairos/pgn/nag.hpp"

#include "bits.hpp"
#include "blocks.hpp"

namespace kairos::pgn {

static_assert(static_cast<int>(TokenKind::number) + 1 == static_cast<int>(TokenKind::move));

// As many tokens as come at once: the plain ones of a block and the odd one behind them.
void TokenStream::produce() {
  empty_batch();
  while (count_ == 0) {
    if (block_ >= attention_at_ && attend()) return;
    if (starts_ == 0) {
      next_block();
    } else {
      plain_run();
      if (starts_ != 0) other_token();
    }
  }
}

std::optional<TokenStream::Run> TokenStream::run() {
  if (taken_ != count_) return std::nullopt;
  empty_batch();
  while (starts_ == 0 && block_ < attention_at_) next_block();
  const Bits begins = block_ < attention_at_ ? plain_starts() : 0;
  if (begins == 0) return std::nullopt;
  const Bits from_last = ends_ & ~below_highest(begins);
  const Bits ends = ends_ & (below_lowest(from_last) | lowest(from_last));
  return Run{window_.data() + block_,
             begins,
             ends,
             number_heads_ & begins,
             plain_numbers_ & ends,
             newlines_,
             {line_, static_cast<std::uint32_t>(base_ + block_ - line_start_ + 1)}};
}

// The first bytes of the tokens in front of the first odd one: below a punctuation mark, and below
// the end of a symbol that is not plain without the last of them, which is its own.
inline TokenStream::Bits TokenStream::plain_starts() const {
  const Bits odd_ends = ends_ & ~(plain_numbers_ | plain_moves_);
  const Bits in_front = starts_ & below_lowest(starts_ & ~symbols_);
  if (odd_ends == 0) return ends_ == 0 ? 0 : in_front;
  const Bits until = starts_ & below_lowest(odd_ends);
  return in_front & until & below_highest(until);
}

// Makes tokens of the block's next symbols, as many as are plain numbers and moves. Works on copies
// of the members: bytes are written all the time and could, for all the compiler knows, change
// them.
void TokenStream::plain_run() {
  Bits starts = plain_starts();
  if (starts == 0) return;
  const auto size = static_cast<std::size_t>(std::popcount(starts));
  const std::uint8_t origin = current_origin();
  const char* const bytes = window_.data() + block_;
  const Bits numbers = plain_numbers_;
  Bits all_starts = starts_;
  Bits ends = ends_;
  Token* token = &batch_[count_];
  for (std::size_t n = 0; n < size; ++n) {
    const auto begin = static_cast<unsigned>(std::countr_zero(all_starts));
    const auto end = static_cast<unsigned>(std::countr_zero(ends));
    const unsigned is_number = numbers >> end & 1;
    token->kind = static_cast<TokenKind>(static_cast<unsigned>(TokenKind::move) - is_number);
    token->value = 0;
    token->partial = false;
    token->damaged = false;
    token->origin = origin;
    token->text = {bytes + begin, end - begin};
    all_starts &= all_starts - 1;
    ends &= ends - 1;
    ++token;
  }
  starts_ = all_starts;
  ends_ = ends;
  count_ += size;
}

// The first token left in the block, which is no plain one.
void TokenStream::other_token() {
  const auto k = static_cast<unsigned>(std::countr_zero(starts_));
  const std::size_t at = block_ + k;
  const bool is_symbol = (symbols_ >> k & 1) != 0;
  if (!is_symbol && window_[at] == '%' && begins_line(at)) return escape_line(at);
  starts_ &= starts_ - 1;
  begin_odd(at, current_origin());
  if (is_symbol) {
    slow_symbol(at, symbol_end(at));
  } else if (window_[at] == '[') {
    tag(at);
  } else {
    punctuation(at);
    end_odd(position_);
  }
}

// `%` at the front of a line (section 6). The window may slide along the line, so the tokens made
// before it go out first.
void TokenStream::escape_line(std::size_t at) {
  if (count_ != 0) return;
  position_ = at + 1;
  pass_line(false);
  set_attention();
}

// A byte order mark is passed over, at the front and between games (1).
bool TokenStream::begins_line(std::size_t at) const {
  if (view(at - byte_order_mark.size(), at) == byte_order_mark) at -= byte_order_mark.size();
  return base_ + at == 0 || window_[at - 1] == '\n' || window_[at - 1] == '\r';
}

void TokenStream::begin_odd(std::size_t at, std::uint8_t origin) {
  Token& token = batch_[count_];
  token.value = 0;
  token.partial = false;
  token.damaged = false;
  token.origin = origin;
  token.text = {};
  extents_[count_].begin = at;
}

void TokenStream::end_odd(std::size_t end) {
  extents_[count_++].end = end;
  set_attention();
}

// `>` at the front of a line: quoted mail (34).
bool TokenStream::quotes_line(std::size_t at) const {
  const std::size_t stop = at - look_back;
  while (at > stop && (window_[at - 1] == ' ' || window_[at - 1] == '>')) --at;
  return begins_line(at);
}

// `3) Bb5`: a number alone in front, a move behind (13). Elsewhere it ends a variation; so it does
// in `(3) Bb5`, for minutes are written like that.
bool TokenStream::closes_number(std::size_t at) const {
  constexpr std::size_t most_digits = 4, most_blanks = 8;
  std::size_t begin = at;
  while (at - begin < most_digits && (move_groups_of(window_[begin - 1]) & digit_group) != 0) {
    --begin;
  }
  if (begin == at || !is_blank_byte(window_[begin - 1])) return false;
  std::size_t next = at + 1;
  while (next - at <= most_blanks && is_blank_byte(window_[next])) ++next;
  const char c = window_[next];
  return (c >= 'a' && c <= 'h') || (c >= 'A' && c <= 'Z');
}

// The end of the first symbol left in the block; one that is longer than a block may be cut.
std::size_t TokenStream::symbol_end(std::size_t at) const {
  if (ends_ != 0) return block_ + static_cast<unsigned>(std::countr_zero(ends_));
  std::size_t end = at;
  while (end - at < longest_symbol && is_symbol_byte(window_[end])) ++end;
  return end;
}

void TokenStream::finish(TokenKind kind, std::size_t at, std::size_t end) {
  batch_[count_].kind = kind;
  batch_[count_].text = view(at, end);
  seek(end);
}

void TokenStream::punctuation(std::size_t at) {
  switch (window_[at]) {
    case '{':
      comment_body(at + 1);
      break;
    case ';':
      line_comment(at + 1);
      break;
    case '(':
      if (window_[at + 1] == '=' && window_[at + 2] == ')') {
        finish(TokenKind::filler, at, at + 3);
      } else {
        finish(TokenKind::open, at, at + 1);
      }
      break;
    case ')':
      finish(closes_number(at) ? TokenKind::filler : TokenKind::close, at, at + 1);
      break;
    case '!':
    case '?':
      mark(at);
      break;
    case '$':
      nag(at);
      break;
    case '*':
      finish(TokenKind::result, at, at + 1);
      break;
    case ',':
      finish(TokenKind::filler, at, at + 1);
      break;
    case '>':
      if (quotes_line(at)) {
        finish(TokenKind::filler, at, at + 1);
      } else {
        unknown(at);
      }
      break;
    default:
      unknown(at);
      break;
  }
}

void TokenStream::mark(std::size_t at) {
  const auto is_mark = [](char c) { return c == '!' || c == '?'; };
  const std::size_t end = at + (is_mark(window_[at + 1]) ? 2 : 1);
  finish(TokenKind::mark, at, end);
  batch_[count_].value = nag_of_suffix(batch_[count_].text).value_or(0);
}

void TokenStream::nag(std::size_t at) {
  std::size_t end = at + 1;
  unsigned value = 0;
  while ((move_groups_of(window_[end]) & digit_group) != 0 && end - at <= longest_symbol) {
    value = std::min(value * 10 + static_cast<unsigned>(window_[end++] - '0'), 256U);
  }
  finish(TokenKind::nag, at, end);
  batch_[count_].damaged = end == at + 1 || value > 255;
  batch_[count_].value = static_cast<std::uint8_t>(value);
}

// Up to the next blank or anything that could begin a token; `<...>` (reserved, section 7.7) whole.
void TokenStream::unknown(std::size_t at) {
  const std::size_t limit = std::min(data_end_, at + longest_symbol);
  std::size_t end = at + 1;
  if (window_[at] == '<') {
    const auto inside = view(end, limit);
    const auto stop = inside.find_first_of("<>\r\n");
    if (stop != std::string_view::npos && inside[stop] == '>') end += stop + 1;
  } else if (window_[at] != '}' && window_[at] != ']') {
    while (end < limit && !is_blank_byte(window_[end]) &&
           std::string_view("[](){};$").find(window_[end]) == std::string_view::npos) {
      ++end;
    }
  }
  finish(TokenKind::unknown, at, end);
}

}  // namespace kairos::pgn
