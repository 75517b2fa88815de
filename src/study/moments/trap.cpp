// Trap: a tempting move that was not played and that loses at least `trap_cost` of expectation to a
// single refutation.
//
// Tempting is what players play: at least `least_tempted` of those rated as the one to move, by the
// model of players; and what a glance likes: among the first choices of a search of some hundred
// nodes, and there no more than `tempting_within` below the best. It is a trap only when the reply
// that refutes it is alone: the second best reply leaves at least `refutation_gap` less; when not
// everybody sees that reply, because it mates at once or takes what plainly hangs, or because
// nearly everyone rated as the opponent would play it; and when the move played
// instead was no error itself. The best two moves are never called traps.
#include <algorithm>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/settled.hpp"
#include "kairos/study/crowd.hpp"
#include "kairos/study/expectation.hpp"

#include "kinds.hpp"

namespace kairos::study {

namespace {

constexpr search::Score tempting_gain = 100;
constexpr double tempting_within = 0.10;
// What a short look sees within `short_look_slack` of a trap gets one of half the verify effort,
// and what that sees within `first_look_slack` a longer one.
constexpr std::uint64_t short_look_divisor = 8;
constexpr double short_look_slack = 0.12, first_look_slack = 0.05;
constexpr std::uint64_t longer_look = 3;
constexpr double refutation_gap = 0.28;
// Of `find_rate_of` players.
constexpr int least_tempted = 500;
// Who erred otherwise has avoided nothing.
constexpr double avoided_cost = 0.15;

// For the hint alone: enough to see that what was taken does not stay won.
constexpr search::SettledLimits hint_limits{4, 20'000};

std::vector<rules::Move> tempting_captures(const rules::Position& p) {
  std::vector<rules::Move> tempting;
  rules::MoveList moves;
  rules::legal_moves(p, moves, rules::Moves::noisy);
  for (const rules::Move m : moves) {
    if (p.is_capture(m) && search::exchange_value(p, m) >= tempting_gain) tempting.push_back(m);
  }
  return tempting;
}

std::vector<rules::Move> temptations_of(const Evidence& e) {
  const search::Verdict seen = glance(e.position, e.earlier);
  std::vector<rules::Move> tempting;
  for (const search::Line& line : seen.lines) {
    const rules::Move m = line.moves.front();
    if (m == e.best || m == e.played || m == e.second) continue;
    const double less = expectation(seen.lines.front().score) - expectation(line.score);
    if (less <= tempting_within) tempting.push_back(m);
  }
  return tempting;
}

// By counting the exchange, of captures that do not end on `taken_on`.
search::Score best_capture(const rules::Position& p, rules::Square taken_on) {
  rules::MoveList moves;
  rules::legal_moves(p, moves, rules::Moves::noisy);
  search::Score best = 0;
  for (const rules::Move m : moves) {
    if (p.is_capture(m) && m.to() != taken_on) {
      best = std::max(best, search::exchange_value(p, m));
    }
  }
  return best;
}

// What everybody sees: a mate at once, or a capture that wins material by counting the exchange,
// more than can be taken elsewhere in return.
bool is_plain_answer(const rules::Position& p, rules::Move reply) {
  const rules::Position next = p.after(reply);
  if (rules::is_checkmate(next)) return true;
  if (!p.is_capture(reply)) return false;
  const search::Score gain = search::exchange_value(p, reply);
  return gain >= tempting_gain && gain - best_capture(next, reply.to()) >= tempting_gain;
}

bool is_refuted(const Evidence& e, rules::Move move, const MoveVerdict& j, double cost,
                double gap) {
  if (j.after.lines.empty()) return false;
  if (expectation(e.best_score) - expectation(j.score) < cost) return false;
  if (is_plain_answer(e.position.after(move), j.replies.front())) return false;
  if (j.after.lines.size() < 2) return false;
  return expectation(j.after.lines[0].score) - expectation(j.after.lines[1].score) >= gap;
}

// Both by the model of players: enough of them would play the move, not nearly all its refutation.
bool would_catch(const Scoresheet& sheet, const Evidence& e, rules::Move move, rules::Move reply,
                 std::uint64_t nodes) {
  const rules::Color side = e.position.side_to_move();
  const int tempted = crowd_at(sheet, e.ply, nodes).players_of(move, rating_of(sheet.facts, side));
  if (tempted < least_tempted) return false;
  const people::Before before{move, e.position.is_capture(move), e.last};
  const Crowd replies(e.position.after(move), sheet.keys_before(e.ply + 1), before, nodes);
  return replies.players_of(reply, rating_of(sheet.facts, ~side)) <= nearly_everyone;
}

}  // namespace

double trap_hint(const SurveyedPly& g, const Settings& s) {
  const Note& note = g.note();
  if (!g.played() || note.lines.size() < 2) return 0;
  const double best = expectation(note.lines.front().score);
  if (best < s.trap_cost) return 0;
  for (const rules::Move m : tempting_captures(g.position)) {
    if (m == g.played() || m == note.lines[0].moves.front() || m == note.lines[1].moves.front()) {
      continue;
    }
    const search::Settled settled = search::settle(g.position, hint_limits, m);
    if (settled.complete && settled.gain < 0) return std::min(best, s.trap_cost);
  }
  return 0;
}

std::vector<rules::Move> traps_in_sight(const Evidence& e, const Settings& s,
                                        search::Searcher& searcher) {
  std::vector<rules::Move> in_sight;
  if (!e.played || e.cost() > avoided_cost + short_look_slack) return in_sight;
  for (const rules::Move move : temptations_of(e)) {
    const std::uint64_t effort = s.effort.verify_nodes / short_look_divisor;
    const MoveVerdict j = search_move(e.position, e.earlier, move, effort, searcher, 2);
    if (is_refuted(e, move, j, s.trap_cost - short_look_slack, refutation_gap - short_look_slack)) {
      in_sight.push_back(move);
    }
  }
  return in_sight;
}

std::optional<Moment> find_trap(const Scoresheet& sheet, const Evidence& e,
                                const std::vector<rules::Move>& in_sight, const Settings& s,
                                search::Searcher& searcher) {
  if (!e.played || e.verdict.lines.empty() || e.cost() > avoided_cost) return std::nullopt;
  std::uint64_t nodes = 0;
  for (const rules::Move move : in_sight) {
    if (move == e.best || move == e.second) continue;  // by the close look
    const std::uint64_t effort = s.effort.verify_nodes / 2;
    MoveVerdict j = search_move(e.position, e.earlier, move, effort, searcher, 2);
    nodes += j.nodes;
    if (!is_refuted(e, move, j, s.trap_cost - first_look_slack, refutation_gap)) continue;
    if (!would_catch(sheet, e, move, j.replies.front(), s.effort.verify_nodes)) continue;
    j = search_move(e.position, e.earlier, move, longer_look * effort, searcher, 2);
    nodes += j.nodes;
    if (!is_refuted(e, move, j, s.trap_cost, refutation_gap)) continue;
    Moment m = moment_of(e, Kind::trap);
    m.tempting = move;
    m.tempting_score = j.score;
    m.refutation = std::move(j.replies);
    m.nodes += nodes;
    return m;
  }
  return std::nullopt;
}

}  // namespace kairos::study
