#include "network.hpp"

#include <algorithm>
#include <bit>
#include <cstring>

extern "C" const char kairos_weights[];  // weights.S

namespace kairos::search {

namespace {

static_assert(std::endian::native == std::endian::little, "the weights are used as they lie");

// Squares on which two boards differ.
rules::Bitboard difference(const std::array<rules::Piece, rules::square_count>& a,
                           const std::array<rules::Piece, rules::square_count>& b) {
  rules::Bitboard set = 0;
  for (std::size_t s = 0; s < a.size(); ++s) set |= std::uint64_t{a[s] != b[s]} << s;
  return set;
}

struct Changes {
  std::array<const Columns*, rules::square_count> added, removed;
  std::size_t added_count = 0, removed_count = 0;
};

void apply(const Columns& from, const Changes& changes, Columns& to) {
  const std::size_t pairs = std::min(changes.added_count, changes.removed_count);
  const Columns* source = &from;
  for (std::size_t n = 0; n < pairs; ++n) {
    const Columns& plus = *changes.added[n];
    const Columns& minus = *changes.removed[n];
    for (std::size_t i = 0; i < to.size(); ++i) {
      to[i] = static_cast<std::int16_t>((*source)[i] + plus[i] - minus[i]);
    }
    source = &to;
  }
  for (std::size_t n = pairs; n < changes.added_count; ++n) {
    const Columns& plus = *changes.added[n];
    for (std::size_t i = 0; i < to.size(); ++i) {
      to[i] = static_cast<std::int16_t>((*source)[i] + plus[i]);
    }
    source = &to;
  }
  for (std::size_t n = pairs; n < changes.removed_count; ++n) {
    const Columns& minus = *changes.removed[n];
    for (std::size_t i = 0; i < to.size(); ++i) {
      to[i] = static_cast<std::int16_t>((*source)[i] - minus[i]);
    }
    source = &to;
  }
  if (source == &from && &from != &to) to = from;
}

// The sum of clamp(x)^2 * w, in units of 64. No part overflows: x^2 fits in 16 bits, and as |w| is
// at most 2,032 (a test reads the weights) the whole in 32.
constexpr int square_unit = 64;
std::int32_t output_sum(const Columns& sums, const Columns& w) {
  std::int32_t total = 0;
  for (std::size_t i = 0; i < sums.size(); ++i) {
    const auto x = static_cast<std::uint16_t>(std::clamp<std::int16_t>(sums[i], 0, layer_one));
    const auto square = static_cast<std::uint16_t>(x * x);
    total += static_cast<std::int16_t>(square / square_unit) * w[i];
  }
  return total;
}

}  // namespace

const NetworkWeights& network_weights() {
  return *reinterpret_cast<const NetworkWeights*>(kairos_weights);
}

Network::Network(const NetworkWeights& weights) : weights_(weights), by_ply_(max_ply + 1) {
  Sums empty{weights.bias, {}, {}};
  empty.board.fill(rules::no_piece);
  for (rules::Color side : {rules::white, rules::black}) {
    for (std::size_t n = 0; n < by_region_[side].size(); ++n) {
      const bool flipped = n % 2 != 0;
      empty.view = {static_cast<std::uint8_t>((side == rules::white ? 0 : 56) ^ (flipped ? 7 : 0)),
                    static_cast<std::uint8_t>(n / 2)};
      by_region_[side][n] = empty;
    }
    for (Pair& pair : by_ply_) pair[side] = empty;
  }
}

const Network::Sums& Network::bring_up(const rules::Position& position, rules::Color side,
                                       std::size_t ply) {
  const View view = view_of(side, position.king_square(side));
  Sums& here = by_ply_[ply][side];
  Sums& of_region = by_region_[side][std::size_t{view.region} * 2 + ((view.turn & 7) != 0 ? 1 : 0)];
  const Sums* from = &of_region;
  rules::Bitboard changed = difference(from->board, position.board());
  const auto consider = [&](const Sums& other) {
    if (other.view != view) return;
    const rules::Bitboard set = difference(other.board, position.board());
    if (rules::count(set) >= rules::count(changed)) return;
    from = &other;
    changed = set;
  };
  consider(here);
  if (ply > 0) consider(by_ply_[ply - 1][side]);

  Changes changes;
  for (; changed != 0; changed &= changed - 1) {
    const rules::Square s = rules::first(changed);
    const auto columns = [&](rules::Piece man) {
      return &weights_.layer[static_cast<std::size_t>(feature_of(view, side, man, s))];
    };
    const rules::Piece before = from->board[s], now = position.piece_on(s);
    if (before != rules::no_piece) changes.removed[changes.removed_count++] = columns(before);
    if (now != rules::no_piece) changes.added[changes.added_count++] = columns(now);
  }
  apply(from->columns, changes, here.columns);
  here.board = position.board();
  here.view = view;
  if (from == &of_region) of_region = here;
  return here;
}

int Network::evaluate(const rules::Position& position, int ply) {
  const auto at = static_cast<std::size_t>(ply);
  const rules::Color us = position.side_to_move();
  const Sums& own = bring_up(position, us, at);
  const Sums& other = bring_up(position, ~us, at);
  const auto bucket = static_cast<std::size_t>(bucket_of(rules::count(position.occupied())));
  const auto& w = weights_.output[bucket];
  const std::int64_t sum =
      std::int64_t{output_sum(own.columns, w[0])} + output_sum(other.columns, w[1]);
  // x^2 * w carries one factor of layer_one more than the bias.
  const std::int64_t out = sum * square_unit / layer_one + weights_.output_bias[bucket];
  return static_cast<int>(out * output_centipawns / (layer_one * output_one));
}

}  // namespace kairos::search
