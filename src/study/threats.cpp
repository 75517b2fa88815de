// Threats.
//
//   threatens: if the other side passed after the move, it would be mated in at most
//     `longest_told` (proved), or lose a piece by an exchange; and the side that moves could not
//     have done the same at once, in place of the move. Of men only where the side was not in check
//     and the line minds the threat: the man is taken within `minded_plies`, or the reply moves it
//     or guards it. Not of a move that takes a piece, nor of one that takes back or is taken back:
//     there more is to be said.
//     Where no more is found such a threat is told also if the reply, no capture and no check, does
//     something else.
//   prevents: if the side passed instead of making the move, the same would happen to it. After the
//     move it does not: there is no such mate, and no man of those can be taken with profit where
//     it now stands. After the other move it still would. A check puts a mate off, so it meets
//     none.
#include "threats.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/search/mate.hpp"
#include "kairos/search/searcher.hpp"

#include "board_facts.hpp"
#include "played_line.hpp"

namespace kairos::study {

using rules::Move;
using rules::Position;
using rules::Square;

namespace {

constexpr int longest_mate = 3, longest_told = 2;
constexpr std::size_t minded_plies = 5;
constexpr std::uint64_t mate_nodes = 30'000;
constexpr search::Score least_profit = 200;

// What the side that is not to move would do if it were: nothing while the side to move is in
// check. Men that could be taken with profit, by counting the exchange; or else a mate.
struct Threat {
  std::vector<Square> squares;           // of the men; of a mate, where its last move goes
  std::vector<rules::PieceType> pieces;  // the men; of a mate none
  int mate_moves = 0;
  std::uint64_t nodes = 0;

