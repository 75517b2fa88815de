// Motifs along files, ranks and diagonals, and forks. Each is told only when the line bears it out.
//
//   fork: the man that moved attacks two or more of their men that are worth taking (king, a man
//     worth more than itself, or an unguarded piece), and its next move takes one of them; or one,
//     and threatens mate, and takes it with one of its next two moves.
//   pin: (a) the man that moved, a slider, attacks a man of theirs with the king or a more valuable
//     man right behind it, and that man is taken where it stands; it cannot take the slider, or
//     only along the line to its king, and then falls with profit; or (b) the man that moved could
//     be taken but for the fact that the taker is pinned to its king: it took a piece, or is worth
//     more than the taker, or is unguarded.
//   skewer: the man that moved, a slider, attacks a more valuable man, which steps aside, and takes
//     what stood behind it; or, giving no check, takes the man in front, which could not leave what
//     is unguarded behind it.
//   discovered attack: the man that moved leaves the line of a slider of its own side, which takes
//     a piece along that line with its next move, or with profit with the one after; or attacks
//     along it what is worth as much or is unguarded, while the man that moved takes a piece that
//     it attacks too, or has just taken something where it could be taken; or what it attacks so
//     goes elsewhere and falls there, with profit; not for its like.
//   discovered check, double check: the key gives check from a man that did not move; from two men.
//     What the man that moved takes then, it takes by the check, not by a discovered attack.
//   x-ray: a man of theirs that stood between our slider and the key's square takes there, and the
//     slider takes back through the square it left.
//   interference: the key shuts the line of one of their sliders to a square, and the next move
//     takes or mates on that square, guarded by it before.
//   clearance: the key, a check or a sacrifice, leaves a square or a line for another man of its
//     side, whose next move over it or to it takes a piece, mates, or checks in a line that mates.
//     To follow it along the line that it went, and take there, clears nothing.
#include <algorithm>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"

#include "motifs_wider.hpp"

