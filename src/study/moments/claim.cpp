// Claim: where the input carries the player's own notes, those notes are studied too. A moment is
//
//   - a move in a variation that costs at least `claim_cost`: the analysis has a hole. Not so when
//     its author marked it as poor, nor when it opens the variation and the next move there is the
//     right answer: then it was shown because it is bad;
//   - a mark, an evaluation sign or a bare comment that the verdict contradicts (assertions.hpp),
//     in the main line or in a variation.
//
// Each move is first searched at a part of the verify effort; what looks wrong is looked at again
// with all of it, from both ends, and only what then still holds is told. `position` is the one
// before the move in question, `played` that move, `ply` the place in the main line where the note
// hangs.
#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/study/expectation.hpp"

#include "assertions.hpp"
#include "kinds.hpp"

namespace kairos::study {

namespace {

constexpr std::size_t most_moves = 24;  // of the variations at one ply that are looked at
constexpr std::size_t most_told = 2;    // claims at one ply
constexpr int first_look_divisor = 4;   // of the verify effort
constexpr double first_look_slack = 0.08;
// The next move answers the one before when it costs no more than this.
constexpr double right_answer = 0.05;

// A move of the notes with the way to it.
struct NotedMove {
  pgn::NodeId node = 0;
  rules::Position position = rules::Position::start();
  std::vector<rules::Key> earlier;
  rules::Move move;
  bool in_main_line = false;
  bool opens_variation = false;
};

// `node` is the move of the main line at `ply`, or of the variations beside it.
NotedMove noted_move(const Scoresheet& sheet, int ply, pgn::NodeId node) {
  const auto at = static_cast<std::size_t>(ply);
  const pgn::Game& game = sheet.game;
  const pgn::NodeId branch = game.nodes[sheet.main_line[at]].parent;
  NotedMove noted;
  noted.node = node;
  noted.move = game.nodes[node].move;
  std::vector<pgn::NodeId> path;
  for (pgn::NodeId to = game.nodes[node].parent; to != branch; to = game.nodes[to].parent) {
    path.push_back(to);
  }
  const auto keys = sheet.keys_before(ply);
  noted.earlier.assign(keys.begin(), keys.end());
  noted.position = sheet.positions[at];
  for (auto it = path.rbegin(); it != path.rend(); ++it) {
    noted.earlier.push_back(noted.position.key());
    noted.position.play(game.nodes[*it].move);
  }
  noted.opens_variation = game.nodes[game.nodes[node].parent].first_child != node;
  return noted;
}

// The moves of all variations beside `main`, each branch in order, null moves and what follows left
// out.
std::vector<pgn::NodeId> variation_moves(const pgn::Game& game, pgn::NodeId main) {
  std::vector<pgn::NodeId> found, stack;
  const auto push_siblings = [&](pgn::NodeId first) {
    std::vector<pgn::NodeId> row;
    for (pgn::NodeId id = first; id != pgn::no_node; id = game.nodes[id].next_sibling) {
      row.push_back(id);
    }
    stack.insert(stack.end(), row.rbegin(), row.rend());
  };
  push_siblings(game.nodes[main].next_sibling);
  while (!stack.empty() && found.size() < most_moves) {
    const pgn::NodeId id = stack.back();
    stack.pop_back();
    if (!game.nodes[id].move || game.nodes[id].move == rules::null_move) continue;
    found.push_back(id);
    push_siblings(game.nodes[id].first_child);
  }
  return found;
}

struct Look {
  NotedFacts facts;
  rules::Move best, second;
  search::Score best_score = 0, second_score = 0;
  std::vector<rules::Move> line, replies;
  std::uint64_t nodes = 0;

  [[nodiscard]] double cost() const { return facts.best - facts.made; }
};

Look look_at(const NotedMove& noted, std::uint64_t nodes, search::Searcher& searcher) {
  search::Limits limits;
  limits.nodes = nodes;
  limits.lines = 2;
  const search::Verdict verdict = searcher.search(noted.position, noted.earlier, limits);
  const MoveVerdict made =
      search_move(noted.position, noted.earlier, noted.move, nodes / 2, searcher);
  Look look;
  const search::Line& first = verdict.lines.front();
  look.best = first.moves.front();
  look.best_score = first.score;
  look.second_score = first.score;
  if (verdict.lines.size() > 1) {
    look.second = verdict.lines[1].moves.front();
    look.second_score = verdict.lines[1].score;
  }
  look.line = first.moves;
  look.replies = made.replies;
  look.nodes = verdict.nodes + made.nodes;
  look.facts.is_best = look.best == noted.move;
  // A best move is worth what the search after it says, so that it never costs anything itself.
  if (look.facts.is_best) look.best_score = made.score;
  look.facts.best = expectation(std::max(look.best_score, made.score));
  look.facts.second = expectation(look.second_score);
  look.facts.made_score = made.score;
  look.facts.made = expectation(made.score);
  look.facts.mover = noted.position.side_to_move();
  return look;
}

Moment told(const NotedMove& noted, const Look& look, int ply, const Reason& contradicted) {
  Moment m;
  m.kind = Kind::claim;
  m.ply = ply;
  m.position = noted.position;
  m.played = noted.move;
  m.best = look.best;
  m.second = look.second;
  m.best_score = look.best_score;
  m.second_score = look.second_score;
  m.played_score = look.facts.made_score;
  m.found = look.facts.is_best || look.cost() <= right_answer;
  m.line = look.line;
  m.refutation = look.replies;
  m.reasons = {contradicted};
  m.nodes = look.nodes;
  return m;
}

class Reading {
 public:
  Reading(const Scoresheet& sheet, int ply, const Settings& s, search::Searcher& searcher)
      : sheet_(sheet), game_(sheet.game), ply_(ply), settings_(s), searcher_(searcher) {}

