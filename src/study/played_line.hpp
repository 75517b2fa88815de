// What the rules of the motifs look at: a line played out, and questions about it.
//
// Moves are numbered from 0: even ones are the solver's, odd ones the opponent's. `at(i)` is the
// position before move i. Rules ask in terms of `mine` (the solver) and `theirs`.
#pragma once

#include <vector>

#include "kairos/rules/attacks.hpp"
#include "kairos/study/motifs.hpp"

namespace kairos::study {

class PlayedLine {
 public:
  PlayedLine(const rules::Position& position, std::span<const rules::Move> line,
             const Prelude& prelude);

  [[nodiscard]] std::size_t size() const { return moves_.size(); }
  [[nodiscard]] rules::Move move(std::size_t i) const { return moves_[i]; }
  [[nodiscard]] rules::Move key() const { return moves_[0]; }
  [[nodiscard]] const rules::Position& at(std::size_t i) const { return positions_[i]; }
  [[nodiscard]] const rules::Position& after(std::size_t i) const { return positions_[i + 1]; }
  [[nodiscard]] const rules::Position& end() const { return positions_.back(); }
  [[nodiscard]] const Prelude& prelude() const { return prelude_; }
  [[nodiscard]] rules::Color mine() const { return positions_[0].side_to_move(); }
  [[nodiscard]] rules::Color theirs() const { return ~mine(); }

  // Whether move i exists and takes something worth at least a minor piece.
  [[nodiscard]] bool takes_piece(std::size_t i) const;
  [[nodiscard]] bool ends_in_mate() const;
  // The first solver's move from `from` on that takes on `square` the man standing there after the
  // key; size() when there is none.
  [[nodiscard]] std::size_t capture_on(rules::Square square, std::size_t from) const;

 private:
  std::vector<rules::Move> moves_;
  std::vector<rules::Position> positions_;
  Prelude prelude_;
};

// Centipawns that count as a profit of an exchange: more than a pawn.
inline constexpr int profit = 150;
// What the man on `s` attacks.
rules::Bitboard attacks_from(const rules::Position& p, rules::Square s);
// The man that a capture takes.
rules::PieceType taken_type(const rules::Position& p, rules::Move capture);
// Centipawns of the man on `s`; a king counts more than all else.
int worth(const rules::Position& p, rules::Square s);
// Whether a man on `s` is worth a minor piece at least (kings included).
bool is_piece(const rules::Position& p, rules::Square s);
// Whether a bishop, rook or queen stands on `s`.
bool is_slider(const rules::Position& p, rules::Square s);
// The next man behind `front` as seen by the slider on `from`; no_square when the line is empty.
rules::Square man_behind(const rules::Position& p, rules::Square from, rules::Square front);
// Whether a man of the side to move can take on `s` with profit, by counting the exchange.
bool hangs(const rules::Position& p, rules::Square s);

// Whether the solver would mate at once if the other side passed after the key.
bool threatens_mate(const PlayedLine& s);

// motifs_lines.cpp: what happens along files, ranks and diagonals, and forks
bool is_fork(const PlayedLine& s);
// Those that the man that moved attacks by the rule of the fork.
std::vector<rules::Square> fork_targets(const PlayedLine& s);
// The pinned man that falls and what stands behind it; empty where rule (a) of the pin fails.
std::vector<rules::Square> pinned_man(const PlayedLine& s);
bool is_pin(const PlayedLine& s);
bool is_skewer(const PlayedLine& s);
bool is_discovered_attack(const PlayedLine& s);
bool is_discovered_check(const PlayedLine& s);
bool is_double_check(const PlayedLine& s);
bool is_x_ray(const PlayedLine& s);
bool is_interference(const PlayedLine& s);
bool is_clearance(const PlayedLine& s);

// motifs_guards.cpp: what a guard no longer guards
bool is_removing_the_guard(const PlayedLine& s);
bool is_deflection(const PlayedLine& s);
bool is_overloaded(const PlayedLine& s);
bool is_decoy(const PlayedLine& s);
bool is_in_between_move(const PlayedLine& s);
bool is_trapped_piece(const PlayedLine& s);
// The trapped man, then the squares it could go to; empty where there is none.
std::vector<rules::Square> trapped_man(const PlayedLine& s);

// motifs_ends.cpp: mates, draws, promotions, plain gains
bool is_smothered_mate(const PlayedLine& s);
bool is_back_rank(const PlayedLine& s);
bool is_stalemate_trick(const PlayedLine& s);
bool is_perpetual(const PlayedLine& s);
bool is_promotion(const PlayedLine& s);
bool is_underpromotion(const PlayedLine& s);
bool is_zugzwang(const PlayedLine& s);
bool is_miscount(const PlayedLine& s);
bool is_hanging_piece(const PlayedLine& s);

}  // namespace kairos::study
