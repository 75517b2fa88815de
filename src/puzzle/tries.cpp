// Which wrong moves tempt?
//
// Temptation is counted in centipawns of first impression: what a capture wins by counting the
// exchange on its square, that a move gives check or takes back, that a shallow search likes it
// (its first four choices), that the deep search had it on top in an early iteration or has it
// second, and, above all, that the player chose it. The most tempting are searched, each from the
// position after it: a move that loses at least `unique_gap` of expectation to the key is a try
// with its refutation; one that does not is a second solution, and the puzzle has a cook. What
// plainly loses to a short search gets no longer one.
#include "tries.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/search_move.hpp"

namespace kairos::puzzle {

namespace {

constexpr std::size_t most_tries = 4;
constexpr std::size_t most_searched = 6;
constexpr std::size_t longest_refutation = 7;  // plies
constexpr std::uint64_t short_look_divisor = 4;
constexpr double plain_loss = 2 * unique_gap;

// Centipawns of first impression.
constexpr int least_temptation = 60;
constexpr int for_played = 1000;
constexpr int for_taking_back = 300;
constexpr int for_check = 80;
constexpr int for_second = 250;
constexpr int for_early_best = 250;
constexpr int for_shallow_first = 300;
constexpr int for_shallow_step = 60;  // less for each place further down

struct Temptation {
  rules::Move move;
  int weight = 0;
};

class Tempter {
 public:
  Tempter(const Question& question, rules::Move key) {
    rules::MoveList moves;
    rules::legal_moves(question.position, moves);
    for (const rules::Move move : moves) {
      if (move != key) all_.push_back({move, first_look(question, move)});
    }
  }

  void add(rules::Move move, int weight) {
    for (Temptation& t : all_) {
      if (t.move == move) t.weight += weight;
    }
  }

  // Most tempting first; equal ones in the order of their bits, so that the order is settled.
  std::vector<Temptation> ranked() {
    std::sort(all_.begin(), all_.end(), [](const Temptation& a, const Temptation& b) {
      return a.weight != b.weight ? a.weight > b.weight : a.move.raw() < b.move.raw();
    });
    return all_;
  }

 private:
  static int first_look(const Question& q, rules::Move move) {
    int weight = 0;
    if (q.position.is_capture(move) || move.is_promotion()) {
      weight += std::max(0, search::exchange_value(q.position, move));
    }
    if (q.position.gives_check(move)) weight += for_check;
    if (q.last && study::takes_back(q.before, q.last, move)) weight += for_taking_back;
    return weight;
  }

  std::vector<Temptation> all_;
};

void add_searchers_fancies(Tempter& tempter, const Question& q, const Answer& answer,
                           std::uint64_t& nodes) {
  if (answer.verdict.lines.size() > 1) {
    tempter.add(answer.verdict.lines[1].moves.front(), for_second);
  }
  rules::Move told;
  for (const search::Iteration& iteration : answer.verdict.history) {
    if (iteration.best != told) tempter.add(iteration.best, for_early_best);
    told = iteration.best;
  }
  const search::Verdict shallow = study::glance(q.position, q.earlier);
  nodes += shallow.nodes;
  int weight = for_shallow_first;
  for (const search::Line& line : shallow.lines) {
    tempter.add(line.moves.front(), weight);
    weight -= for_shallow_step;
  }
}

bool loses(const Answer& answer, search::Score score, double least) {
  return study::expectation(answer.score) - study::expectation(score) >= least;
}

// Whether the try is still lost when its first reply has been made and the solver may search on.
bool stands(const Question& q, const Answer& answer, rules::Move move, study::MoveVerdict& j,
            std::uint64_t nodes, search::Searcher& searcher) {
  std::vector<rules::Key> keys = q.earlier;
  keys.push_back(q.position.key());
  const study::MoveVerdict reply =
      study::search_move(q.position.after(move), keys, j.replies.front(), nodes, searcher);
  j.nodes += reply.nodes;
  return loses(answer, study::seen_from_before(reply.score), unique_gap);
}

}  // namespace

// One tempting move searched: a try when it loses and its refutation stands.
struct Look {
  study::MoveVerdict verdict;
  bool loses = false;
  bool stands = false;
};

Look look_at(const Question& q, const Answer& answer, rules::Move move, std::uint64_t nodes,
             search::Searcher& searcher) {
  Look look;
  study::MoveVerdict& j = look.verdict;
  j = study::search_move(q.position, q.earlier, move, nodes, searcher);
  look.loses = loses(answer, j.score, unique_gap);
  look.stands = look.loses && !j.replies.empty() && stands(q, answer, move, j, nodes, searcher);
  return look;
}

Tries tries_of(const Question& q, const Answer& answer, std::uint64_t nodes,
               search::Searcher& searcher) {
  Tries result;
  Tempter tempter(q, answer.key);
  if (q.played) tempter.add(q.played, for_played);
  add_searchers_fancies(tempter, q, answer, result.nodes);
  std::size_t searched = 0;
  for (const Temptation& t : tempter.ranked()) {
    if (t.weight < least_temptation || searched == most_searched) break;
    if (result.tries.size() == most_tries) break;
    ++searched;
    Look look = look_at(q, answer, t.move, nodes / short_look_divisor, searcher);
    result.nodes += look.verdict.nodes;
    if (!look.stands || !loses(answer, look.verdict.score, plain_loss)) {
      look = look_at(q, answer, t.move, nodes, searcher);
      result.nodes += look.verdict.nodes;
    }
    result.cook = !look.loses;
    if (result.cook) return result;
    if (!look.stands) continue;
    study::MoveVerdict& j = look.verdict;
    if (j.replies.size() > longest_refutation) j.replies.resize(longest_refutation);
    result.tries.push_back({t.move, j.score, std::move(j.replies)});
  }
  return result;
}

}  // namespace kairos::puzzle
