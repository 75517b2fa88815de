// From a moment to a puzzle: a row of gates, each of which may drop it with a reason.
//
// First the cheap ones (is there a question at all, is it more than a plain recapture), then the
// key is searched with its rivals and must stand alone (unique.hpp), then the solution is followed
// as far as each of the solver's moves stands alone and the reward is on the board (solution.hpp),
// and only what has passed gets tries and a difficulty. Dropping is always right where there
// is doubt: a puzzle with two answers costs more than one that was never shown. Tests:
// tests/puzzle.
#include "kairos/puzzle/compose.hpp"

#include "kairos/rules/movegen.hpp"
#include "kairos/study/crowd.hpp"
#include "kairos/study/motifs.hpp"
#include "kairos/study/search_move.hpp"

#include "question.hpp"
#include "solution.hpp"
#include "tries.hpp"
#include "unique.hpp"

namespace kairos::puzzle {

namespace {

// A capture that wins all of the reward by counting the exchange on its square asks nothing.
constexpr search::Score plain_margin = 50;
// Nor does what so many of `study::find_rate_of` players find, if it wins by a plain hit or nothing
// tempts the others.
constexpr int plain_share = study::find_rate_of * 7 / 10;
// Of two moves everybody finds the one in a while.
constexpr int least_choice = 3;

// A second way to draw hides deeper than a second way to win.
constexpr std::uint64_t times_for_save = 8;

study::Crowd crowd_of(const Question& q, std::uint64_t nodes) {
  const people::Before before{q.last, q.last && q.before.is_capture(q.last), q.own_last};
  return {q.position, q.earlier, before, nodes};
}

// Of each move that is asked, in turn; `of_key` is that of the first.
Rates solve_rates(const Question& q, const Solution& s, const Rates& of_key, std::uint64_t nodes) {
  Rates rates = of_key;
  Question at = q;
  for (int ply = 0; ply + 2 < s.asked; ply += 2) {
    const auto moves = std::span(s.line).subspan(static_cast<std::size_t>(ply));
    play(at, moves[0]);
    play(at, moves[1]);
    rates = both_of(rates, rates_of(crowd_of(at, nodes), moves[2]));
  }
  return rates;
}

bool is_plain_recapture(const Question& q, rules::Move key) {
  return q.last && study::takes_back(q.before, q.last, key);
}

bool is_plain_capture(const Question& q, const Solution& s) {
  const rules::Move key = s.line.front();
  return s.reward == Reward::material && s.asked == 1 &&
         (q.position.is_capture(key) || key.is_promotion()) &&
         search::exchange_value(q.position, key) >= s.gain - plain_margin;
}

bool most_find(const Rates& rates, int least) {
  return rate_at(rates, study::unrated) * study::find_rate_of > least;
}

// A check or capture that risks nothing, and the next move takes what it wins.
bool is_plain_hit(const Question& q, const Solution& s, const Rates& of_key) {
  if (s.reward != Reward::material || s.asked > 3 || s.line.size() < 3) return false;
  if (!most_find(of_key, plain_share)) return false;
  const rules::Move key = s.line[0];
  const bool direct = q.position.is_capture(key) || q.position.gives_check(key);
  const rules::Position then = q.position.after(key).after(s.line[1]);
  return direct && search::exchange_value(q.position, key) >= 0 && then.is_capture(s.line[2]) &&
         search::exchange_value(then, s.line[2]) > 0;
}

// Another moment of the same ply asks the same question under a more telling name.
bool is_asked_elsewhere(std::span<const study::Moment> found, const study::Moment& m) {
  for (const study::Moment& other : found) {
    if (other.kind > m.kind && other.kind <= study::Kind::quiet_win &&
        other.position == m.position && other.best == m.best) {
      return true;
    }
  }
  return false;
}

struct Composer {
  const study::Scoresheet& sheet;
  const study::Moment& moment;
  const study::Settings& settings;
  search::Searcher& searcher;

  Composition compose(const Question& q) const {
    Composition c;
    const std::uint64_t effort = settings.effort.puzzle_nodes;
    if (rules::count_legal_moves(q.position) < least_choice) {
      c.drop = Drop::trivial;
      return c;
    }
    const Answer answer = answer_of(q.position, q.earlier, effort, searcher);
    c.drop = answer.drop;
    if (c.drop == Drop::none && is_plain_recapture(q, answer.key)) c.drop = Drop::trivial;
    if (c.drop != Drop::none) return c;
    Solution solution = solve(q, answer, effort, searcher);
    c.drop = solution.drop;
    if (c.drop == Drop::none && is_plain_capture(q, solution)) c.drop = Drop::trivial;
    if (c.drop == Drop::none && solution.reward == Reward::save) {
      c.drop = answer_of(q.position, q.earlier, times_for_save * effort, searcher).drop;
    }
    if (c.drop != Drop::none) return c;
    const study::Crowd crowd = crowd_of(q, effort);
    const Rates of_key = rates_of(crowd, answer.key);
    const Rates of_all = solve_rates(q, solution, of_key, effort);
    if (most_find(of_all, study::nearly_everyone) || is_plain_hit(q, solution, of_key)) {
      c.drop = Drop::trivial;
    }
    if (c.drop != Drop::none) return c;
    Tries tries = tries_of(q, answer, crowd, effort / 2, searcher);
    if (tries.cook) {
      c.drop = Drop::cook;
    } else if (tries.tries.empty() && most_find(of_key, plain_share)) {
      c.drop = Drop::trivial;
    }
    if (c.drop != Drop::none) return c;
    c.puzzle = assemble(q, answer, std::move(solution), std::move(tries));
    c.puzzle->find_rates = of_key;
    c.puzzle->solve_rates = of_all;
    c.puzzle->difficulty = difficulty_of(of_all);
    return c;
  }

  Puzzle assemble(const Question& q, const Answer& answer, Solution solution, Tries tries) const {
    Puzzle p;
    p.position = q.position;
    (q.is_why_not ? p.avoided : p.last) = q.last;
    if (q.is_why_not) p.before = q.before;
    p.asked = solution.asked;
    p.line = std::move(solution.line);
    p.if_taken = std::move(solution.if_taken);
    p.score = answer.score;
    p.second_score = answer.second_score;
    p.reward = solution.reward;
    p.mate_moves = solution.mate_moves;
    p.tries = std::move(tries.tries);
    p.kind = moment.kind;
    p.found = q.played == p.line.front();
    p.game = sheet.facts.number;
    p.game_label = study::label_of(sheet.facts);
    p.ply = q.ply;
    p.nodes = answer.verdict.nodes + solution.nodes + tries.nodes;
    p.motifs = study::motifs_of(p.position, p.line,
                                {q.last ? &q.before : nullptr, q.last, p.reward == Reward::save});
    return p;
  }
};

}  // namespace

Composition compose(const study::Scoresheet& sheet, const study::Moment& moment,
                    std::span<const study::Moment> found, const study::Settings& settings,
                    search::Searcher& searcher) {
  searcher.clear();
  Composition result;
  result.drop = Drop::not_a_puzzle;
  if (is_asked_elsewhere(found, moment)) return result;
  const Composer composer{sheet, moment, settings, searcher};
  const std::vector<Question> questions = questions_of(sheet, moment);
  // None where the moment's own figures already show a second solution.
  if (questions.empty()) result.drop = Drop::cook;
  for (const Question& question : questions) {
    Composition c = composer.compose(question);
    if (c.puzzle) return c;
    // The reason told is that of the first question, which the moment is about.
    if (result.drop == Drop::not_a_puzzle) result.drop = c.drop;
  }
  return result;
}

}  // namespace kairos::puzzle
