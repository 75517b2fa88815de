#include "move_picker.hpp"

#include <algorithm>
#include <limits>
#include <utility>

#include "exchange.hpp"

// Moves come in stages, each generated only when the one before did not cut off: the table's move;
// captures and promotions that do not lose by exchanges, greatest gain first; the killers; quiet
// moves by history; losing captures. In check, all evasions at once. Ties keep the generator's
// order, so the sequence depends on nothing but the position and what was learnt.

namespace kairos::search {

using rules::Bitboard;
using rules::Move;
using rules::Moves;
using rules::Piece;
using rules::PieceType;
using rules::Position;

namespace {

// The key of a move that was handed out: below that of any other.
constexpr int taken = std::numeric_limits<int>::min();

}  // namespace

MovePicker::MovePicker(const Position& position, const Histories& histories,
                       const OrderingHints& hints, Move table_move, Mode mode, bool in_check,
                       const rules::Checks& checks)
    : position_(position),
      histories_(histories),
      hints_(hints),
      table_move_(table_move),
      mode_(mode),
      in_check_(in_check),
      checks_(&checks),
      stage_(table_move ? Stage::table_move
             : in_check ? Stage::make_evasions
                        : Stage::make_noisy) {}

Move MovePicker::next(bool only_checks) {
  for (;;) {
    switch (stage_) {
      case Stage::table_move:
        stage_ = in_check_ ? Stage::make_evasions : Stage::make_noisy;
        return table_move_;
      case Stage::make_noisy:
        make(Moves::noisy);
        score_noisy();
        stage_ = Stage::good_noisy;
        break;
      case Stage::good_noisy:
        if (const Move m = next_good_noisy()) return m;
        stage_ = mode_ == Mode::full          ? Stage::killers
                 : mode_ == Mode::with_checks ? Stage::make_checks
                                              : Stage::finished;
        break;
      case Stage::killers:
        if (const Move m = next_killer()) return m;
        make_quiets();
        stage_ = Stage::quiets;
        break;
      case Stage::quiets:
        if (const Move m = next_quiet(only_checks)) return m;
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
      case Stage::evasions:
        if (const Move m = next_evasion()) return m;
        stage_ = Stage::finished;
        break;
      case Stage::make_checks:
        make_quiets();
        stage_ = Stage::checks;
        break;
      case Stage::checks:
        if (const Move m = next_check()) return m;
        stage_ = Stage::finished;
        break;
      case Stage::finished:
        return {};
    }
  }
}

// Appends to the list; all moves made before have been handed out or stand at its front as bad.
void MovePicker::make(Moves sort) {
  current_ = list_.size();
  rules::legal_moves(position_, list_, sort);
}

void MovePicker::make_quiets() {
  make(Moves::quiet);
  quiets_scored_ = false;
}

Move MovePicker::next_killer() {
  while (killer_ < hints_.killers.size()) {
    const Move m = hints_.killers[killer_++];
    if (m && m != table_move_ && rules::is_legal(position_, m) && !position_.is_capture(m) &&
        !m.is_promotion()) {
      return m;
    }
  }
  return {};
}

Move MovePicker::next_quiet(bool only_checks) {
  if (only_checks && pass_over_quiets()) return {};
  if (!quiets_scored_) score_quiets();
  while (const Move m = next_best()) {
    if (is_given_already(m)) continue;
    if (!only_checks || checks_->given_by(m)) return m;
    if (m != left_out_) ++passed_over_;
  }
  return {};
}

// The cheap way, without ranking: taken when no quiet move is left that gives check.
bool MovePicker::pass_over_quiets() {
  int count = 0;
  for (std::size_t i = current_; i < list_.size(); ++i) {
    const Move m = list_[i];
    if (m == left_out_ || is_given_already(m)) continue;
    if (checks_->given_by(m)) return false;
    ++count;
  }
  current_ = list_.size();
  passed_over_ += count;
  return true;
}

Move MovePicker::next_evasion() {
  while (const Move m = next_best()) {
    if (m != table_move_) return m;
  }
  return {};
}

// Ranks the moves only when there are two checks or more to choose from.
Move MovePicker::next_check() {
  if (!quiets_scored_) {
    int count = 0;
    Move last;
    for (std::size_t i = current_; i < list_.size(); ++i) {
      const Move m = list_[i];
      if (m == table_move_ || !checks_->given_by(m)) continue;
      ++count;
      last = m;
    }
    if (count < 2) {
      current_ = list_.size();
      stage_ = Stage::finished;
      return last;
    }
    score_quiets();
  }
  while (const Move m = next_best()) {
    if (m != table_move_ && checks_->given_by(m)) return m;
  }
  return {};
}

Move MovePicker::next_best() {
  if (current_ >= list_.size()) return {};
  // Rank and place in one number: the greatest is found without branches, and of equal ranks the
  // first in the list wins. Whole blocks are looked at, what lies outside being `taken`.
  int top = taken;
  for (std::size_t from = current_ / block * block; from < list_.size(); from += block) {
    for (std::size_t i = 0; i < block; ++i) top = std::max(top, keys_[from + i]);
  }
  const auto best = static_cast<std::size_t>(255 - (top & 255));
  last_rank_ = top >> 8;
  const Move m = list_[best];
  list_[best] = list_[current_];
  keys_[best] = (keys_[current_] & ~255) | (255 - static_cast<int>(best));
  keys_[current_] = taken;
  ++current_;
  return m;
}

Move MovePicker::next_good_noisy() {
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

// Ranks the moves from current_ on.
template <typename Value>
void MovePicker::rank(Value value) {
  const std::size_t size = list_.size();
  for (std::size_t i = current_; i < size; ++i) {
    keys_[i] = value(list_[i]) * 256 + (255 - static_cast<int>(i));
  }
  std::fill_n(keys_.begin() + static_cast<std::ptrdiff_t>(size), block, taken);
}

int MovePicker::noisy_score(Move m) const {
  const Piece piece = position_.piece_on(m.from());
  const PieceType victim = victim_of(position_, m);
  int score = 0;
  if (position_.is_capture(m)) score += 12 * nominal_values[victim];
  if (m.is_promotion()) score += 12 * nominal_values[m.promoted()];
  return score + histories_.capture(piece, m.to(), victim) / 4;
}

void MovePicker::score_noisy() {
  rank([&](Move m) { return noisy_score(m); });
}

int MovePicker::history_of(Move quiet) const {
  const Piece piece = position_.piece_on(quiet.from());
  const std::size_t cell = Histories::cell(piece, quiet.to());
  return histories_.quiet(position_.side_to_move(), quiet) + (*hints_.one)[cell] +
         (*hints_.two)[cell] + (*hints_.four)[cell] / 2;
}

namespace {

// How much it counts, in units of history, that a move leaves or enters a square where a lesser man
// may take.
constexpr int escape_worth = 12000;

// By type of man: the squares that lesser men of `side` attack.
std::array<Bitboard, 7> attacked_by_lesser(const Position& p, rules::Color side) {
  const auto attacks = [&](PieceType t) {
    Bitboard sum = 0;
    for (Bitboard men = p.pieces(side, t); men != 0;) {
      const rules::Square s = rules::take_first(men);
      sum |=
          t == rules::pawn ? rules::pawn_attacks(side, s) : rules::attacks_of(t, s, p.occupied());
    }
    return sum;
  };
  const Bitboard by_pawn = attacks(rules::pawn);
  const Bitboard by_minor = by_pawn | attacks(rules::knight) | attacks(rules::bishop);
  const Bitboard by_rook = by_minor | attacks(rules::rook);
  return {0, by_pawn, by_pawn, by_minor, by_rook, 0, 0};
}

}  // namespace

void MovePicker::score_quiets() {
  const auto danger = attacked_by_lesser(position_, ~position_.side_to_move());
  rank([&](Move m) {
    const Bitboard squares = danger[rules::type_of(position_.piece_on(m.from()))];
    const int escapes = rules::contains(squares, m.from()) ? escape_worth : 0;
    const int risks = rules::contains(squares, m.to()) ? escape_worth : 0;
    return history_of(m) + escapes - risks;
  });
  quiets_scored_ = true;
}

void MovePicker::score_evasions() {
  constexpr int captures_first = 1 << 20;
  rank([&](Move m) {
    const bool noisy = is_noisy(position_, m);
    const int taker = rules::type_of(position_.piece_on(m.from()));
    return noisy ? captures_first + noisy_score(m) - taker : history_of(m);
  });
}

}  // namespace kairos::search
