#include "order.hpp"

#include <algorithm>
#include <utility>

#include "exchange.hpp"

// Moves come in stages, each generated only when the one before did not cut off: the table's move;
// captures and promotions that do not lose by exchanges, greatest gain first; the killers; quiet
// moves by history; losing captures. In check, all evasions at once. Ties keep the generator's
// order, so the sequence depends on nothing but the position and what was learnt.

namespace kairos::search {

using rules::Move;
using rules::Moves;
using rules::Piece;
using rules::PieceType;
using rules::Position;

Histories::Histories() : captures_(14 * 64), continuations_(14 * 64 + 1) {}

void Histories::clear() {
  corrections_ = {};
  quiets_ = {};
  std::fill(captures_.begin(), captures_.end(), std::array<std::int16_t, 8>{});
  std::fill(continuations_.begin(), continuations_.end(), Row{});
}

namespace {

// Corrections are kept in 1/128 centipawns and stay below a pawn.
constexpr int correction_grain = 128;
constexpr int correction_limit = 64 * correction_grain;

std::uint64_t mix(std::uint64_t sum, rules::Bitboard men) {
  sum = (sum ^ men) * 0x9E3779B97F4A7C15;  // the golden ratio's digits: odd, bits well spread
  return sum ^ (sum >> 29);
}

}  // namespace

Histories::Places Histories::places_of(const Position& p) {
  constexpr int shift = 64 - 13;
  Places places{};
  places[0] =
      mix(mix(0, p.pieces(rules::white, rules::pawn)), p.pieces(rules::black, rules::pawn)) >>
      shift;
  for (const rules::Color c : {rules::white, rules::black}) {
    std::uint64_t sum = mix(1, p.pieces(c, rules::knight));
    sum = mix(sum, p.pieces(c, rules::bishop));
    sum = mix(sum, p.pieces(c, rules::rook));
    sum = mix(sum, p.pieces(c, rules::queen));
    places[c + 1U] = mix(sum, p.pieces(c, rules::king)) >> shift;
  }
  return places;
}

int Histories::correction(const Position& p) const {
  const Places places = places_of(p);
  const auto& kinds = corrections_[p.side_to_move()];
  int sum = 0;
  for (std::size_t kind = 0; kind < places.size(); ++kind) sum += kinds[kind][places[kind]];
  return sum / correction_grain;
}

// All three values move toward taking up the error that is left after their sum.
void Histories::learn_correction(const Position& p, int depth, int error) {
  const Places places = places_of(p);
  auto& kinds = corrections_[p.side_to_move()];
  const int weight = std::min(depth + 1, 16);
  const int step = std::clamp(error, -200, 200) * correction_grain * weight / 512;
  for (std::size_t kind = 0; kind < places.size(); ++kind) {
    std::int16_t& value = kinds[kind][places[kind]];
    value =
        static_cast<std::int16_t>(std::clamp(value + step, -correction_limit, correction_limit));
  }
}

Picker::Picker(const Position& position, const Histories& histories, const Trail& trail,
               Move table_move, Mode mode, bool in_check, const rules::Checks* checks)
    : position_(position),
      histories_(histories),
      trail_(trail),
      table_move_(table_move),
      mode_(mode),
      in_check_(in_check),
      checks_(checks),
      stage_(table_move ? Stage::table_move
             : in_check ? Stage::make_evasions
                        : Stage::make_noisy) {}

Move Picker::next(bool skip_quiets) {
  for (;;) {
    switch (stage_) {
      case Stage::table_move:
        stage_ = in_check_ ? Stage::make_evasions : Stage::make_noisy;
        return table_move_;
      case Stage::make_noisy:
        make(Moves::noisy);
        score_noisy(0);
        stage_ = Stage::good_noisy;
        break;
      case Stage::good_noisy:
        if (const Move m = next_good_noisy()) return m;
        stage_ = mode_ == Mode::full          ? Stage::killers
                 : mode_ == Mode::with_checks ? Stage::make_checks
                                              : Stage::finished;
        break;
      case Stage::killers:
        if (const Move m = skip_quiets ? Move{} : next_killer()) return m;
        stage_ = Stage::make_quiets;
        break;
      case Stage::make_quiets:
        if (!skip_quiets) {
          current_ = list_.size();
          make(Moves::quiet);
          score_quiets(current_);
        }
        stage_ = Stage::quiets;
        break;
      case Stage::quiets:
        if (const Move m = skip_quiets ? Move{} : next_best()) {
          if (m == table_move_ || m == trail_.killers[0] || m == trail_.killers[1]) break;
          return m;
        }
        stage_ = Stage::bad_noisy;
        break;
      case Stage::bad_noisy:
        if (bad_given_ < bad_count_) return list_[bad_given_++];
        stage_ = Stage::finished;
        break;
      case Stage::make_evasions:
        make(Moves::all);
        score_evasions();
        stage_ = Stage::evasions;
        break;
      case Stage::evasions: {
        const Move m = next_best();
        if (m == table_move_ && m) break;
        if (!m) stage_ = Stage::finished;
        return m;
      }
      case Stage::make_checks:
        current_ = list_.size();
        make(Moves::quiet);
        score_quiets(current_);
        stage_ = Stage::checks;
        break;
      case Stage::checks:
        if (const Move m = next_best()) {
          if (m == table_move_ || !checks_->given_by(m)) break;
          return m;
        }
        stage_ = Stage::finished;
        break;
      case Stage::finished:
        return {};
    }
  }
}

void Picker::make(Moves sort) {
  rules::legal_moves(position_, list_, sort);
}

Move Picker::next_killer() {
  while (killer_ < trail_.killers.size()) {
    const Move m = trail_.killers[killer_++];
    if (m && m != table_move_ && rules::is_legal(position_, m) && !position_.is_capture(m) &&
        !m.is_promotion()) {
      return m;
    }
  }
  return {};
}

Move Picker::next_best() {
  if (current_ >= list_.size()) return {};
  // Rank and place in one number: the greatest is found without branches, and of equal ranks the
  // first in the list wins.
  int top = keys_[current_];
  for (std::size_t i = current_ + 1; i < list_.size(); ++i) top = std::max(top, keys_[i]);
  const auto best = static_cast<std::size_t>(255 - (top & 255));
  last_rank_ = top >> 8;
  const Move m = list_[best];
  list_[best] = list_[current_];
  keys_[best] = (keys_[current_] & ~255) | (255 - static_cast<int>(best));
  ++current_;
  return m;
}

void Picker::rank(std::size_t i, int value) {
  keys_[i] = value * 256 + (255 - static_cast<int>(i));
}

Move Picker::next_good_noisy() {
  while (const Move m = next_best()) {
    if (m == table_move_) continue;
    const Score slack = -last_rank_ / 64;
    const bool good = !(m.is_promotion() && m.promoted() != rules::queen) &&
                      exchange_at_least(position_, m, mode_ == Mode::full ? slack : 0);
    if (good) return m;
    list_[bad_count_++] = m;  // at most as many as were handed out, so nothing is overwritten
  }
  return {};
}

int Picker::noisy_score(Move m) const {
  const Piece piece = position_.piece_on(m.from());
  const PieceType victim =
      m.is_en_passant() ? rules::pawn : rules::type_of(position_.piece_on(m.to()));
  int score = 0;
  if (position_.is_capture(m)) score += 12 * nominal_values[victim];
  if (m.is_promotion()) score += 12 * nominal_values[m.promoted()];
  return score + histories_.capture(piece, m.to(), victim) / 4;
}

void Picker::score_noisy(std::size_t from) {
  for (std::size_t i = from; i < list_.size(); ++i) rank(i, noisy_score(list_[i]));
}

int Picker::history_of(Move quiet) const {
  const Piece piece = position_.piece_on(quiet.from());
  const std::size_t cell = Histories::cell(piece, quiet.to());
  return histories_.quiet(position_.side_to_move(), quiet) + (*trail_.one)[cell] +
         (*trail_.two)[cell] + (*trail_.four)[cell] / 2;
}

void Picker::score_quiets(std::size_t from) {
  for (std::size_t i = from; i < list_.size(); ++i) rank(i, history_of(list_[i]));
}

void Picker::score_evasions() {
  constexpr int captures_first = 1 << 20;
  for (std::size_t i = 0; i < list_.size(); ++i) {
    const Move m = list_[i];
    const bool noisy = position_.is_capture(m) || m.is_promotion();
    const int taker = rules::type_of(position_.piece_on(m.from()));
    rank(i, noisy ? captures_first + noisy_score(m) - taker : history_of(m));
  }
}

}  // namespace kairos::search
