// How a solution line is made.
//
// Walk: after the key the opponent answers with the reply of longest resistance (the mate prover's
// defence where a mate is proved, else the searcher's choice), then the solver's next move must
// again be unique, or the line stops before it.
//
// End: the line is then cut where the reward is on the board first.
//   - Mate: the line runs to its end; the claim "mate in N" needs the prover. A line that stops
//     early, because a later move has a dual, still ends in mate when the prover has proved it.
//   - Material: after each solver's move we ask what is left of the gain when the opponent has done
//     his best over material alone (settled.hpp). The best such gain is the reward; the line ends
//     at the first move where it has been taken off the board and stays off, or, when uniqueness
//     ends before that, at the first move after which it is proved.
//   - Save: everything else loses and the key holds the draw, still level at the end of the line.
// Anything else is no reward: an advantage that cannot be shown on a board makes no puzzle.
#include "solution.hpp"

#include <algorithm>

#include "kairos/rules/draws.hpp"
#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::puzzle {

namespace {

constexpr int longest_line = 8;             // solver's moves
constexpr std::uint64_t later_divisor = 2;  // of the effort, behind the key: the table is warm
constexpr int longest_proof = 8;            // mate in so many moves is tried to be proved
constexpr std::uint64_t least_proof_nodes = 2'000'000;
constexpr search::Score least_gain = 100;
constexpr search::SettledLimits settled_limits{4, 400'000};

// A save: the second best is lost, the key is level within so many centipawns.
constexpr double lost_below = 0.12;
constexpr search::Score level_within = 60;

struct Walker {
  const Question& question;
  std::uint64_t nodes;
  search::Searcher& searcher;
  Solution& solution;

  rules::Position position;
  std::vector<rules::Key> keys;

  void play(rules::Move move) {
    keys.push_back(position.key());
    position.play(move);
    solution.line.push_back(move);
  }

  rules::Move best_reply(const std::vector<rules::Move>& proof) {
    const std::size_t at = solution.line.size();
    if (at < proof.size() &&
        std::equal(solution.line.begin(), solution.line.end(), proof.begin())) {
      return proof[at];
    }
    search::Limits limits;
    limits.nodes = nodes / later_divisor;
    const search::Verdict verdict = searcher.search(position, keys, limits);
    solution.nodes += verdict.nodes;
    return verdict.lines.front().moves.front();
  }

  // The opponent's reply and the solver's next move; false when the line ends before them.
  bool step(const std::vector<rules::Move>& proof) {
    if (rules::game_status(position, keys) != rules::GameStatus::open) return false;
    const rules::Move reply = best_reply(proof);
    keys.push_back(position.key());
    const rules::Position next = position.after(reply);
    if (rules::game_status(next, keys) != rules::GameStatus::open) return false;
    const Answer answer = answer_of(next, keys, nodes / later_divisor, searcher);
    solution.nodes += answer.verdict.nodes;
    keys.pop_back();
    if (!answer.unique()) return false;
    play(reply);
    play(answer.key);
    return true;
  }
};

// Material the solver has after `plies` of the line more than at its start, if the opponent now
// does his best; and what is off the board already.
struct Material {
  search::Score on_board = 0;
  search::Score settled = 0;
};

Material material_after(const Question& q, const std::vector<rules::Move>& line, std::size_t plies,
                        std::uint64_t& nodes) {
  rules::Position p = q.position;
  for (std::size_t i = 0; i < plies; ++i) p.play(line[i]);
  const rules::Color solver = q.position.side_to_move();
  Material m;
  m.on_board = search::nominal_balance(p, solver) - search::nominal_balance(q.position, solver);
  const search::Settled rest = search::settle(p, settled_limits);
  nodes += rest.nodes;
  m.settled = rest.complete ? m.on_board - rest.gain : 0;
  return m;
}

// Cuts the line where the material is won; false when none is.
bool end_with_material(const Question& q, Solution& s) {
  std::vector<Material> after;
  for (std::size_t plies = 1; plies <= s.line.size(); plies += 2) {
    after.push_back(material_after(q, s.line, plies, s.nodes));
  }
  search::Score most = 0;
  for (const Material& m : after) most = std::max(most, m.settled);
  if (most < least_gain) return false;
  const auto taken = std::find_if(after.begin(), after.end(), [&](const Material& m) {
    return m.settled >= most && m.on_board >= most;
  });
  const auto proved = std::find_if(after.begin(), after.end(),
                                   [&](const Material& m) { return m.settled >= most; });
  const auto end = taken != after.end() ? taken : proved;
  s.line.resize(static_cast<std::size_t>(end - after.begin()) * 2 + 1);
  s.reward = Reward::material;
  s.gain = most;
  return true;
}

bool is_save(const Answer& a) {
  return study::expectation(a.second_score) <= lost_below && a.score >= -level_within &&
         a.score <= level_within;
}

bool still_level(Walker& walker) {
  if (rules::game_status(walker.position, walker.keys) != rules::GameStatus::open) return true;
  search::Limits limits;
  limits.nodes = walker.nodes;
  const search::Verdict verdict = walker.searcher.search(walker.position, walker.keys, limits);
  walker.solution.nodes += verdict.nodes;
  const search::Score score = verdict.lines.front().score;
  return score >= -level_within && score <= level_within;
}

// The proof of the mate the searcher announces, if it can be had.
std::optional<search::MateProof> proof_of(const Question& q, const Answer& a, std::uint64_t nodes) {
  const int moves = search::mate_moves(a.score);
  if (moves < 1 || moves > longest_proof) return std::nullopt;
  return search::prove_mate(q.position, moves, std::max(nodes, least_proof_nodes));
}

}  // namespace

Solution solve(const Question& question, const Answer& answer, std::uint64_t nodes,
               search::Searcher& searcher) {
  Solution s;
  const auto proof = proof_of(question, answer, nodes);
  if (proof) {
    s.nodes += proof->nodes;
    s.mate_moves = proof->moves;
    // Another move mates as fast: the searcher has overlooked a second solution.
    if (proof->line.front() != answer.key) s.drop = Drop::cook;
    if (s.drop != Drop::none) return s;
  }
  Walker walker{question, nodes, searcher, s, question.position, question.earlier};
  walker.play(answer.key);
  const std::vector<rules::Move> guide = proof ? proof->line : std::vector<rules::Move>{};
  for (int moves = 1; moves < longest_line && walker.step(guide);) ++moves;

  if (rules::is_checkmate(walker.position) || proof) {
    s.reward = Reward::mate;
  } else if (end_with_material(question, s)) {
    // cut there
  } else if (is_save(answer) && still_level(walker)) {
    s.reward = Reward::save;
  } else {
    s.drop = Drop::no_reward;
  }
  return s;
}

}  // namespace kairos::puzzle
