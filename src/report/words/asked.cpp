// What is said of a move that somebody asks about: the sentences of the reports, in the tense of a
// conversation. Of a move that costs something what it comes to and what is better; of a good one
// what it does for its side, and why the next best is worse where that is so.
#include <algorithm>

#include "kairos/report/conversation.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/study/settings.hpp"
#include "kairos/study/weighed.hpp"

#include "others.hpp"
#include "phrases.hpp"

namespace kairos::report {

namespace {

using study::Kind;
using study::Moment;
using study::Role;
using study::Standing;

// Expectation over the next best: the only move; the next best is told of as worse.
constexpr double alone_from = study::Settings{}.only_move_gap, worse_from = 0.10;
constexpr search::Score apart = 150;  // centipawns: as bad is not as good

double over_second(const Moment& m) {
  return m.best_expectation() - study::expectation(m.second_score);
}

// What the position is worth: of moves that are as good the better score.
double worth(const Moment& m) {
  return std::max(m.best_expectation(), m.second ? study::expectation(m.second_score) : 0);
}

// Behind what is said of a move: ": it takes the knight", or nothing.
std::string by_effect(const std::string& effect) {
  return effect.empty() ? "" : ": it " + effect;
}

// "Only 25. Qd7 keeps the win: it takes the c-file", "1. e4 is fine", "25. Qd7 mates in 2".
std::string good_sentence(const TurningPoint& point, const Moment& m) {
  const std::string effect = told_effect(point, Role::best);
  const study::Reason* const why = told_reason(point, Role::best);
  const bool only = over_second(m) >= alone_from;
  const std::string move = (only ? "Only " : "") + numbered(m.position, m.best);
  if (why != nullptr && is_mate(*why)) return move + " " + effect + ".";
  if (!m.second) {
    return move + " is the only legal move: " + state_of(m.position.side_to_move(), worth(m)) + ".";
  }
  switch (study::standing_of(worth(m))) {
    case Standing::won:
      return move + (effect.empty() ? " wins" : " keeps the win" + by_effect(effect)) + ".";
    case Standing::better:
      return move + " keeps the advantage" + by_effect(effect) + ".";
    case Standing::level: {
      const bool holds = over_second(m) >= worse_from;
      return move + (holds ? " holds" : " is fine") + by_effect(effect) +
             (effect.empty() && !holds ? ": the position is level." : ".");
    }
    case Standing::worse:
    case Standing::lost:
      break;
  }
  if (m.second && m.second_score - m.best_score >= apart) {
    return numbered(m.position, m.best) +
           " does not help: " + state_of(m.position.side_to_move(), worth(m)) + ".";
  }
  return "No move is better than " + numbered(m.position, m.best) +
         (effect.empty() ? "" : ", which " + effect) + ", but " +
         state_of(m.position.side_to_move(), worth(m)) + ".";
}

// Of the next best move, where something can be said.
std::string second_words(const TurningPoint& point, const Moment& m, const std::string& told) {
  if (!m.second) return "";
  const double over = over_second(m);
  if (over >= worse_from) {
    Moment other = m;
    other.played = m.best;  // the second best is told as such, not as the move played
    return " " + second_sentence(point, other, told);
  }
  const bool mates = search::is_mate(m.best_score) || search::is_mate(m.second_score);
  const bool wins = study::standing_of(worth(m)) == Standing::won;
  if (!mates && !wins && m.second_score - m.best_score >= apart) {
    return " " + numbered(m.position, m.second) + " is a better try.";
  }
  const bool even = over < study::even_cost && (wins || m.best_score - m.second_score < apart);
  return even && !mates ? " " + numbered(m.position, m.second) + " is as good." : "";
}

// A move that ends the game, and not well: in a draw.
std::string end_words(const Moment& m) {
  const bool stalemate = !rules::has_legal_move(m.position.after(m.played));
  return numbered(m.position, m.played) + (stalemate ? " is stalemate." : " is a draw.");
}

// Of a move that costs something. A mate that the search alone sees is told as one.
std::string bad_sentence(const TurningPoint& point, const Moment& m) {
  if (m.refutation.empty()) return end_words(m);
  const bool mated = m.played_score <= -search::min_mate_score;
  if (!mated || told_reason(point, Role::reply) != nullptr) return gist_of({}, point);
  return numbered(m.position, m.played) + " loses: " + reply_in(m, Role::reply, m.refutation) +
         " leads to mate.";
}

std::string better_sentence(const TurningPoint& point, const Moment& m) {
  const std::string effect = told_effect(point, Role::best);
  const std::string state = state_of(m.position.side_to_move(), m.best_expectation());
  return " Better is " + numbered(m.position, m.best) +
         (effect.empty() ? ": " + state : ", which " + effect) + ".";
}

std::string good_words(const Moment& m) {
  const TurningPoint point = alone(m);
  const std::string text = good_sentence(point, m);
  return text + second_words(point, m, text);
}

}  // namespace

std::string asked_words(const Moment& m) {
  if (m.kind != Kind::swing) return good_words(m);
  const TurningPoint point = alone(m);
  return bad_sentence(point, m) + better_sentence(point, m);
}

std::string best_words(const Moment& m) {
  const TurningPoint point = alone(m);
  const std::string state = capital(state_of(m.position.side_to_move(), worth(m))) + ". ";
  if (!m.second) return state + numbered(m.position, m.best) + " is the only legal move.";
  const bool only = over_second(m) >= alone_from;
  const study::Reason* const why = told_reason(point, Role::best);
  const bool mates = why != nullptr && is_mate(*why);
  if (mates || (only && study::standing_of(worth(m)) >= Standing::level)) {
    return state + good_words(m);
  }
  const std::string effect = told_effect(point, Role::best);
  const std::string text = "Best is " + numbered(m.position, m.best) +
                           (effect.empty() ? "." : ", which " + effect + ".");
  return state + text + second_words(point, m, text);
}

}  // namespace kairos::report
