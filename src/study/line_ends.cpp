// What a line comes to.
//
//   draws: the line ends in stalemate of the side that moves first, or of the other; or, from one
//     of its first three moves on, that side has a perpetual check: it gives check at every move,
//     whatever the other side replies, until a position comes back (proved); or the line ends in a
//     position that the game has had, or within `cycle_plies` to one that it had four plies before;
//     or it ends in a position that it has had, with nothing but checks of that side since, from
//     within `checks_begin` (`line`: up to them; it leads there, if the other side plays on so).
//     Only where the score is that of a draw.
//   attacks_king: within `attack_plies` of the line the side gives at least `least_checks` checks
//     or ends it with mate, and at the end of them at least `least_attackers` of its men bear on
//     the king or the squares next to it: more than did before the move, and more than pieces of
//     the other side do. Only where the side is better by `attack_score` than its men are worth.
//     Or else `many_checks` checks within the first four moves of the side, while the king moves.
//   opens_king: the line begins with a capture (the move or its reply), and the other king, which
//     does not move, has within `opening_plies` a pawn less on the two ranks in front of it, on its
//     file or beside it, so that one of these files has no pawn of its own there any more. Only
//     where the side has a queen and a rook or two pieces with it, and is better by `opened_score`
//     than its men are worth.
//   pawn_runs: a passed pawn of the side goes on by two pushes or more within `run_plies` of the
//     line, the first within `run_begins`, to the sixth rank or beyond, and is there at the
//     line's end (or has promoted; whoever takes it then is drawn off: means). Only where the side
//     is better, or it reaches the seventh rank. Of a side that is winning also one that promotes
//     and is not taken at once, however short its way.
//   enters_ending: the line takes the last men but pawns and one kind of piece within
//     `trade_plies`, by captures of both sides, of which the first is the move or the reply to it.
#include "line_ends.hpp"

#include <algorithm>

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/study.hpp"

#include "board_facts.hpp"
#include "perpetual.hpp"
#include "played_line.hpp"

