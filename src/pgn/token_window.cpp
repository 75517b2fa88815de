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

#include "bits.hpp"
#include "blocks.hpp"

namespace kairos::pgn {

namespace {

constexpr std::size_t block_size = 64;
constexpr std::size_t window_size = 1 << 18;
constexpr std::size_t first_size = 1 << 13;  // until the input turns out to be longer
constexpr std::size_t lookahead = 1 << 15;
constexpr std::size_t padding = 4 * block_size;  // zero bytes behind the data
constexpr std::size_t at_once = 0;

// The last bytes of line ends: LF, and CR without LF behind it. Looks at 65 bytes.
std::uint64_t line_ends(const BlockSets& sets, const char* bytes) {
  const std::uint64_t feed_follows = sets.feeds >> 1 | std::uint64_t{bytes[block_size] == '\n'}
                                                           << 63;
  return sets.feeds | (sets.returns & ~feed_follows);
}
std::uint64_t line_ends(const char* bytes) {
  return line_ends(block_sets(bytes), bytes);
}

// A tag may stand behind a run of others (token_tag.cpp), both no longer than this.
static_assert(lookahead > TokenStream::comment_piece + TokenStream::longest_tag + 4 * block_size);

}  // namespace

TokenStream::TokenStream(base::ByteSource& source)
    : source_(source),
      window_(first_size + padding),
      base_(0 - std::uint64_t{block_size}),
      data_end_(block_size),
      block_(block_size) {}

void TokenStream::read_source() {
  while (!at_end_ && data_end_ < window_size && data_end_ - block_ < lookahead) {
    if (data_end_ + padding == window_.size()) window_.resize(window_size + padding);
    const std::size_t room = window_.size() - padding - data_end_;
    auto n = source_.read({window_.data() + data_end_, room});
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
  const bool wide =
      front.starts_with("\xFF\xFE") || front.starts_with("\xFE\xFF") ||
      (front.size() >= 2 && front != std::string_view("\0\0\0\0", 4) &&
       ((front[0] == '[' && front[1] == '\0') || (front[0] == '\0' && front[1] == '[')));
  if (wide) {
    failure_ = base::Fault{base::Code::encoding_unsupported, "UTF-16", {}};
    at_end_ = true;
    data_end_ = block_;
    std::memset(window_.data() + data_end_, 0, padding);
  }
  load_block();
  if (front.starts_with(byte_order_mark)) {
    seek(block_ + byte_order_mark.size());
    line_start_ = byte_order_mark.size();
  }
}

// A block ends before a symbol that may go on behind its 64 bytes, so that symbols lie within their
// block from end to end (but for one that is longer than a block: `ends_` is empty then).
//
// Which symbols are plain numbers and moves is told for all of the block at once. Adding the first
// bytes of symbols to a set of bytes carries through those symbols that lie in the set as a whole,
// and leaves a bit just behind them: that bit is in `ends_`, and tells.
void TokenStream::load_block() {
  const char* const bytes = window_.data() + block_;
  const BlockSets sets = block_sets(bytes);
  const auto cut = static_cast<unsigned>(std::countl_one(sets.symbols));
  width_ = cut == 64 ? 64 : 64 - cut;
  const Bits within = ~Bits{0} >> (64 - width_);
  symbols_ = sets.symbols & within;
  const Bits firsts = symbols_ & ~(symbols_ << 1);
  starts_ = firsts | (~(sets.symbols | sets.blanks) & within);
  ends_ = ~symbols_ & symbols_ << 1;
  newlines_ = line_ends(sets, bytes) & within;

  const Bits heads = firsts & (sets.files | sets.pieces);
  const Bits lasts = sets.checks & ~(symbols_ >> 1);
  const Bits inside = (sets.files | sets.ranks | sets.joints | heads | lasts) & symbols_;
  const Bits target = sets.files << 1 & sets.ranks;
  const Bits target_end = target << 1 | (target << 1 & lasts) << 1;
  number_heads_ = firsts & sets.digits;
  plain_numbers_ = (number_heads_ + (sets.digits & symbols_)) & ends_;
  plain_moves_ = (heads + inside) & ends_ & target_end & ~sets.brackets;
}

std::uint8_t TokenStream::add_origin(const Origin& origin) {
  origins_[origin_count_] = origin;
  return static_cast<std::uint8_t>(origin_count_++);
}

std::uint8_t TokenStream::current_origin() {
  if (origin_count_ != 0 && origins_[origin_count_ - 1].block == block_) {
    return static_cast<std::uint8_t>(origin_count_ - 1);
  }
  return add_origin({block_, newlines_, line_start_, line_});
}

// Looks back over blanks for two line ends.
bool TokenStream::after_empty_line() const {
  const std::size_t at = extent_of(taken_ - 1).begin;
  int ends = 0;
  for (std::size_t i = at - 1; at - i < look_back && is_blank_byte(window_[i]); --i) {
    const bool is_end = window_[i] == '\n' || (window_[i] == '\r' && window_[i + 1] != '\n');
    if (is_end && ++ends == 2) return true;
  }
  return false;
}

// Line ends `ends` of the bytes from `from` on have been passed.
void TokenStream::pass_line_ends(std::size_t from, Bits ends) {
  if (ends == 0) return;
  line_ += static_cast<std::uint32_t>(std::popcount(ends));
  line_start_ = base_ + from + block_size - static_cast<unsigned>(std::countl_zero(ends));
}

void TokenStream::next_block() {
  pass_line_ends(block_, newlines_);
  block_ += width_;
  load_block();
}

void TokenStream::seek(std::size_t position) {
  position_ = position;
  if (position < block_ + width_) {
    const std::size_t k = position - block_;
    const Bits from_here = ~Bits{0} << k;
    starts_ = (starts_ & from_here) | (symbols_ & Bits{1} << k);
    ends_ &= from_here << 1;
    return;
  }
  pass_line_ends(block_, newlines_);
  for (std::size_t at = block_ + width_; at < position; at += block_size) {
    const Bits within = ~Bits{0} >> (block_size - std::min(block_size, position - at));
    pass_line_ends(at, line_ends(window_.data() + at) & within);
  }
  block_ = position;
  load_block();
}

void TokenStream::set_attention() {
  const bool now = inside_ != Inside::nothing || !rest_.empty();
  attention_at_ = now ? at_once : at_end_ ? data_end_ : data_end_ - lookahead;
}

bool TokenStream::attend() {
  if (!started_) start();
  if (inside_ == Inside::tag) {
    inside_ = Inside::nothing;
    pass_line(true);
  }
  if (!at_end_ && rest_.empty() && data_end_ - block_ <= lookahead) fill();
  if (!rest_.empty()) {
    emit_rest();
  } else if (inside_ != Inside::nothing) {
    begin_odd(position_, current_origin());
    inside_ == Inside::comment ? comment_body(position_) : line_comment(position_);
    end_odd(position_);
  } else if (at_end_ && block_ >= data_end_) {
    begin_odd(data_end_, add_origin({data_end_, 0, line_start_, line_}));
    batch_[count_].kind = TokenKind::end;
    position_ = data_end_;
    end_odd(position_);
  } else {
    set_attention();
    return false;
  }
  return true;
}

std::size_t TokenStream::line_end(std::size_t from, std::size_t limit) const {
  while (from < limit && window_[from] != '\n' && window_[from] != '\r') ++from;
  return from;
}

std::string_view TokenStream::rest_of_line() const {
  const std::size_t from = extent_of(taken_ - 1).end;
  return view(from, line_end(from, std::min(data_end_, from + 64)));
}

bool TokenStream::begins_line() const {
  std::size_t at = extent_of(taken_ - 1).begin;
  const std::size_t stop = at - look_back;
  while (at > stop && (window_[at - 1] == ' ' || window_[at - 1] == '\t')) --at;
  return begins_line(at);
}

// Tokens behind the last one handed out may have been made already: goes back to its end.
void TokenStream::skip_line() {
  if (batch_[taken_ - 1].kind == TokenKind::end) return;
  const Extent last = extent_of(taken_ - 1);
  const Spot at = spot();
  rest_ = {};
  inside_ = Inside::nothing;
  count_ = taken_;
  line_ = at.line;
  line_start_ = base_ + last.begin + 1 - at.column;
  block_ = last.end;
  position_ = block_;
  load_block();
  pass_line(true);
  set_attention();
}

// On from `position_` to the next line, or to a tag before it.
void TokenStream::pass_line(bool stop_at_tag) {
  seek(position_);
  for (;;) {
    const Bits ends = newlines_ & ~Bits{0} << (position_ - block_);
    Bits marks = stop_at_tag ? starts_ & ~symbols_ & below_lowest(ends) : 0;
    for (; marks != 0; marks &= marks - 1) {
      const std::size_t at = block_ + static_cast<unsigned>(std::countr_zero(marks));
      if (window_[at] == '[' && opens_tag(at)) return seek(at);
    }
    if (ends != 0) return seek(block_ + static_cast<unsigned>(std::countr_zero(ends)) + 1);
    if (at_end_ && block_ + width_ >= data_end_) return seek(data_end_);
    next_block();
    position_ = block_;
    if (!at_end_ && data_end_ - block_ <= lookahead) fill();
  }
}

}  // namespace kairos::pgn
