#include "kairos/study/weigh.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/moment.hpp"

#include "deeds.hpp"

namespace kairos::study {

namespace {

// Material counts for something only where it leaves its winner better, and where the score does
// not tell of much more than it. `balance` is the winner's before.
bool is_the_point(const Spoils& spoils, search::Score score, search::Score balance) {
  constexpr search::Score slack = 300;
  if (spoils.what.empty()) return false;
  const Standing standing = standing_of(expectation(score));
  return (standing == Standing::won || standing == Standing::better) &&
         score <= balance + 2 * spoils.gain + slack;
}

// What a move does that is as good as the best: by force, with the line that shows it, or by where
// it leaves its side.
std::string good_words(const rules::Position& p, Weighed& w) {
  const Spoils spoils = spoils_of(p, w.move, w.score);
  if (w.score >= search::min_mate_score) return mate_words(spoils);
  if (is_the_point(spoils, w.score, search::nominal_balance(p, p.side_to_move()))) {
    w.line = spoils.line;
    return "wins " + spoils.what;
  }
  switch (standing_of(w.expectation)) {
    case Standing::won:
      return "wins";
    case Standing::better:
      return "keeps the advantage";
    case Standing::level:
      return "holds";
    case Standing::worse:
      return "no move is better, but " + side(p.side_to_move()) + " stays worse";
    case Standing::lost:
      return "no move helps: " + side(p.side_to_move()) + " is lost";
  }
  return "";
}

std::string loss_of_standing(double best, double left) {
  const Standing before = standing_of(best), after = standing_of(left);
  if (before == after) return "less good";
  if (after == Standing::lost) return "loses";
  if (before == Standing::won) {
    return after == Standing::worse ? "throws the win away" : "lets the win slip";
  }
  return before == Standing::better ? "gives the advantage away" : "spoils the position";
}

std::string state_after(const rules::Position& p, double left) {
  const Standing after = standing_of(left);
  if (after == Standing::level) return "the position is level";
  return side(p.side_to_move()) + " is " + std::string(words(after));
}

// "loses a knight: 23... Nxd4", "lets the win slip: after 23... Kg8 the position is level".
std::string bad_words(const rules::Position& p, Weighed& w, double best) {
  const std::string loss = loss_of_standing(best, w.expectation);
  if (w.line.size() < 2) {  // the move ends the game, by the Laws
    return loss + (rules::has_legal_move(p.after(w.move)) ? ": it is a draw" : ": it is stalemate");
  }
  const rules::Position after = p.after(w.move);
  const rules::Move reply = w.line[1];
  const search::Score score = seen_from_before(w.score);
  const std::string answer = numbered(after, reply);
  const Spoils spoils = spoils_of(after, reply, score, &p);
  if (score >= search::min_mate_score) return "loses: " + answer + " " + mate_words(spoils);
  if (is_the_point(spoils, score, search::nominal_balance(p, after.side_to_move()))) {
    w.line = spoils.line;
    w.line.insert(w.line.begin(), w.move);
    return "loses " + spoils.what + ": " + answer;
  }
  return loss + ": after " + answer + " " + state_after(p, w.expectation);
}

}  // namespace

Weighed weigh(const rules::Position& position, rules::Move move, const Judgement& judgement,
              search::Score best_score) {
  Weighed w;
  w.move = move;
  w.score = judgement.score;
  w.expectation = expectation(w.score);
  const double best = expectation(best_score);
  w.cost = std::max(0.0, best - w.expectation);
  const bool mated = w.score <= -search::min_mate_score && best_score > -search::min_mate_score;
  w.is_good = w.cost < even_cost && !mated;
  w.line.push_back(move);
  w.line.insert(w.line.end(), judgement.replies.begin(), judgement.replies.end());
  w.words = w.is_good ? good_words(position, w) : bad_words(position, w, best);
  return w;
}

}  // namespace kairos::study
