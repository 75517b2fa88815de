// The move picker: hands out the moves of one position, the most promising first, generating them
// only when they are needed.
//
// The table's move must be legal in the position, or none. Killers may be any two different moves.
#pragma once

#include <array>
#include <cstdint>
#include <utility>

#include "kairos/rules/checks.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/position.hpp"

#include "history.hpp"

namespace kairos::search {

inline bool is_noisy(const rules::Position& p, rules::Move m) {
  return p.is_capture(m) || m.is_promotion();
}

// What a move takes, if anything.
inline rules::PieceType victim_of(const rules::Position& p, rules::Move m) {
  return m.is_en_passant() ? rules::pawn : rules::type_of(p.piece_on(m.to()));
}

// What the path to the position says about its moves.
struct OrderingHints {
  const Histories::Row* one = nullptr;   // after the opponent's last move
  const Histories::Row* two = nullptr;   // after our own last move
  const Histories::Row* four = nullptr;  // after our own move before that
  std::array<rules::Move, 2> killers{};
};

class MovePicker {
 public:
  enum class Mode : std::uint8_t {
    full,         // every move
    noisy,        // captures and promotions that do not lose by exchanges
    with_checks,  // the same, then quiet checks
  };

  MovePicker(const rules::Position& position, const Histories& histories,
             const OrderingHints& hints, rules::Move table_move, Mode mode, bool in_check,
             const rules::Checks& checks);

  // The next move, or no move when there are no more. `only_checks` passes over quiet moves that
  // give no check, killers apart, where none is left that does; those are counted.
  rules::Move next(bool only_checks = false);
  // How many moves were passed over since last asked; the move left out does not count.
  int take_passed_over() { return std::exchange(passed_over_, 0); }
  void leave_out(rules::Move m) { left_out_ = m; }
  // Whether the last move handed out loses by exchanges (a "bad capture").
  [[nodiscard]] bool in_bad_noisy() const { return stage_ == Stage::bad_noisy; }
  [[nodiscard]] int history_of(rules::Move quiet) const;
  // The same for the last move handed out, which must be quiet; mostly known already.
  [[nodiscard]] int history_of_last(rules::Move last) const {
    return stage_ == Stage::quiets || stage_ == Stage::evasions ? last_rank_ : history_of(last);
  }

 private:
  enum class Stage : std::uint8_t {
    table_move,
    make_noisy,
    good_noisy,
    killers,
    quiets,
    bad_noisy,
    make_evasions,
    evasions,
    make_checks,
    checks,
    finished
  };

  rules::Move next_killer();
  rules::Move next_quiet(bool only_checks);
  rules::Move next_evasion();
  rules::Move next_check();
  bool pass_over_quiets();  // false, and nothing done, when one of them gives check
  [[nodiscard]] bool is_given_already(rules::Move m) const {
    return m == table_move_ || m == hints_.killers[0] || m == hints_.killers[1];
  }
  rules::Move next_best();  // takes the best scored move left, or no move
  rules::Move next_good_noisy();
  template <typename Value>
  void rank(Value value);
  void score_noisy();
  void score_quiets();
  void score_evasions();
  void make(rules::Moves sort);
  void make_quiets();
  [[nodiscard]] int noisy_score(rules::Move m) const;

  const rules::Position& position_;
  const Histories& histories_;
  const OrderingHints& hints_;
  rules::Move table_move_;
  Mode mode_;
  bool in_check_;
  bool quiets_scored_ = false;
  const rules::Checks* checks_;
  Stage stage_;
  std::size_t killer_ = 0;
  std::size_t current_ = 0;    // first move of list_ not handed out yet
  std::size_t bad_count_ = 0;  // bad captures are kept at the front of list_
  std::size_t bad_given_ = 0;
  rules::MoveList list_;
  int last_rank_ = 0;
  int passed_over_ = 0;
  rules::Move left_out_;
  // Rank and place of each move, then `taken` up to the end of the last block.
  static constexpr std::size_t block = 16;
  alignas(64) std::array<int, 256 + block> keys_;
};

}  // namespace kairos::search