namespace kairos::study {

using rules::Bitboard;
using rules::Color;
using rules::Move;
using rules::Position;
using rules::Square;

namespace {

constexpr std::size_t perpetual_begins_within = 6;
constexpr search::Score drawn_within = 5;
constexpr std::size_t repeat_plies = 5, cycle_plies = 6, checks_begin = 8;

constexpr std::size_t attack_plies = 9;
constexpr int least_checks = 2, least_attackers = 3;
constexpr int many_checks = 3;
constexpr std::size_t chase_plies = 7;
constexpr search::Score attack_score = 200;
constexpr std::size_t opening_plies = 5;
constexpr search::Score opened_score = 80;

constexpr std::size_t trade_plies = 8;
constexpr std::size_t run_plies = 14, run_begins = 6;

// The index of the move of the first side with which its checks without end begin.
std::optional<std::size_t> perpetual_begins(const PlayedLine& line, std::uint64_t& nodes) {
  for (std::size_t i = 0; i < std::min(line.size(), perpetual_begins_within); i += 2) {
    if (line.at(i).gives_check(line.move(i)) && is_perpetual_from(line.at(i), nodes)) return i;
  }
  return std::nullopt;
}

Bitboard around(Square king) {
  return rules::king_attacks(king) | rules::bit(king);
}

// Men of the side, king and pawns apart, that bear on the squares of a king; and with pawns.
std::vector<Square> bearing(const Position& p, Color side, Bitboard squares, bool pawns) {
  std::vector<Square> men;
  Bitboard own = p.pieces(side) & ~p.pieces(rules::king);
  if (!pawns) own &= ~p.pieces(rules::pawn);
  while (own != 0) {
    const Square s = rules::take_first(own);
    if ((attacks_from(p, s) & squares) != 0) men.push_back(s);
  }
  return men;
}

// Whether the man on the square is taken there or leaves its file by taking, in the first plies.
bool goes_by_capture(const PlayedLine& line, Square s, std::size_t plies) {
  for (std::size_t i = 0; i < plies; ++i) {
    const Move m = line.move(i);
    if (m.to() == s) return i % 2 == 0;
    if (m.from() == s) return rules::file_of(m.to()) != rules::file_of(s);
  }
  return false;
}

// Pawns on the two ranks in front of the king, on its file or beside it, that are gone, each where
// its file has none left there.
std::vector<Square> cover_lost(const Position& then, const Position& now, Square king, Color side) {
  Bitboard front = 0;
  for (const int step : {1, 2}) {
    const int rank = rules::rank_of(king) + (side == rules::white ? step : -step);
    if (rank >= 0 && rank < 8) front |= rules::rank_mask(rank);
  }
  std::vector<Square> lost;
  for (int f = std::max(0, rules::file_of(king) - 1); f <= std::min(7, rules::file_of(king) + 1);
       ++f) {
    const Bitboard cover = front & rules::file_mask(f);
    const Bitboard before = then.pieces(side, rules::pawn) & cover;
    if (before != 0 && (now.pieces(side, rules::pawn) & cover) == 0) {
      lost.push_back(rules::first(before));
    }
  }
  return lost;
}

// Whether the line comes back to where it was four plies before.
bool repeats_itself(const PlayedLine& line) {
  for (std::size_t i = 4; i <= std::min(line.size(), cycle_plies); ++i) {
    if (line.after(i - 1).key() == line.at(i - 4).key()) return true;
  }
  return false;
}

// Where the line comes back to at its end, with nothing but checks of the first side since; size()
// where it does not.
std::size_t checks_come_back(const PlayedLine& line) {
  for (std::size_t i = line.size(); i-- > 0;) {
    if (i % 2 == 0 && !line.at(i).gives_check(line.move(i))) break;
    if (i + 4 <= line.size() && line.at(i).key() == line.end().key()) return i;
  }
  return line.size();
}

// How a pawn of the first side goes on in the line, until it promotes.
struct Run {
  Square at;  // where it comes to
  bool goes_on = true;
  int pushes = 0;
  rules::PieceType becomes = rules::no_piece_type;
  Square taken_by = rules::no_square;  // the man that then takes it at once
  rules::PieceType taker = rules::no_piece_type;