  [[nodiscard]] bool is_none() const { return squares.empty(); }
};

std::optional<search::MateProof> mate_in(const Position& p, int moves, std::uint64_t& nodes) {
  // Mates in one, two and three are asked for in this order; most of the nodes go to the last.
  auto proof = search::prove_mate(p, moves, mate_nodes);
  nodes += proof ? proof->nodes : mate_nodes;
  return proof;
}

// Captures that win a piece by counting the exchange, the best of each square.
struct Capture {
  Move move;
  search::Score profit = 0;
};
std::vector<Capture> captures_in(const Position& p) {
  std::vector<Capture> best;
  rules::MoveList moves;
  rules::legal_moves(p, moves, rules::Moves::noisy);
  for (const Move m : moves) {
    if (!p.is_capture(m) || p.is_empty(m.to())) continue;
    const search::Score profit = search::exchange_value(p, m);
    if (profit < least_profit) continue;
    const auto same =
        std::ranges::find_if(best, [m](const Capture& c) { return c.move.to() == m.to(); });
    if (same == best.end()) {
      best.push_back({m, profit});
    } else if (profit > same->profit) {
      *same = {m, profit};
    }
  }
  std::ranges::stable_sort(best, std::greater<>{}, &Capture::profit);
  return best;
}

// Whether the man on the square can be taken with profit by the side to move.
bool is_taken_with_profit(const Position& p, Square square) {
  return std::ranges::any_of(captures_in(p),
                             [square](const Capture& c) { return c.move.to() == square; });
}

Reason reason_of(const MoveFacts& facts, ReasonKind kind, const Threat& threat) {
  Reason reason = facts.reason(kind);
  reason.squares = threat.squares;
  reason.pieces = threat.pieces;
  reason.mate_moves = threat.mate_moves;
  return reason;
}

// The threats at whose squares `holds` is true.
template <typename Holds>
Threat only_those(const Threat& threat, const Holds& holds) {
  Threat kept;
  for (std::size_t i = 0; i < threat.squares.size(); ++i) {
    if (!holds(threat.squares[i])) continue;
    kept.squares.push_back(threat.squares[i]);
    kept.pieces.push_back(threat.pieces[i]);
  }
  return kept;
}

Threat threat_in(const Position& position, int longest) {
  Threat threat;
  if (position.in_check()) return threat;
  const Position passed = position.after(rules::null_move);
  if (!rules::has_legal_move(passed)) return threat;
  if (const auto mate = mate_in(passed, longest, threat.nodes)) {
    threat.mate_moves = mate->moves;
    threat.squares = {mate->line.back().to()};
    return threat;
  }
  for (const Capture& c : captures_in(passed)) {
    threat.squares.push_back(c.move.to());
    threat.pieces.push_back(rules::type_of(passed.piece_on(c.move.to())));
  }
  return threat;
}

// Of such captures there is more to be said than what they threaten.
bool takes_piece_or_trades(const MoveFacts& facts) {
  const Square to = facts.move().to();
  if (!facts.position.is_capture(facts.move())) return false;
  const bool takes_piece =
      !facts.position.is_empty(to) && rules::type_of(facts.position.piece_on(to)) != rules::pawn;
  const bool takes_back =
      facts.last && facts.before.is_capture(facts.last) && facts.last.to() == facts.move().to();
  const bool is_taken = facts.line.size() > 1 && facts.line[1].to() == facts.move().to();
  return takes_piece || takes_back || is_taken;
}

// Whether the line takes the man, or the reply moves it without a capture, or guards it.
bool is_minded(const PlayedLine& line, Square s) {
  if (line.size() < 2) return false;
  const std::size_t taken = line.capture_on(s, 2);
  if (taken < std::min(line.size(), minded_plies)) return true;
  const Move reply = line.move(1);
  if (line.at(1).is_capture(reply)) return false;
  if (reply.from() == s) return true;
  const Position& after = line.after(1);
  return after.piece_on(s) == line.at(1).piece_on(s) && !after.in_check() &&
         !is_taken_with_profit(after, s);
}

}  // namespace

std::optional<Reason> threat_of(const MoveFacts& facts, std::uint64_t& nodes) {
  // What was threatened before a check was met cannot be known by passing.
  if (takes_piece_or_trades(facts) || facts.position.in_check()) return std::nullopt;
  const Threat threat = threat_in(facts.position.after(facts.move()), longest_told);
  nodes += threat.nodes;
  if (threat.is_none()) return std::nullopt;
  if (threat.mate_moves > 0) {
    const auto before = search::prove_mate(facts.position, threat.mate_moves, mate_nodes);
    nodes += before ? before->nodes : 0;
    if (before) return std::nullopt;
    return reason_of(facts, ReasonKind::threatens, threat);
  }
  const PlayedLine line(facts.position, facts.line, {});
  const Threat fresh = only_those(threat, [&](Square s) {
    return !is_taken_with_profit(facts.position, s) && is_minded(line, s);
  });
  if (fresh.is_none()) return std::nullopt;
  return reason_of(facts, ReasonKind::threatens, fresh);
}

std::optional<Reason> quiet_threat(const MoveFacts& facts) {
  const Position& start = facts.position;
  if (facts.line.size() < 2 || start.in_check() || takes_piece_or_trades(facts)) {
    return std::nullopt;
  }
  const Position now = start.after(facts.move());
  const Move reply = facts.line[1];
  if (now.in_check() || now.is_capture(reply) || now.gives_check(reply)) return std::nullopt;
  Threat threat;
  for (const Capture& c : captures_in(now.after(rules::null_move))) {
    if (is_taken_with_profit(start, c.move.to())) continue;
    threat.squares.push_back(c.move.to());
    threat.pieces.push_back(rules::type_of(now.piece_on(c.move.to())));
  }
  if (threat.is_none()) return std::nullopt;
  return reason_of(facts, ReasonKind::threatens, threat);
}

std::optional<Reason> prevented_by(const MoveFacts& facts, Move other, std::uint64_t& nodes) {
  const Threat threat = threat_in(facts.position, longest_mate);
  nodes += threat.nodes;
  if (threat.is_none() || !other) return std::nullopt;
  const Position met = facts.position.after(facts.move()), not_met = facts.position.after(other);
  if (threat.mate_moves > 0) {
    if (met.in_check() || mate_in(met, longest_mate, nodes)) return std::nullopt;
    if (!mate_in(not_met, longest_mate, nodes)) return std::nullopt;
    return reason_of(facts, ReasonKind::prevents, threat);
  }
  const Threat averted = only_those(threat, [&](Square s) {
    const bool stays = not_met.piece_on(s) == facts.position.piece_on(s);
    const Square stands = s == facts.move().from() ? facts.move().to() : s;
    return stays && is_taken_with_profit(not_met, s) && !is_taken_with_profit(met, s) &&
           !is_given_up_in(facts, stands);
  });
  // A man that goes from one square of danger to another has met nothing.
  const bool moved_into_danger = is_taken_with_profit(met, facts.move().to());
  if (averted.is_none() || moved_into_danger) return std::nullopt;
  return reason_of(facts, ReasonKind::prevents, averted);
}

}  // namespace kairos::study
