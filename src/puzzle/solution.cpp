// How a solution line is made.
//
// Walk: after the key the opponent answers with the reply of longest resistance (the mate prover's
// defence where a mate is proved, else the searcher's choice), then the solver's next move must
// again be unique, or what is asked ends before it.
//
// End: the line is then told until the reward is on the board.
//   - Mate: to the mate; the claim "mate in N" needs the prover.
//   - Material: after each solver's move we ask what is left of the gain when the opponent has done
//     his best over material alone (settled.hpp). The best such gain is the reward; the line ends
//     at the first move where it is off the board and nothing can be won back. Where uniqueness
//     ends before that, what is asked ends where the gain is on the board, or is proved to come,
//     and best play is shown until it is safe; where that takes long, until it, or a part, is on
//     the board. Where the man that moved last could be taken, an answer to his going on is shown.
//   - Save: everything else loses and the key holds the draw, still level at the end of the line.
//     Where best play then repeats the position or ends the game soon, that is shown; else the
//     solver finds more than one move, or takes something.
// Taken: where the man that made the key could be taken and the opponent does better, that capture
// is answered beside the line, since everybody asks about it. Anything else is no reward: what
// cannot be seen on a board at the end of a line makes no puzzle.
#include "solution.hpp"

#include <algorithm>
#include <utility>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::puzzle {