  [[nodiscard]] bool promoted() const { return becomes != rules::no_piece_type; }
};

Run run_of_pawn(const PlayedLine& line, Square from) {
  Run run{.at = from};
  for (std::size_t i = 0; i < std::min(line.size(), run_plies) && run.goes_on; ++i) {
    const Move m = line.move(i);
    if (i % 2 == 0 && m.from() == run.at) {
      if (rules::file_of(m.to()) == rules::file_of(run.at)) ++run.pushes;
      if (run.at == from && i >= run_begins) run.goes_on = false;
      run.at = m.to();
      if (!m.is_promotion()) continue;
      run.becomes = m.promoted();
      if (i + 1 == line.size() || line.move(i + 1).to() != run.at) return run;
      run.taken_by = line.move(i + 1).from();
      run.taker = rules::type_of(line.at(i + 1).piece_on(run.taken_by));
      return run;
    }
    if (m.to() == run.at) run.goes_on = false;
  }
  return run;
}

// The kinds of pieces on the board, kings and pawns apart; nothing where there is more than one, or
// a side has more than one of them.
std::optional<std::vector<rules::PieceType>> kinds_of_ending(const Position& p) {
  std::vector<rules::PieceType> kinds;
  for (const rules::PieceType t : {rules::knight, rules::bishop, rules::rook, rules::queen}) {
    const int white = rules::count(p.pieces(rules::white, t));
    const int black = rules::count(p.pieces(rules::black, t));
    if (white > 1 || black > 1) return std::nullopt;
    if (white + black == 2) kinds.push_back(t);
    if (white + black == 1) return std::nullopt;
  }
  if (kinds.size() > 1) return std::nullopt;
  return kinds;
}

}  // namespace

std::optional<Reason> draw_by_force(const MoveFacts& facts, std::uint64_t& nodes) {
  if (std::abs(facts.score) > drawn_within) return std::nullopt;
  const PlayedLine line(facts.position, facts.line, {});
  Reason reason = facts.reason(ReasonKind::draws);
  if (rules::is_stalemate(line.end())) {
    reason.motif = Motif::stalemate;
    reason.squares = {line.end().king_square(line.end().side_to_move())};
    reason.line = facts.line;
    return reason;
  }
  const auto& earlier = facts.earlier;
  const bool comes_back = (std::ranges::find(earlier, line.end().key()) != earlier.end() &&
                           line.size() < repeat_plies) ||
                          repeats_itself(line);
  if (const auto from = perpetual_begins(line, nodes)) {
    reason.motif = Motif::perpetual_check;
    reason.squares = {line.at(*from).king_square(~facts.side())};
    return reason;
  }
  if (const auto from = checks_come_back(line); from <= checks_begin && from < line.size()) {
    reason.motif = Motif::perpetual_check;
    reason.squares = {line.at(from).king_square(~facts.side())};
    const auto before = static_cast<std::ptrdiff_t>(std::max<std::size_t>(from, 1));
    reason.line.assign(facts.line.begin(), facts.line.begin() + before);
    return reason;
  }
  if (!comes_back) return std::nullopt;
  reason.line = facts.line;
  return reason;
}

std::optional<Reason> attack_on_king(const MoveFacts& facts) {
  if (facts.score < facts.material() + attack_score || facts.score < attack_score) {
    return std::nullopt;
  }
  const Position& start = facts.position;
  const bool heavy = start.pieces(facts.side(), rules::queen) != 0 ||
                     rules::count(start.pieces(facts.side(), rules::rook)) > 1;
  if (!heavy) return std::nullopt;
  const PlayedLine line(facts.position, facts.line, {});
  int checks = 0, early_checks = 0;
  std::size_t last = 0;
  for (std::size_t i = 0; i < std::min(line.size(), attack_plies); i += 2) {
    last = i;
    if (!line.at(i).gives_check(line.move(i))) continue;
    ++checks;
    if (i < chase_plies) ++early_checks;
  }
  if (checks < least_checks && !line.ends_in_mate()) return std::nullopt;
  const Position& now = line.after(last);
  const Square king = now.king_square(line.theirs());
  const Square was = facts.position.king_square(line.theirs());
  Reason reason = facts.reason(ReasonKind::attacks_king);
  reason.line.assign(facts.line.begin(),
                     facts.line.begin() + static_cast<std::ptrdiff_t>(last + 1));
  reason.squares = {was};
  reason.pieces = {rules::king};
  const auto men = bearing(now, line.mine(), around(king), true);
  const auto before = bearing(facts.position, line.mine(), around(was), true);
  const auto guards = bearing(now, line.theirs(), around(king), false);
  const bool is_massed = static_cast<int>(men.size()) >= least_attackers &&
                         men.size() > before.size() && men.size() > guards.size();
  if (!is_massed) {
    if (early_checks < many_checks || king == was) return std::nullopt;
    return reason;
  }
  reason.squares.front() = king;
  for (const Square s : men) {
    reason.squares.push_back(s);
    reason.pieces.push_back(rules::type_of(now.piece_on(s)));
  }
  return reason;
}

std::optional<Reason> opened_king(const MoveFacts& facts) {
  if (facts.score < facts.material() + opened_score || facts.score < opened_score) {
    return std::nullopt;
  }
  const Position& start = facts.position;
  const Color mine = facts.side();
  const Bitboard pieces =
      start.pieces(mine) & ~start.pieces(mine, rules::pawn) & ~start.pieces(mine, rules::king);
  if (start.pieces(mine, rules::queen) == 0 || rules::count(pieces) < 3) return std::nullopt;
  const PlayedLine line(start, facts.line, {});
  const bool begins =
      start.is_capture(facts.move()) || (line.size() > 1 && line.at(1).is_capture(line.move(1)));
  if (!begins) return std::nullopt;
  const std::size_t plies = std::min(line.size(), opening_plies);
  const Position& now = line.after(plies - 1);
  const Square king = start.king_square(~mine);
  if (now.king_square(~mine) != king) return std::nullopt;
  auto lost = cover_lost(start, now, king, ~mine);
  std::erase_if(lost, [&](Square s) { return !goes_by_capture(line, s, plies); });
  if (lost.empty()) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::opens_king);
  reason.line.assign(facts.line.begin(), facts.line.begin() + static_cast<std::ptrdiff_t>(plies));
  reason.squares = {king};
  reason.squares.insert(reason.squares.end(), lost.begin(), lost.end());
  return reason;
}