namespace kairos::study {

using rules::Bitboard;
using rules::Position;
using rules::Square;

bool is_slider(const Position& p, Square s) {
  const rules::PieceType t = rules::type_of(p.piece_on(s));
  return t == rules::bishop || t == rules::rook || t == rules::queen;
}

Square man_behind(const Position& p, Square from, Square front) {
  const Bitboard beyond =
      attacks_from(p, from) |
      rules::attacks_of(rules::type_of(p.piece_on(from)), from, p.occupied() & ~rules::bit(front));
  Bitboard hidden =
      beyond & ~attacks_from(p, from) & p.occupied() & rules::line_through(from, front);
  return hidden == 0 ? rules::no_square : rules::take_first(hidden);
}

namespace {

bool is_guarded(const Position& p, Square s, rules::Color by) {
  return (rules::attackers_to(p, s, p.occupied()) & p.pieces(by)) != 0;
}

bool is_fork_target(const Position& p, Square from, Square target, rules::Color theirs) {
  return rules::type_of(p.piece_on(target)) == rules::king || worth(p, target) > worth(p, from) ||
         (is_piece(p, target) && !is_guarded(p, target, theirs));
}

bool mates_or_takes(const PlayedLine& s, std::size_t i) {
  return s.takes_piece(i) || (i < s.size() && rules::is_checkmate(s.after(i)));
}

// A man of theirs that would take on the key's square but is pinned to its king.
bool has_pinned_taker(const PlayedLine& s) {
  const Position& p = s.after(0);
  const Square to = s.key().to(), king = p.king_square(s.theirs());
  Bitboard takers = rules::attackers_to(p, to, p.occupied()) & p.pieces(s.theirs());
  while (takers != 0) {
    const Square taker = rules::take_first(takers);
    const bool guarded = is_guarded(p, to, s.mine());
    if (!s.takes_piece(0) && guarded && worth(p, to) <= worth(p, taker)) continue;
    if (taker == king || rules::contains(rules::line_through(king, taker), to)) continue;
    const Bitboard without = p.occupied() & ~rules::bit(taker);
    const Bitboard checkers = rules::attackers_to(p, king, without) & p.pieces(s.mine());
    if ((checkers & ~p.checkers() & ~rules::bit(to)) != 0) return true;
  }
  return false;
}

bool can_be_taken(const Position& p, Square square) {
  rules::MoveList moves;
  rules::legal_moves(p, moves, rules::Moves::noisy);
  return std::any_of(moves.begin(), moves.end(), [&](rules::Move m) { return m.to() == square; });
}

// Whether the key has opened the line from a slider of its side to a man that stands as before.
bool is_unveiled(const PlayedLine& s, Square slider, Square target) {
  const Position& p = s.after(0);
  return slider != s.key().to() && is_slider(p, slider) &&
         s.at(0).piece_on(slider) == p.piece_on(slider) && target != s.key().to() &&
         rules::contains(rules::between(slider, target), s.key().from()) &&
         rules::contains(attacks_from(p, slider), target) &&
         s.at(0).piece_on(target) == p.piece_on(target);
}

// The pieces that the key lays open to a slider of its side and that are worth as much as it, or
// unguarded.
Bitboard unveiled_men(const PlayedLine& s) {
  const Position& p = s.after(0);
  Bitboard unveiled = 0;
  for (Bitboard sliders = p.pieces(s.mine()) & ~rules::bit(s.key().to()); sliders != 0;) {
    const Square slider = rules::take_first(sliders);
    if (!is_slider(p, slider)) continue;
    for (Bitboard men = attacks_from(p, slider) & p.pieces(s.theirs()); men != 0;) {
      const Square target = rules::take_first(men);
      const bool counts =
          worth(p, target) >= worth(p, slider) || !is_guarded(p, target, s.theirs());
      if (is_piece(p, target) && counts && is_unveiled(s, slider, target)) {
        unveiled |= rules::bit(target);
      }
    }
  }
  return unveiled;
}

bool takes_with_profit(const PlayedLine& s, std::size_t i) {
  return s.takes_piece(i) && search::exchange_value(s.at(i), s.move(i)) >= profit;
}

// A slider takes along the line that the key has opened, with the move after the next.
bool takes_later_along_line(const PlayedLine& s) {
  if (s.size() < 5 || !takes_with_profit(s, 4)) return false;
  const Square slider = s.move(4).from(), target = s.move(4).to();
  return s.at(4).piece_on(slider) == s.at(0).piece_on(slider) &&
         s.at(4).piece_on(target) == s.at(0).piece_on(target) && is_unveiled(s, slider, target);
}

// The man that the key laid open runs and falls where it has gone, within two moves. It has not
// sold itself for its like.
bool runs_and_falls(const PlayedLine& s) {
  const Square refuge = s.move(1).to();
  if (worth(s.at(1), refuge) >= worth(s.at(2), refuge)) return false;
  for (std::size_t i = 2; i < std::min<std::size_t>(s.size(), 5); i += 2) {
    if (s.at(i).piece_on(refuge) != s.at(2).piece_on(refuge)) return false;
    if (s.move(i).to() == refuge) return takes_with_profit(s, i);
  }
  return false;
}

// The key's man attacks a piece too, and takes it while the other side minds the line: within its
// next two moves.
bool takes_meanwhile(const PlayedLine& s) {
  const Bitboard attacked = attacks_from(s.after(0), s.key().to());
  for (std::size_t i = 2; i < std::min<std::size_t>(s.size(), 5); i += 2) {
    if (s.move(i).from() != s.key().to()) continue;
    return s.takes_piece(i) && rules::contains(attacked, s.move(i).to());
  }
  return false;
}

bool can_take(const Position& p, Square taker, Square square) {
  return rules::is_legal(p, rules::Move::normal(taker, square));
}

}  // namespace

std::vector<Square> fork_targets(const PlayedLine& s) {
  const Position& p = s.after(0);
  const Square from = s.key().to();
  std::vector<Square> targets;
  for (Bitboard attacked = attacks_from(p, from) & p.pieces(s.theirs()); attacked != 0;) {
    const Square target = rules::take_first(attacked);
    if (is_fork_target(p, from, target, s.theirs())) targets.push_back(target);
  }
  return targets;
}

bool is_fork(const PlayedLine& s) {
  if (s.size() < 3) return false;
  const Square from = s.key().to();
  if (s.move(1).to() == from) return false;
  const std::vector<Square> targets = fork_targets(s);
  const auto takes_target = [&](std::size_t i) {
    return i < s.size() && s.move(i).from() == from && s.takes_piece(i) &&
           std::ranges::find(targets, s.move(i).to()) != targets.end();
  };
  if (targets.size() >= 2) return takes_target(2);
  const bool still_there = s.size() > 3 && s.at(4).piece_on(from) == s.after(0).piece_on(from);
  return !targets.empty() && !can_be_taken(s.after(0), from) && threatens_mate(s) &&
         (takes_target(2) || (still_there && takes_target(4)));
}

std::vector<Square> pinned_man(const PlayedLine& s) {
  const Position& p = s.after(0);
  const Square from = s.key().to();
  if (!is_slider(p, from)) return {};
  for (Bitboard fronts = attacks_from(p, from) & p.pieces(s.theirs()); fronts != 0;) {
    const Square front = rules::take_first(fronts);
    const Square back = man_behind(p, from, front);
    if (back == rules::no_square || !rules::contains(p.pieces(s.theirs()), back)) continue;
    if (worth(p, back) <= worth(p, front) || worth(p, front) < 300) continue;
    const std::size_t taken = s.capture_on(front, 2);
    if (taken == s.size()) continue;
    const bool absolute = rules::type_of(p.piece_on(back)) == rules::king;
    if (can_take(p, front, from) && !(absolute && takes_with_profit(s, taken))) continue;
    return {front, back};
  }
  return {};
}

bool is_pin(const PlayedLine& s) {
  if (!pinned_man(s).empty()) return true;
  return has_pinned_taker(s) && !can_be_taken(s.after(0), s.key().to());
}

bool is_skewer(const PlayedLine& s) {
  if (s.size() < 3) return false;
  const Position& p = s.after(0);
  const Square from = s.key().to(), front = s.move(1).from();
  if (!is_slider(p, from) || !rules::contains(attacks_from(p, from), front)) return false;
  const Square back = man_behind(p, from, front);
  return back != rules::no_square && s.move(2).from() == from && s.move(2).to() == back &&
         worth(p, front) > worth(p, back) && s.takes_piece(2) && s.move(1).to() != from;
}

bool is_front_of_skewer_won(const PlayedLine& s) {
  if (s.size() < 3 || !takes_with_profit(s, 2) || s.after(0).in_check()) return false;
  const Position& p = s.after(0);
  const Square from = s.key().to(), front = s.move(2).to();
  if (!is_slider(p, from) || s.move(2).from() != from || s.move(1).to() == front) return false;
  if (!rules::contains(attacks_from(p, from), front)) return false;
  const Square back = man_behind(p, from, front);
  if (back == rules::no_square || !rules::contains(p.pieces(s.theirs()), back)) return false;
  const Bitboard guards = rules::attackers_to(p, back, p.occupied()) & p.pieces(s.theirs());
  return worth(p, front) > worth(p, back) && is_piece(p, back) &&
         (guards & ~rules::bit(front)) == 0;
}

bool is_discovered_attack(const PlayedLine& s) {
  if (s.size() < 3) return false;
  if (s.takes_piece(2) && is_unveiled(s, s.move(2).from(), s.move(2).to())) return true;
  return !is_discovered_check(s) && unveiled_men(s) != 0 && takes_meanwhile(s);
}

bool is_wider_discovered_attack(const PlayedLine& s) {
  if (s.size() < 3 || is_discovered_check(s)) return false;
  if (takes_later_along_line(s)) return true;
  if (!rules::contains(unveiled_men(s), s.move(1).from())) return false;
  const bool took_under_fire =
      s.at(0).is_capture(s.key()) && can_be_taken(s.after(0), s.key().to());
  return took_under_fire || runs_and_falls(s);
}

bool is_discovered_check(const PlayedLine& s) {
  const Bitboard checkers = s.after(0).checkers();
  return checkers != 0 && !s.key().is_castling() && !rules::contains(checkers, s.key().to());
}

bool is_double_check(const PlayedLine& s) {
  return rules::more_than_one(s.after(0).checkers());
}

bool is_x_ray(const PlayedLine& s) {
  if (s.size() < 3) return false;
  const Square to = s.key().to(), slider = s.move(2).from();
  return s.move(1).to() == to && s.move(2).to() == to && is_slider(s.after(0), slider) &&
         rules::contains(rules::between(slider, to), s.move(1).from());
}

bool is_interference(const PlayedLine& s) {
  if (s.size() < 3 || !mates_or_takes(s, 2)) return false;
  const Square block = s.key().to(), target = s.move(2).to();
  if (target == block || s.at(0).is_capture(s.key())) return false;
  Bitboard sliders =
      rules::attackers_to(s.at(0), target, s.at(0).occupied()) & s.at(0).pieces(s.theirs());
  while (sliders != 0) {
    const Square guard = rules::take_first(sliders);
    if (is_slider(s.at(0), guard) && rules::contains(rules::between(guard, target), block) &&
        s.at(2).piece_on(guard) == s.at(0).piece_on(guard) &&
        !is_guarded(s.at(2), target, s.theirs())) {
      return true;
    }
  }
  return false;
}

bool is_clearance(const PlayedLine& s) {
  if (s.size() < 3) return false;
  const bool mating = s.at(2).gives_check(s.move(2)) && s.ends_in_mate();
  if (!mating && !mates_or_takes(s, 2)) return false;
  if (!s.at(0).gives_check(s.key()) && !is_sacrifice(s.at(0), s.key())) return false;
  const Square left = s.key().from();
  const rules::Move next = s.move(2);
  const bool other_man = next.from() != s.key().to() && next.to() != s.key().to();
  return other_man &&
         (next.to() == left || (is_slider(s.at(2), next.from()) &&
                                rules::contains(rules::between(next.from(), next.to()), left)));
}

}  // namespace kairos::study
