// Quiet win: the best move is no capture, no check and no promotion, is made when not in check, and
// wins material or mates by force where no other move does.
//
//   - Material: what the move reaches by search over material alone with all replies tried
//     (forced.hpp; where that does not see far enough, guided_proof.hpp) is at least
//     `quiet_win_gain` (a pawn) more than is on the board now, and as much more than any other move
//     reaches. The searcher must agree: the best move is ahead by about the material claimed, and
//     `least_gap` of expectation above the second.
//   - Mate: the move leads to a forced mate, seen by two searches, and no other move does.
// Not told where the second best move wins as well (expectation above `decided`).
#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/forced.hpp"

#include "guided_proof.hpp"
#include "kinds.hpp"

namespace kairos::study {

namespace {

// What the searcher must say of material: ahead after the move, and in expectation so much better
// than the second best that the win is worth stopping at.
constexpr search::Score least_lead = 50;
constexpr double least_gap = 0.10;

constexpr int other_plies = 5;  // looked into for moves that are not the best

// Whether no other move reaches more than `most` by search over material alone.
bool is_beyond_all_others(const Evidence& e, search::Score most, std::uint64_t limit,
                          std::uint64_t& nodes) {
  rules::MoveList moves;
  rules::legal_moves(e.position, moves);
  for (const rules::Move move : moves) {
    if (move == e.best) continue;
    const search::Settled other = search::settle(e.position, {other_plies, limit}, move);
    nodes += other.nodes;
    if (!other.complete || other.gain > most) return false;
  }
  return true;
}

// Material the best move wins and no other does; 0 when that is not proved.
int proved_gain(const Evidence& e, const Settings& s, search::Searcher& searcher,
                std::uint64_t& nodes) {
  const std::uint64_t limit = proof_nodes(s.effort.verify_nodes);
  const Proof material = prove_material(e.position, e.best, e.best_score, limit);
  nodes += material.nodes;
  int gain = material.reason ? material.reason->gain : 0;
  if (gain < s.quiet_win_gain) {
    const GuidedLimits limits(s.effort.verify_nodes);
    const GuidedProof proof =
        prove_gain(e.position, e.earlier, e.best, s.quiet_win_gain, limits, searcher);
    nodes += proof.nodes;
    if (!proof.proved) return 0;
    gain = s.quiet_win_gain;
  }
  return is_beyond_all_others(e, gain - s.quiet_win_gain, limit, nodes) ? gain : 0;
}

bool is_mate_alone(search::Score best, search::Score second) {
  return best >= search::min_mate_score && second < search::min_mate_score;
}

}  // namespace

bool mates_alone(const Evidence& e) {
  return is_mate_alone(e.best_score, e.second_score);
}

double quiet_win_hint(const SurveyedPly& g, const Settings& s) {
  const Note& note = g.note();
  if (!g.played() || note.lines.size() < 2) return 0;
  if (!is_quiet(g.position, note.lines.front().moves.front())) return 0;
  const search::Score best = note.lines[0].score, second = note.lines[1].score;
  const double gap = expectation(best) - expectation(second);
  if (best <= 0 || expectation(second) > s.decided) return 0;
  return is_mate_alone(best, second) || gap >= s.candidate_share * least_gap ? gap : 0;
}

std::optional<Moment> find_quiet_win(const Evidence& e, const Settings& s,
                                     search::Searcher& searcher) {
  if (!e.played || e.legal_moves < 2) return std::nullopt;
  if (!is_quiet(e.position, e.best)) return std::nullopt;
  if (expectation(e.second_score) > s.decided) return std::nullopt;
  const bool mates = mates_alone(e);
  if (!mates && (e.best_score < least_lead || e.gap() < least_gap)) return std::nullopt;
  Moment m = moment_of(e, Kind::quiet_win);
  if (!mates) {
    m.gain = proved_gain(e, s, searcher, m.nodes);
    if (m.gain == 0) return std::nullopt;
  }
  return m;
}

}  // namespace kairos::study