std::optional<Reason> running_pawn(const MoveFacts& facts) {
  const Standing standing = standing_of(expectation(facts.score));
  if (standing < Standing::level) return std::nullopt;
  constexpr int least_steps = 2, least_pushes = 2;
  const int least_rank = standing == Standing::level ? 6 : 5;
  const PlayedLine line(facts.position, facts.line, {});
  for (Bitboard pawns = line.at(0).pieces(line.mine(), rules::pawn); pawns != 0;) {
    const Square from = rules::take_first(pawns);
    const Run run = run_of_pawn(line, from);
    const int rank = rules::rank_seen_by(line.mine(), run.at);
    const bool goes_far = run.pushes >= least_pushes && rank >= least_rank &&
                          rank - rules::rank_seen_by(line.mine(), from) >= least_steps;
    const bool queens =
        run.promoted() && run.taken_by == rules::no_square && standing == Standing::won;
    if (!run.goes_on || !(goes_far || queens)) continue;
    if (std::abs(rules::file_of(run.at) - rules::file_of(from)) > 1) continue;
    if (!run.promoted() && !rules::is_passed(line.end(), run.at)) continue;
    Reason reason = facts.reason(ReasonKind::pawn_runs);
    reason.squares = {from, run.at};
    reason.pieces = {rules::pawn};
    if (run.promoted()) reason.pieces.push_back(run.becomes);
    if (run.taken_by != rules::no_square) {
      reason.means = Means::guard_drawn_off;
      reason.means_squares = {run.taken_by};
      reason.means_pieces = {run.taker};
    }
    return reason;
  }
  return std::nullopt;
}

std::optional<Reason> ending_entered(const MoveFacts& facts) {
  if (kinds_of_ending(facts.position)) return std::nullopt;
  const Standing standing = standing_of(expectation(facts.score));
  const bool tells = standing == Standing::won || std::abs(facts.score) <= drawn_within;
  if (!tells) return std::nullopt;
  const PlayedLine line(facts.position, facts.line, {});
  int taken = 0, took = 0;
  for (std::size_t i = 0; i < std::min(line.size(), trade_plies); ++i) {
    const bool captures = line.at(i).is_capture(line.move(i));
    if (captures) ++(i % 2 == 0 ? took : taken);
    if (i == 1 && took + taken == 0) return std::nullopt;
    const auto kinds = kinds_of_ending(line.after(i));
    if (!kinds || took == 0 || taken == 0) continue;
    const search::Settled rest = search::settle(line.after(i), {1, 20'000});
    if (rest.gain != 0) continue;
    Reason reason = facts.reason(ReasonKind::enters_ending);
    reason.line.assign(facts.line.begin(), facts.line.begin() + static_cast<std::ptrdiff_t>(i + 1));
    reason.pieces = *kinds;
    if (standing == Standing::won) reason.favours = facts.side();
    return reason;
  }
  return std::nullopt;
}

}  // namespace kairos::study
