// The tokenizer's window: bytes of the source slide through a buffer of fixed size and are turned
// into sets of bits, 64 bytes at a time (blocks.hpp). Finding the next token is then counting
// trailing zeros, not looking at bytes; its line and column fall out of the set of line ends.
//
// Between tokens the window holds at least `lookahead` bytes behind the current block unless the
// input ends before, so no token but a comment ever needs a second look at the source, and those
// come in pieces. The block before the current one is kept: some questions are about the byte
// before. `attention_at_` is the one comparison a token pays for everything that is rare: the
// window running low, a comment to go on with, the end. Covered by tests/pgn/tokens_test.cpp.
#include <algorithm>
#include <bit>
#include <cstring>

#include "kairos/pgn/tokens.hpp"

#include "blocks.hpp"

namespace kairos::pgn {

namespace {

constexpr std::size_t block_size = 64;
constexpr std::size_t window_size = 1 << 18;
constexpr std::size_t lookahead = 1 << 15;
constexpr std::size_t padding = 4 * block_size;  // zero bytes behind the data
constexpr std::size_t at_once = 0;

static_assert(lookahead > 2 * TokenStream::comment_piece + TokenStream::longest_tag);

}  // namespace

TokenStream::TokenStream(base::ByteSource& source)
    : source_(source),
      window_(window_size + padding),
      base_(0 - std::uint64_t{block_size}),
      data_end_(block_size),
      block_(block_size) {}

void TokenStream::read_source() {
  while (!at_end_ && data_end_ < window_size && data_end_ - block_ < lookahead) {
    auto n = source_.read({window_.data() + data_end_, window_size - data_end_});
    if (!n) failure_ = n.fault();
    if (!n || *n == 0) {
      at_end_ = true;
    } else {
      data_end_ += *n;
    }
  }
  std::memset(window_.data() + data_end_, 0, padding);
}

void TokenStream::fill() {
  const std::size_t shift = block_ - block_size;
  std::memmove(window_.data(), window_.data() + shift, data_end_ - shift);
  base_ += shift;
  data_end_ -= shift;
  block_ -= shift;
  position_ = position_ > shift ? position_ - shift : 0;
  read_source();
}

// Text in units of two bytes cannot be read; a UTF-8 mark at the front is passed over.
void TokenStream::start() {
  started_ = true;
  position_ = block_;
  read_source();
  const auto front = view(block_, std::min(data_end_, block_ + 4));
  const bool wide = front.starts_with("\xFF\xFE") || front.starts_with("\xFE\xFF") ||
                    (front.size() >= 2 && front != std::string_view("\0\0\0\0", 4) &&
                     ((front[0] == '[' && front[1] == '\0') || (front[0] == '\0' && front[1] == '[')));
  if (wide) {
    failure_ = base::Fault{base::Code::encoding_unsupported, "UTF-16", {}};
    at_end_ = true;
    data_end_ = block_;
    std::memset(window_.data() + data_end_, 0, padding);
  }
  load_block();
  if (front.starts_with("\xEF\xBB\xBF")) {
    seek(block_ + 3);
    line_start_ = 3;
  }
}

void TokenStream::load_block() {
  const char* const bytes = window_.data() + block_;
  const BlockSets sets = block_sets(bytes);
  const Bits before = sets.symbols << 1 | symbol_carry_;
  const Bits feed_follows = sets.feeds >> 1 | Bits{bytes[block_size] == '\n'} << 63;
  symbols_ = sets.symbols;
  starts_ = (sets.symbols & ~before) | ~(sets.symbols | sets.blanks);
  ends_ = ~sets.symbols & before;
  newlines_ = sets.feeds | (sets.returns & ~feed_follows);
}

void TokenStream::next_block() {
  if (newlines_ != 0) {
    line_ += static_cast<std::uint32_t>(std::popcount(newlines_));
    line_start_ = base_ + block_ + block_size - static_cast<unsigned>(std::countl_zero(newlines_));
  }
  symbol_carry_ = symbols_ >> 63;
  block_ += block_size;
  load_block();
}

void TokenStream::seek(std::size_t position) {
  while (position >= block_ + block_size) next_block();
  const std::size_t k = position - block_;
  const Bits from_here = ~Bits{0} << k;
  starts_ = (starts_ & from_here) | (symbols_ & Bits{1} << k);
  ends_ &= from_here << 1;
  position_ = position;
}

void TokenStream::set_attention() {
  const bool now = in_comment_ || in_line_comment_ || !rest_.empty();
  attention_at_ = now ? at_once : at_end_ ? data_end_ : data_end_ - lookahead;
}

bool TokenStream::attend() {
  if (!started_) start();
  if (!at_end_ && rest_.empty() && data_end_ - block_ <= lookahead) fill();
  bool made = true;
  if (!rest_.empty()) {
    emit_rest();
  } else if (in_comment_) {
    comment_body(position_);
  } else if (in_line_comment_) {
    line_comment(position_);
  } else if (at_end_ && block_ >= data_end_) {
    token_ = Token{};
    token_.line = line_;
    made = true;
  } else {
    made = false;
  }
  set_attention();
  return made;
}

std::size_t TokenStream::line_end(std::size_t from, std::size_t limit) const {
  while (from < limit && window_[from] != '\n' && window_[from] != '\r') ++from;
  return from;
}

std::string_view TokenStream::rest_of_line() const {
  return view(position_, line_end(position_, std::min(data_end_, position_ + 64)));
}

void TokenStream::skip_line() {
  rest_ = {};
  if (!started_) return;
  seek(position_);
  for (;;) {
    const Bits ahead = newlines_ & ~Bits{0} << (position_ - block_);
    if (ahead != 0) {
      seek(block_ + static_cast<unsigned>(std::countr_zero(ahead)) + 1);
      break;
    }
    if (at_end_ && block_ >= data_end_) break;
    seek(block_ + block_size);
    if (!at_end_ && data_end_ - block_ <= lookahead) fill();
  }
  set_attention();
}

}  // namespace kairos::pgn