namespace {

constexpr int longest_line = 8;         // solver's moves
constexpr int most_shown = 4;           // solver's moves behind those asked, of a gain
constexpr int most_shown_of_safe = 2;   // the same of a gain that is safe
constexpr int most_shown_if_taken = 3;  // the same behind a capture of the man that made the key
constexpr int most_shown_of_save = 6;   // the same of a draw: until it repeats
constexpr std::uint64_t later_divisor = 2;  // of the effort, behind the key: the table is warm
constexpr int longest_proof = 8;            // mate in so many moves is tried to be proved
constexpr std::uint64_t least_proof_nodes = 2'000'000;
constexpr search::Score least_gain = 100;
constexpr search::SettledLimits settled_limits{4, 400'000};

// A save: the second best is lost, the key is level within so many centipawns.
constexpr double lost_below = 0.12;
constexpr search::Score level_within = 60;

std::uint64_t proof_nodes(std::uint64_t nodes) {
  return std::max(nodes, least_proof_nodes);
}

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

  [[nodiscard]] bool is_over() const {
    return rules::game_status(position, keys) != rules::GameStatus::open;
  }

  [[nodiscard]] bool has_repeated() const {
    return std::ranges::find(keys, position.key()) != keys.end();
  }

  // The line's next move by the proof, else by the searcher.
  rules::Move best_move(const std::vector<rules::Move>& proof) {
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
    if (is_over()) return false;
    const rules::Move reply = best_move(proof);
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

  // To the end of the line, which was cut.
  void go_to_end() {
    position = question.position;
    keys = question.earlier;
    const std::vector<rules::Move> line = std::exchange(solution.line, {});
    for (const rules::Move move : line) play(move);
  }

  // A reply and a move of the solver, unique or not; false where the game ends before them.
  bool show() {
    for (int ply = 0; ply < 2; ++ply) {
      if (is_over()) return false;
      play(best_move({}));
    }
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

// How the gain stands at a point of the line.
bool is_proved(const Material& m, search::Score gain) {
  return m.settled >= gain;
}
bool is_on_board(const Material& m, search::Score gain) {
  return is_proved(m, gain) && m.on_board >= gain;
}
// And nothing can be won back.
bool is_safe(const Material& m, search::Score gain) {
  return is_on_board(m, gain) && m.on_board <= m.settled;
}

// Best play behind what is asked until the gain is safe; where that does not come soon, until it is
// on the board, or, where best play gives up less, until a part of it is: if it is not there yet.
// False where none of it comes on the board.
bool show_gain(const Question& q, Walker& walker, const Material& asked) {
  Solution& s = walker.solution;
  std::size_t whole = 0, part = 0;  // where the gain, or a part, is first on the board; 0: nowhere
  const auto note = [&](const Material& m) {
    if (whole == 0 && is_on_board(m, s.gain)) whole = s.line.size();
    if (part == 0 && is_on_board(m, least_gain)) part = s.line.size();
  };
  note(asked);
  walker.go_to_end();
  for (int moves = 0; moves < most_shown && walker.show(); ++moves) {
    const Material m = material_after(q, s.line, s.line.size(), s.nodes);
    if (is_safe(m, s.gain)) return true;
    note(m);
  }
  s.line.resize(std::max(whole > 0 ? whole : part, static_cast<std::size_t>(s.asked)));
  return whole > 0 || part > 0;
}

// Whether the man that moved last could be taken.
bool is_open_to_capture(const rules::Position& p, rules::Move last) {
  rules::MoveList moves;
  rules::legal_moves(p, moves);
  return std::ranges::any_of(moves, [&](rules::Move m) { return m.to() == last.to(); });
}

// Best play behind a safe gain, while the man that moved last could be taken and the gain stays on
// the board: why it is not taken, or what comes then.
void show_why_safe(const Question& q, Walker& walker) {
  Solution& s = walker.solution;
  walker.go_to_end();
  for (int moves = 0; moves < most_shown_of_safe; ++moves) {
    const std::size_t told = s.line.size();
    if (!is_open_to_capture(walker.position, s.line.back())) return;
    if (!walker.show() || !is_on_board(material_after(q, s.line, s.line.size(), s.nodes), s.gain)) {
      s.line.resize(told);
      return;
    }
  }
}

// The capture of the man that made the key that wins most by counting the exchange; "no move" where
// there is none.
rules::Move capture_of_key(const rules::Position& after_key, rules::Move key) {
  rules::MoveList moves;
  rules::legal_moves(after_key, moves);
  rules::Move capture;
  for (const rules::Move m : moves) {
    if (m.to() != key.to()) continue;
    const bool better = !capture || search::exchange_value(after_key, m) >
                                        search::exchange_value(after_key, capture);
    if (better) capture = m;
  }
  return capture;
}

void answer_capture_of_key(const Question& q, Walker& walker) {
  Solution& s = walker.solution;
  const rules::Move key = s.line.front();
  const rules::Move capture = capture_of_key(q.position.after(key), key);
  if (!capture || (s.line.size() > 1 && s.line[1].to() == key.to())) return;
  std::vector<rules::Move> whole = std::exchange(s.line, {key, capture});
  walker.go_to_end();
  for (int moves = 0; moves < most_shown_if_taken && !walker.is_over(); ++moves) {
    if (moves > 0) walker.play(walker.best_move({}));
    if (walker.is_over()) break;
    walker.play(walker.best_move({}));
    if (is_safe(material_after(q, s.line, s.line.size(), s.nodes), least_gain)) break;
  }
  if (s.line.size() % 2 == 0) s.line.pop_back();
  s.if_taken.assign(s.line.begin() + 1, s.line.end());
  s.line = std::move(whole);
}

// Cuts the line where the material is won, or shows more of it; false, and the line as it was, when
// none is won or none can be shown.
bool end_with_material(const Question& q, Walker& walker) {
  Solution& s = walker.solution;
  std::vector<Material> after;
  for (std::size_t plies = 1; plies <= s.line.size(); plies += 2) {
    after.push_back(material_after(q, s.line, plies, s.nodes));
  }
  search::Score most = 0;
  for (const Material& m : after) most = std::max(most, m.settled);
  if (most < least_gain) return false;
  auto end = after.end();
  for (const auto holds : {is_safe, is_on_board, is_proved}) {
    if (end != after.end()) break;
    end = std::ranges::find_if(after, [&](const Material& m) { return holds(m, most); });
  }
  const std::vector<rules::Move> whole = s.line;
  s.line.resize(static_cast<std::size_t>(end - after.begin()) * 2 + 1);
  s.asked = static_cast<int>(s.line.size());
  s.gain = most;
  if (is_safe(*end, most)) {
    show_why_safe(q, walker);
  } else if (!show_gain(q, walker, *end)) {
    s.line = whole;
    s.asked = static_cast<int>(whole.size());
    s.gain = 0;
    return false;
  }
  return true;
}

bool is_save(const Answer& a) {
  return study::expectation(a.second_score) <= lost_below && a.score >= -level_within &&
         a.score <= level_within;
}

// Best play behind what is asked until a position comes back or the game is over; false, and
// nothing shown, where that does not come soon.
bool show_draw(Walker& walker) {
  Solution& s = walker.solution;
  walker.go_to_end();
  // The key that makes the draw by what the game was before shows nothing on the board.
  if (s.line.size() == 1 && walker.is_over() && !rules::is_stalemate(walker.position)) return false;
  // Nor does going back by it to where the game has been.
  const auto shows = [&] { return s.line.size() > 1 && walker.has_repeated(); };
  for (int moves = 0; !shows() && moves < most_shown_of_save; ++moves) {
    if (!walker.show()) break;
  }
  if (!walker.has_repeated() && !walker.is_over()) {
    s.line.resize(static_cast<std::size_t>(s.asked));
    return false;
  }
  // A line ends with a move of the solver, also where the reply makes the draw.
  if (s.line.size() % 2 == 0) s.line.pop_back();
  return true;
}

// The rest of a proved mate, in no more moves than were proved.
void show_mate(Walker& walker, const std::vector<rules::Move>& proof) {
  Solution& s = walker.solution;
  while (!walker.is_over()) {
    walker.play(walker.best_move(proof));
    const int left = s.mate_moves - static_cast<int>(s.line.size() / 2);
    const auto rest = walker.is_over()
                          ? std::nullopt
                          : search::prove_mate(walker.position, left, proof_nodes(walker.nodes));
    if (!rest) break;
    s.nodes += rest->nodes;
    walker.play(rest->line.front());
  }
  if (!rules::is_checkmate(walker.position)) s.line.resize(static_cast<std::size_t>(s.asked));
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
  return search::prove_mate(q.position, moves, proof_nodes(nodes));
}

// What the line, whose solver's moves are all asked, is worth; or the drop.
void find_reward(const Question& q, const Answer& answer, Walker& walker) {
  Solution& s = walker.solution;
  const bool saves = is_save(answer) && still_level(walker);
  // A draw that is seen comes before a man regained; one that is not is told by the man.
  if (saves && show_draw(walker)) {
    s.reward = Reward::save;
  } else if (end_with_material(q, walker)) {
    s.reward = Reward::material;
  } else if (saves && (s.asked > 1 || q.position.is_capture(answer.key))) {
    s.reward = Reward::save;
  } else {
    s.drop = Drop::no_reward;
  }
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
  for (int moves = 1; moves < longest_line && !walker.has_repeated(); ++moves) {
    if (!walker.step(guide)) break;
  }
  s.asked = static_cast<int>(s.line.size());

  if (rules::is_checkmate(walker.position) || proof) {
    s.reward = Reward::mate;
    show_mate(walker, guide);
  } else {
    find_reward(question, answer, walker);
  }
  if (s.drop == Drop::none) answer_capture_of_key(question, walker);
  return s;
}

}  // namespace kairos::puzzle