  // One move of the notes: a contradicted assertion, or a hole.
  std::optional<Moment> read(const NotedMove& noted) {
    const pgn::Annotation* annotation = game_.annotation_of(noted.node);
    std::vector<Reason> assertions;
    if (annotation != nullptr) {
      assertions = assertions_of(*annotation, noted.move, noted.position.side_to_move());
    }
    // That it is given at all comes last: what its author says of it tells more.
    const bool may_be_hole = !noted.in_main_line && !is_marked_poor(annotation);
    if (may_be_hole) assertions.push_back(given_in_notes(noted.move));
    if (assertions.empty()) return std::nullopt;
    const std::uint64_t effort = settings_.effort.verify_nodes;
    const Look first = look_at(noted, effort / first_look_divisor, searcher_);
    if (!contradicted(first, assertions, first_look_slack)) return std::nullopt;
    const Look second = look_at(noted, effort, searcher_);
    const Reason* const wrong = contradicted(second, assertions, 0);
    if (wrong == nullptr) return std::nullopt;
    const bool is_hole = wrong->assertion == Assertion::playable;
    if (is_hole && noted.opens_variation && next_move_answers(noted)) return std::nullopt;
    return told(noted, second, ply_, *wrong);
  }

 private:
  // The first that the look contradicts, or nullptr.
  [[nodiscard]] const Reason* contradicted(const Look& look, const std::vector<Reason>& assertions,
                                           double slack) const {
    for (const Reason& a : assertions) {
      if (is_contradicted(a, look.facts, settings_.claim_cost, slack)) return &a;
    }
    return nullptr;
  }

  bool next_move_answers(const NotedMove& noted) {
    const pgn::NodeId next = game_.nodes[noted.node].first_child;
    if (next == pgn::no_node || game_.nodes[next].move == rules::null_move) return false;
    const Look look =
        look_at(noted_move(sheet_, ply_, next), settings_.effort.verify_nodes / 2, searcher_);
    return look.cost() <= right_answer;
  }

  const Scoresheet& sheet_;
  const pgn::Game& game_;
  int ply_;
  const Settings& settings_;
  search::Searcher& searcher_;
};

}  // namespace

double claim_hint(const SurveyedPly& g, const Settings& s) {
  if (!g.played() || g.note().lines.empty()) return 0;
  const pgn::Game& game = g.sheet.game;
  const pgn::NodeId node = g.sheet.main_line[static_cast<std::size_t>(g.ply)];
  if (!variation_moves(game, node).empty()) return s.claim_cost;
  const pgn::Annotation* annotation = game.annotation_of(node);
  if (annotation == nullptr) return 0;
  NotedFacts facts;
  facts.best = expectation(g.note().lines.front().score);
  facts.second = expectation(g.note().lines.back().score);
  facts.made_score = g.note().played_score;
  facts.made = expectation(facts.made_score);
  facts.is_best = g.note().lines.front().moves.front() == g.played();
  facts.mover = g.position.side_to_move();
  for (const Reason& a : assertions_of(*annotation, g.played(), facts.mover)) {
    if (is_contradicted(a, facts, s.claim_cost, first_look_slack)) return s.claim_cost;
  }
  return 0;
}

std::vector<Moment> find_claims(const Scoresheet& sheet, int ply, const Settings& s,
                                search::Searcher& searcher) {
  std::vector<Moment> found;
  if (!sheet.move_at(ply)) return found;
  const pgn::NodeId node = sheet.main_line[static_cast<std::size_t>(ply)];
  Reading reading(sheet, ply, s, searcher);
  NotedMove main = noted_move(sheet, ply, node);
  main.in_main_line = true;
  if (auto moment = reading.read(main)) found.push_back(std::move(*moment));
  for (const pgn::NodeId variation : variation_moves(sheet.game, node)) {
    if (found.size() >= most_told) break;
    auto moment = reading.read(noted_move(sheet, ply, variation));
    if (moment) found.push_back(std::move(*moment));
  }
  return found;
}

}  // namespace kairos::study
