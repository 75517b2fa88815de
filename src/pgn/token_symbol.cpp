// Symbols: move numbers, moves, results, signs. Two in three tokens of a file are plain move
// numbers or plain moves (Nf3, exd5+); `symbol` knows those at sight and leaves all else to
// `slow_symbol`, which knows castling, results, numbers glued to moves and foreign bytes.
#include <algorithm>
#include <array>
#include <bit>

#include "kairos/pgn/game.hpp"
#include "kairos/pgn/tokens.hpp"

#include "symbols.hpp"

namespace kairos::pgn {

// The end of the symbol whose first byte is `at`; long ones are cut (at a block's border).
std::size_t TokenStream::symbol_end(std::size_t at) {
  while (ends_ == 0) {
    next_block();
    if (block_ - at > longest_symbol) {
      seek(block_);
      return block_;
    }
  }
  const std::size_t end = block_ + static_cast<unsigned>(std::countr_zero(ends_));
  ends_ &= ends_ - 1;
  return end;
}

void TokenStream::symbol(std::size_t at) {
  const std::size_t end = symbol_end(at);
  const char* const text = window_.data() + at;
  const std::size_t size = end - at;
  position_ = end;
  token_.text = {text, size};
  if (is_digit(*text)) {
    if (size <= 3 && is_digit(text[size - 1]) && is_digit(text[size / 2])) {
      token_.kind = TokenKind::number;
      return;
    }
  } else if (size >= 2) {
    const std::size_t bare = size - (text[size - 1] == '+' || text[size - 1] == '#');
    const bool plain = bare - 2 <= 2 && is_rank(text[bare - 1]) && is_file(text[bare - 2]) &&
                       begins_move(*text) && (bare < 4 || is_inside_move(text[1]));
    if (plain && window_[end] != '(') {
      token_.kind = TokenKind::move;
      return;
    }
  }
  slow_symbol(at, end);
}

void TokenStream::slow_symbol(std::size_t at, std::size_t end) {
  const std::size_t joined = joined_end({window_.data(), data_end_}, at, end);
  if (joined != end) {
    seek(joined);
    end = joined;
  }
  const SymbolReading first = read_symbol(view(at, end));
  token_.kind = first.kind;
  token_.value = first.value;
  token_.text = view(at + first.begin, at + first.begin + first.size);
  token_.column += static_cast<std::uint32_t>(first.begin);
  const std::size_t taken = first.begin + first.size;
  if (at + taken == end) return;
  rest_ = view(at + taken, end);
  set_attention();
}

void TokenStream::emit_rest() {
  const SymbolReading first = read_symbol(rest_);
  token_.column += static_cast<std::uint32_t>(token_.text.size() + first.begin);
  token_.kind = first.kind;
  token_.value = first.value;
  token_.blank_line = false;
  token_.text = rest_.substr(first.begin, first.size);
  rest_.remove_prefix(first.begin + first.size);
}

}  // namespace kairos::pgn
