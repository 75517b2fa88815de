// What a move wins, in two steps: prove the amount, then count the men.
//
// The proof is settled.hpp's: its line ends when the shooting is over, so the difference in men
// between its ends is what has been won. Equal men cancel (a knight for a bishop is a trade of
// pieces). A promotion changes men without a capture and is kept as such.
#include "kairos/study/forced.hpp"

#include <algorithm>

#include "kairos/search/mate.hpp"
#include "kairos/search/settled.hpp"

#include "line_gain.hpp"

namespace kairos::study {

namespace {

constexpr int longest_mate = 8;
constexpr search::Score least_gain = 100;

// With an even number of plies the other side has the last word, with an odd one its replies are
// followed up: of two depths in a row the smaller gain counts.
constexpr int most_plies = 7;
constexpr std::size_t least_plies = 5;

// Below zero: more of them than before, which only promotion brings about.
Men lost_by(const rules::Position& from, const rules::Position& to, rules::Color side) {
  Men lost{};
  for (int t = rules::pawn; t <= rules::king; ++t) {
    const auto type = static_cast<rules::PieceType>(t);
    lost[type] = static_cast<std::int8_t>(rules::count(from.pieces(side, type)) -
                                          rules::count(to.pieces(side, type)));
  }
  return lost;
}

// The best of the men that there are more of than before.
rules::PieceType promoted_of(const Men& lost) {
  for (std::size_t t = rules::king; t-- > 0;) {
    if (lost[t] < 0) return static_cast<rules::PieceType>(t);
  }
  return rules::no_piece_type;
}

void cancel(std::int8_t& a, std::int8_t& b) {
  const std::int8_t both = std::min(a, b);
  a = static_cast<std::int8_t>(a - both);
  b = static_cast<std::int8_t>(b - both);
}

// Men traded for their like are no gain; knights and bishops count alike.
void cancel_trades(Men& won, Men& lost) {
  for (std::size_t t = 0; t < won.size(); ++t) cancel(won[t], lost[t]);
  cancel(won[rules::knight], lost[rules::bishop]);
  cancel(won[rules::bishop], lost[rules::knight]);
}

rules::Position end_of(rules::Position p, const std::vector<rules::Move>& line) {
  for (const rules::Move m : line) p.play(m);
  return p;
}

// Behind it the proof's line has moves that do nothing.
std::vector<rules::Move> up_to_last_capture(rules::Position p, std::vector<rules::Move> line) {
  std::size_t end = 1;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (p.is_capture(line[i]) || line[i].is_promotion()) end = i + 1;
    p.play(line[i]);
  }
  line.resize(end);
  return line;
}

// What a settled line wins, counted from `from`; nothing where it is no gain or the score does not
// bear it out.
std::optional<Reason> gain_of(const search::Settled& settled, const rules::Position& position,
                              const rules::Position& from, search::Score score) {
  const rules::Color side = position.side_to_move();
  const search::Score before = search::nominal_balance(from, side);
  const search::Score gain = settled.gain + search::nominal_balance(position, side) - before;
  if (gain < least_gain || score < bearable(before + gain, gain)) return std::nullopt;
  const auto men = men_won(from, end_of(position, settled.line), side);
  if (!men) return std::nullopt;
  Reason reason;
  reason.kind = ReasonKind::wins_material;
  reason.move = settled.line.front();
  reason.line = up_to_last_capture(position, settled.line);
  reason.gain = gain;
  reason.men = *men;
  name_what_is_taken(reason, position);
  if (offers_a_trade(reason, position)) return std::nullopt;
  return reason;
}

// `line` is to the mate, and empty where no proof was found.
Reason mate_reason(const rules::Position& position, rules::Move move,
                   std::vector<rules::Move> line) {
  Reason reason;
  reason.kind = line.empty() ? ReasonKind::leads_to_mate : ReasonKind::mates;
  reason.move = move;
  reason.mate_moves = static_cast<int>(line.size() + 1) / 2;
  reason.squares = {end_of(position, line).king_square(~position.side_to_move())};
  reason.line = std::move(line);
  return reason;
}

}  // namespace

std::optional<MenWon> men_won(const rules::Position& from, const rules::Position& to,
                              rules::Color side) {
  MenWon men{lost_by(from, to, ~side), lost_by(from, to, side), rules::no_piece_type};
  men.promoted = promoted_of(men.lost);
  const bool promotes = men.promoted != rules::no_piece_type;
  if (!promotes && promoted_of(men.won) != rules::no_piece_type) return std::nullopt;
  if (promotes) {
    ++men.lost[men.promoted];
    --men.lost[rules::pawn];
    for (Men* count : {&men.won, &men.lost}) {
      for (std::int8_t& n : *count) n = std::max<std::int8_t>(n, 0);
    }
  }
  cancel_trades(men.won, men.lost);
  const bool wins = std::any_of(men.won.begin(), men.won.end(), [](int n) { return n > 0; });
  if (!promotes && !wins) return std::nullopt;
  return men;
}

Proof prove_forced(const rules::Position& position, rules::Move move, search::Score score,
                   std::uint64_t nodes, const rules::Position* since) {
  const int moves = search::mate_moves(score);
  if (moves <= 0) return prove_material(position, move, score, nodes, since);
  if (moves == 1) return {mate_reason(position, move, {move}), 0};
  std::optional<search::MateProof> mate;
  if (moves <= longest_mate) mate = search::prove_mate(position, moves, nodes);
  if (!mate) return {mate_reason(position, move, {}), 0};
  if (mate->line.front() != move) mate->line.clear();
  return {mate_reason(position, move, std::move(mate->line)), mate->nodes};
}

Proof prove_material(const rules::Position& position, rules::Move move, search::Score score,
                     std::uint64_t nodes, const rules::Position* since) {
  // Where the score bears out no gain there is nothing to prove.
  const search::Score now = search::nominal_balance(position, position.side_to_move());
  if (score < bearable(now + least_gain, least_gain)) return {};
  const auto depths = search::settle_by_depth(position, {most_plies, nodes}, move);
  Proof proof{std::nullopt, depths.back().nodes};
  const std::size_t complete = depths.size() - (depths.back().complete ? 0 : 1);
  if (complete < least_plies) return proof;
  const search::Settled &last = depths[complete - 1], &earlier = depths[complete - 2];
  const search::Settled& least = last.gain < earlier.gain ? last : earlier;
  if (least.gain >= search::min_mate_score) return proof;
  if (since != nullptr) proof.reason = gain_of(least, position, *since, score);
  if (proof.reason) return proof;
  proof.reason = gain_of(least, position, position, score);
  if (proof.reason && since != nullptr) proof.reason->kind = ReasonKind::wins_back;
  return proof;
}

}  // namespace kairos::study
