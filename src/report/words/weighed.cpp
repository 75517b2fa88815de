// What a weighed move is worth, in words made from what it does by force and from where it leaves
// the sides; where nothing is proved they say less.
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/movegen.hpp"

#include "phrases.hpp"

namespace kairos::report {

namespace {

using study::Standing;
using study::Weighed;

// By force, or by where it leaves its side.
std::string good_words(const rules::Position& p, const Weighed& w) {
  if (w.reason) return effect_words(*w.reason);
  const std::string side = side_words(p.side_to_move());
  switch (study::standing_of(w.expectation)) {
    case Standing::won:
      return "wins";
    case Standing::better:
      return "keeps the advantage";
    case Standing::level:
      return "holds";
    case Standing::worse:
      return "no move is better, but " + side + " stays worse";
    case Standing::lost:
      return "no move helps: " + side + " is lost";
  }
  return "";
}

// "loses a knight: 23... Nxd4", "lets the win slip: after 23... Kg8 the position is level".
std::string bad_words(const rules::Position& p, const Weighed& w) {
  const double best = study::expectation(w.best_score);
  const bool falls = study::standing_of(best) != study::standing_of(w.expectation);
  const std::string loss = falls ? cost_words(best, w.expectation) : "less good";
  const rules::Position after = p.after(w.move);
  if (w.line.size() < 2) {  // the move ends the game, by the Laws
    return loss + (rules::has_legal_move(after) ? ": it is a draw" : ": it is stalemate");
  }
  const std::string reply = numbered(after, w.line[1]);
  const std::string state = state_of(p.side_to_move(), w.expectation);
  if (!w.reason) return loss + ": after " + reply + " " + state;
  if (w.reason->kind == study::ReasonKind::wins_material && !takes_another_man(*w.reason)) {
    return "loses " + men_words(w.reason->men) + ": " + reply;
  }
  return "loses: " + reply + " " + effect_words(*w.reason);
}

}  // namespace

std::string verdict_words(const rules::Position& position, const Weighed& weighed) {
  return weighed.is_good ? good_words(position, weighed) : bad_words(position, weighed);
}

}  // namespace kairos::report
