// Which wrong moves tempt?
//
// What the player chose, and what most players rated `study::unrated` would choose, by the model of
// players. The most tempting are searched, each from the position after it: a move that loses at
// least `unique_gap` of expectation to the key is a try with its refutation; one that does not is a
// second solution, and the puzzle has a cook. What plainly loses to a short search gets no longer
// one.
#include "tries.hpp"

#include <algorithm>

#include "kairos/study/expectation.hpp"
#include "kairos/study/search_move.hpp"

namespace kairos::puzzle {

namespace {

constexpr std::size_t most_tries = 4;
constexpr std::size_t most_searched = 6;
constexpr std::size_t longest_refutation = 7;  // plies
constexpr std::uint64_t short_look_divisor = 4;
constexpr double plain_loss = 2 * unique_gap;

// Of `study::find_rate_of` players.
constexpr int least_share = 300;

// Most tempting first.
std::vector<rules::Move> tempting(const Question& q, rules::Move key, const study::Crowd& crowd) {
  std::vector<rules::Move> moves = crowd.by_share(study::unrated);
  std::erase_if(moves, [&](rules::Move move) {
    return move == key ||
           (move != q.played && crowd.players_of(move, study::unrated) < least_share);
  });
  std::stable_partition(moves.begin(), moves.end(),
                        [&](rules::Move move) { return move == q.played; });
  return moves;
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

Tries tries_of(const Question& q, const Answer& answer, const study::Crowd& crowd,
               std::uint64_t nodes, search::Searcher& searcher) {
  Tries result;
  std::size_t searched = 0;
  for (const rules::Move move : tempting(q, answer.key, crowd)) {
    if (searched == most_searched || result.tries.size() == most_tries) break;
    ++searched;
    Look look = look_at(q, answer, move, nodes / short_look_divisor, searcher);
    result.nodes += look.verdict.nodes;
    if (!look.stands || !loses(answer, look.verdict.score, plain_loss)) {
      look = look_at(q, answer, move, nodes, searcher);
      result.nodes += look.verdict.nodes;
    }
    result.cook = !look.loses;
    if (result.cook) return result;
    if (!look.stands) continue;
    study::MoveVerdict& j = look.verdict;
    if (j.replies.size() > longest_refutation) j.replies.resize(longest_refutation);
    result.tries.push_back({move, j.score, std::move(j.replies), rates_of(crowd, move)});
  }
  return result;
}

}  // namespace kairos::puzzle
