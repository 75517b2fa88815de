// Symbols that are neither plain numbers nor plain moves (tokens.cpp knows those at sight):
// castling, results, promotions, signs, numbers glued to moves, foreign bytes.
#include <algorithm>
#include <array>
#include <bit>

#include "kairos/pgn/game.hpp"
#include "kairos/pgn/tokens.hpp"

#include "symbols.hpp"

namespace kairos::pgn {

void TokenStream::slow_symbol(std::size_t at, std::size_t end) {
  Token& token = batch_[count_++];
  end = std::max(end, joined_end({window_.data(), data_end_}, at, end));
  seek(end);
  const SymbolReading first = read_symbol(view(at, end));
  const std::size_t taken = first.begin + first.size;
  token.kind = first.kind;
  token.value = first.value;
  token.text = view(at + first.begin, at + taken);
  token.spot.column += static_cast<std::uint32_t>(first.begin);
  rest_ = view(at + taken, end);
  rest_spot_ = {token.spot.line, token.spot.column + static_cast<std::uint32_t>(first.size)};
  if (!rest_.empty()) set_attention();
}

// The next token of a symbol that holds several.
void TokenStream::emit_rest() {
  const SymbolReading first = read_symbol(rest_);
  Token& token = batch_[0];
  token = Token{};
  token.kind = first.kind;
  token.value = first.value;
  token.text = rest_.substr(first.begin, first.size);
  token.spot = rest_spot_;
  token.spot.column += static_cast<std::uint32_t>(first.begin);
  rest_.remove_prefix(first.begin + first.size);
  rest_spot_.column += static_cast<std::uint32_t>(first.begin + first.size);
}

}  // namespace kairos::pgn
