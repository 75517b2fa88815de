// Motifs told by how a line ends: mates, draws, promotions, and gains that need no art.
//
//   smothered mate: a knight mates a king whose every neighbouring square holds its own men; after
//     the key every move of the solver gives check, else it is only how a long line happens to end.
//   back rank: a rook or queen mates from afar along the rank of a king on its first rank, and own
//     men stand on at least two of the squares in front of it, leaving it no way out.
//   stalemate: the line comes to a stalemate of the side that was in danger; or that side, a piece
//     behind, offers a man within three moves that can only be taken with stalemate.
//   perpetual check: every solver's move of the line, three at least, gives check, and the line
//     comes back to a position it has had; and there is no reply by which the checks would end,
//     or a search has found that the line draws.
//   promotion, underpromotion: a solver's pawn promotes in the line and is not taken at once; to
//     anything but a queen. The line is about that pawn: the solver takes no piece before.
//   zugzwang: their king is not in check and they are to move in an ending (at most `few_men`); if
//     they could pass, nothing would be lost by search over material alone; as it is, they lose a
//     pawn at least.
//   miscount: the key takes back where the move before had taken, and that move lost material by
//     counting the exchange on its square.
//   hanging piece: the key takes an unguarded piece.
#include <algorithm>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/search/settled.hpp"

#include "perpetual.hpp"
#include "played_line.hpp"

namespace kairos::study {

using rules::Bitboard;
using rules::Position;
using rules::Square;

namespace {

constexpr search::Score behind = -300;  // who has more does not play for stalemate
constexpr std::size_t offered_plies = 5;
constexpr int few_men = 10;
constexpr int lost_by_move = 100;       // what zugzwang must cost, in centipawns
constexpr int lost_by_exchange = -100;  // what a miscount loses
constexpr search::SettledLimits settled_limits{5, 300'000};

bool is_first_rank(rules::Color c, Square s) {
  return rules::rank_of(s) == (c == rules::white ? 0 : 7);
}

bool takes_piece_before(const PlayedLine& s, std::size_t end) {
  for (std::size_t i = 0; i < end; i += 2) {
    if (s.takes_piece(i)) return true;
  }
  return false;
}

// After the key, every move of the solver gives check.
bool all_checks(const PlayedLine& s) {
  for (std::size_t i = 2; i < s.size(); i += 2) {
    if (!s.at(i).gives_check(s.move(i))) return false;
  }
  return true;
}

// The solver's move of that index promotes and the new man is not taken by the next move.
bool promotes(const PlayedLine& s, std::size_t i, bool to_queen) {
  const rules::Move m = s.move(i);
  if (!m.is_promotion() || (m.promoted() == rules::queen) != to_queen) return false;
  if (takes_piece_before(s, i)) return false;
  return i + 1 >= s.size() || s.move(i + 1).to() != m.to();
}

bool any_promotion(const PlayedLine& s, bool to_queen) {
  for (std::size_t i = 0; i < s.size(); i += 2) {
    if (promotes(s, i, to_queen)) return true;
  }
  return false;
}

}  // namespace

bool is_smothered_mate(const PlayedLine& s) {
  if (!s.ends_in_mate() || !all_checks(s)) return false;
  const Position& p = s.end();
  const Bitboard checkers = p.checkers();
  if (rules::type_of(p.piece_on(rules::first(checkers))) != rules::knight) return false;
  const Bitboard around = rules::king_attacks(p.king_square(s.theirs()));
  return (around & ~p.pieces(s.theirs())) == 0;
}

bool is_back_rank(const PlayedLine& s) {
  if (!s.ends_in_mate()) return false;
  const Position& p = s.end();
  const Square king = p.king_square(s.theirs()), checker = rules::first(p.checkers());
  const rules::PieceType type = rules::type_of(p.piece_on(checker));
  if (type != rules::rook && type != rules::queen) return false;
  if (!is_first_rank(s.theirs(), king) || rules::rank_of(checker) != rules::rank_of(king)) {
    return false;
  }
  if (rules::contains(rules::king_attacks(king), checker)) return false;
  const Bitboard front = rules::king_attacks(king) & ~rules::rank_mask(rules::rank_of(king));
  return rules::count(front & p.pieces(s.theirs())) >= 2;
}

bool is_stalemate_trick(const PlayedLine& s) {
  if (rules::is_stalemate(s.end())) return true;
  if (search::nominal_balance(s.at(0), s.mine()) > behind) return false;
  // Nor may the other side take what is offered.
  for (std::size_t i = 0; i < std::min(s.size(), offered_plies); i += 2) {
    const Position& p = s.after(i);
    rules::MoveList replies;
    rules::legal_moves(p, replies, rules::Moves::noisy);
    for (const rules::Move m : replies) {
      if (m.to() == s.move(i).to() && rules::is_stalemate(p.after(m))) return true;
    }
  }
  return false;
}

bool is_perpetual(const PlayedLine& s) {
  int checks = 0;
  for (std::size_t i = 0; i < s.size(); i += 2) {
    if (!s.at(i).gives_check(s.move(i))) return false;
    ++checks;
  }
  if (checks < 3) return false;
  for (std::size_t i = 0; i <= s.size(); ++i) {
    for (std::size_t j = i + 2; j <= s.size(); j += 2) {
      const Position& later = j < s.size() ? s.at(j) : s.end();
      if (s.at(i).key() != later.key()) continue;
      std::uint64_t nodes = 0;
      return s.prelude().is_draw || is_perpetual_from(s.at(0), nodes);
    }
  }
  return false;
}

bool is_promotion(const PlayedLine& s) {
  return any_promotion(s, true);
}

bool is_underpromotion(const PlayedLine& s) {
  return any_promotion(s, false);
}

bool is_zugzwang(const PlayedLine& s) {
  const Position& p = s.after(0);
  if (rules::count(p.occupied()) > few_men || p.in_check()) return false;
  if (s.at(0).is_capture(s.key()) || s.key().is_promotion() || !rules::has_legal_move(p)) {
    return false;
  }
  const search::Settled passed = search::settle(p.after(rules::null_move), settled_limits);
  const search::Settled moved = search::settle(p, settled_limits);
  return passed.complete && moved.complete && passed.gain < lost_by_move &&
         -moved.gain >= lost_by_move;
}

bool is_miscount(const PlayedLine& s) {
  const Prelude& prelude = s.prelude();
  if (prelude.before == nullptr || !prelude.last) return false;
  return prelude.before->is_capture(prelude.last) && s.key().to() == prelude.last.to() &&
         search::exchange_value(*prelude.before, prelude.last) <= lost_by_exchange;
}

bool is_hanging_piece(const PlayedLine& s) {
  if (!s.takes_piece(0)) return false;
  const Position& p = s.after(0);
  return (rules::attackers_to(p, s.key().to(), p.occupied()) & p.pieces(s.theirs())) == 0;
}

}  // namespace kairos::study
