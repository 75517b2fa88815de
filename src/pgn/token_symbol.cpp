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
  const char behind = window_[end];
  if (behind == '(' || behind == '.' || (behind == ' ' && end - at == 1)) {
    end = joined_end(view(0, std::min(data_end_, at + longest_symbol)), at, end);
  }
  seek(end);
  take_symbol(at, end);
  if (rest_.empty()) return;
  const Spot spot = spot_of(count_ - 1);
  const std::size_t begin = extents_[count_ - 1].begin;
  rest_origin_ = {begin, 0, base_ + begin + 1 - spot.column, spot.line};
}

// What is left of a symbol that holds several tokens.
void TokenStream::emit_rest() {
  const auto at = static_cast<std::size_t>(rest_.data() - window_.data());
  begin_odd(at, add_origin(rest_origin_));
  take_symbol(at, at + rest_.size());
}

void TokenStream::take_symbol(std::size_t at, std::size_t end) {
  Token& token = batch_[count_];
  const SymbolReading first = read_symbol(view(at, end));
  const std::size_t begin = at + first.begin;
  const std::size_t taken = begin + first.size;
  token.kind = first.kind;
  token.value = first.value;
  token.text = view(begin, taken);
  extents_[count_].begin = begin;
  rest_ = view(taken, end);
  end_odd(taken);
}

}  // namespace kairos::pgn
