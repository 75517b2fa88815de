// The sentence or two that a moment is told in.
//
// Each kind has its pattern: what the move did to the standing, what the reply does and by what,
// and what was better. A part whose fact is not known is left out, so a short sentence means that
// less is known.
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"

namespace kairos::report {

namespace {

using study::Kind;
using study::Moment;
using study::Role;
using study::Standing;

std::string mover_of(const Moment& m) {
  return side_words(m.position.side_to_move());
}

std::string opponent_of(const Moment& m) {
  return side_words(~m.position.side_to_move());
}

std::string state_words(double expectation) {
  return std::string(words(study::standing_of(expectation)));
}

// " mates in 2", " wins a knight", or nothing where nothing is proved.
std::string effect_of(const Moment& m, Role role) {
  for (const study::Reason& reason : m.reasons) {
    const std::string effect = reason.role == role ? effect_words(reason) : "";
    if (!effect.empty()) return " " + effect;
  }
  return "";
}

// The first move of `replies`; "" when there is none.
std::string reply_in(const Moment& m, Role role, const std::vector<rules::Move>& replies) {
  return replies.empty() ? "" : numbered(study::position_of(m, role), replies.front());
}

std::string reply_in(const Moment& m) {
  return reply_in(m, Role::reply, m.refutation);
}

std::string change(double from, double to) {
  const Standing before = study::standing_of(from);
  if (before != study::standing_of(to)) {
    return " turns a " + state_words(from) + " position into a " + state_words(to) + " one";
  }
  if (before == Standing::better) return " gives up part of an advantage";
  if (before == Standing::worse) return " makes a worse position worse still";
  return " spoils a level position";
}

// What the opponent made of it, where the game went on.
std::string answer_words(const study::Study& study, const Moment& m) {
  const auto next = static_cast<std::size_t>(m.ply) + 1;
  if (next >= study.moves.size() || m.refutation.empty()) return "";
  const std::string who = opponent_of(m);
  if (study.moves[next] == m.refutation.front()) return " " + who + " played it.";
  return " " + who + (m.punished ? " kept the gain another way." : " missed it.");
}

std::string swing_sentence(const study::Study& study, const Moment& m) {
  std::string text =
      numbered(m.position, m.played) + change(m.best_expectation(), m.played_expectation());
  if (const std::string reply = reply_in(m); !reply.empty()) {
    const std::string effect = effect_of(m, Role::reply);
    text += (effect.empty() ? "; the reply is " : ": ") + reply + effect;
  }
  text += "." + answer_words(study, m) + " Better was " + numbered(m.position, m.best);
  const std::string effect = effect_of(m, Role::best);
  return text + (effect.empty() ? "." : ", which" + effect + ".");
}

// " After 30. Rc2 30... Nd5 was better.": what the move in question should have been.
std::string better_words(const Moment& m) {
  const std::string effect = effect_of(m, Role::best);
  return " better was " + numbered(m.position, m.best) +
         (effect.empty() ? "." : ", which" + effect + ".");
}

// "slides from a level position into a lost one", or what was lost within one standing.
std::string way_down(double from, double to) {
  const Standing before = study::standing_of(from), after = study::standing_of(to);
  if (before != after) {
    return "slides from a " + std::string(words(before)) + " position into a " +
           std::string(words(after)) + " one";
  }
  if (before > Standing::level) return "lets an advantage shrink";
  if (before == Standing::level) return "lets a level position slip";
  return "makes a bad position worse";
}

std::string slide_sentence(const Moment& m) {
  std::vector<std::string> moves;
  for (const study::Step& step : m.steps) moves.push_back(numbered(step.position, step.move));
  std::string list = moves.back();
  for (std::size_t i = moves.size() - 1; i-- > 0;) {
    list = moves[i] + (i + 2 == moves.size() ? " and " : ", ") + list;
  }
  const Fall fall = fall_of(m);
  return mover_of(m) + " " + way_down(fall.from, fall.to) + " by " + list +
         ", none of them a big error by itself. Most was lost by " +
         numbered(m.position, m.played) + ":" + better_words(m);
}

std::string turn_sentence(const Moment& m) {
  return "No single move loses the game; the costliest is " + numbered(m.position, m.played) +
         ", which" + change(m.best_expectation(), m.played_expectation()) + ";" + better_words(m);
}

std::string_view aim_of(const Moment& m) {
  switch (study::standing_of(m.best_expectation())) {
    case Standing::won:
      return "wins";
    case Standing::better:
      return "keeps the advantage";
    default:
      return "holds";
  }
}

// Why the second best falls short: what its refutation does, or what is left after it, when that
// has a name of its own.
std::string shortfall_of_second(const Moment& m) {
  const std::string next = "the next best, " + numbered(m.position, m.second) + ",";
  const std::string effect = effect_of(m, Role::second_reply);
  if (!effect.empty()) {
    return next + " fails to " + reply_in(m, Role::second_reply, m.second_refutation) + ", which" +
           effect;
  }
  const double expected = study::expectation(m.second_score);
  const Standing left = study::standing_of(expected);
  if (left == study::standing_of(m.best_expectation())) return next + " gives most of it away";
  if (left == Standing::better) return next + " leaves less than a win";
  return "after " + next + " " + mover_of(m) + " is " +
         (left == Standing::level ? "no better than level" : state_words(expected));
}

std::string found_or_not(const Moment& m) {
  if (m.played == m.best) return " " + mover_of(m) + " found it.";
  return " " + mover_of(m) + " played " + numbered(m.position, m.played) + " instead.";
}

std::string only_move_sentence(const Moment& m) {
  std::string text = "Only " + numbered(m.position, m.best) + " " + std::string(aim_of(m));
  if (m.second) text += "; " + shortfall_of_second(m);
  return text + "." + found_or_not(m);
}

std::string quiet_win_sentence(const Moment& m) {
  const std::string effect = effect_of(m, Role::best);
  return "The quiet " + numbered(m.position, m.best) +
         (effect.empty() ? " wins at least a pawn" : effect) +
         " against any reply, and nothing else does." + found_or_not(m);
}

std::string trap_sentence(const Moment& m) {
  const std::string avoided =
      mover_of(m) + " kept away from the tempting " + numbered(m.position, m.tempting);
  const std::string reply = reply_in(m);
  if (reply.empty()) return avoided + ".";
  const std::string effect = effect_of(m, Role::reply);
  if (!effect.empty()) return avoided + ": " + reply + effect + ".";
  const double left = study::expectation(-m.tempting_score);
  const bool level = study::standing_of(left) == Standing::level;
  return avoided + ": after " + reply + " " + (level ? "the position" : opponent_of(m)) + " is " +
         state_words(left) + ".";
}

std::string ended_early_sentence(const study::Study& study, const Moment& m) {
  const rules::Color mover = m.position.side_to_move();
  const double expected = m.best_expectation();
  std::string text;
  if (study.facts.result == "1/2-1/2") {
    const bool mover_better = expected > 0.5;
    text = "A draw was agreed, though " + side_words(mover_better ? mover : ~mover) + " is " +
           state_words(mover_better ? expected : 1 - expected);
  } else {
    const rules::Color loser = study.facts.result == "1-0" ? rules::black : rules::white;
    text = side_words(loser) + " gave up a position that is " +
           state_words(loser == mover ? expected : 1 - expected);
  }
  const std::string effect = effect_of(m, Role::best);
  return text + ": " + numbered(m.position, m.best) + (effect.empty() ? " comes next" : effect) +
         ".";
}

// What the verdict holds against the note.
std::string contradiction_of(const Moment& m, study::Assertion assertion) {
  using study::Assertion;
  switch (assertion) {
    case Assertion::playable:
    case Assertion::good_move:
      return numbered(m.position, m.best) + " is clearly better";
    case Assertion::poor_move:
      return "there is nothing better";
    case Assertion::only_move:
      return "there is another as good";
    case Assertion::mate:
      return "no such mate is there";
    case Assertion::level:
    case Assertion::drawn:
    case Assertion::slightly_better:
    case Assertion::better:
    case Assertion::won:
      break;
  }
  const std::string state = mover_of(m) + " is " + state_words(m.played_expectation());
  const std::string reply = reply_in(m);
  return reply.empty() ? state : "after " + reply + " " + state;
}

// The notes are somebody's work: said without reproach.
std::string claim_sentence(const Moment& m) {
  const std::string noted = numbered(m.position, m.played);
  for (const study::Reason& reason : m.reasons) {
    if (!reason.assertion || reason.assertion == study::Assertion::playable) continue;
    return noted + " is " + assertion_words(reason) + " in the notes, but " +
           contradiction_of(m, *reason.assertion) + ".";
  }
  const std::string reply = reply_in(m);
  return "The notes give " + noted + (reply.empty() ? "" : ", which " + reply + " answers") +
         "; better is " + numbered(m.position, m.best) + ".";
}

}  // namespace

std::string sentence_of(const study::Study& study, const Moment& moment) {
  switch (moment.kind) {
    case Kind::swing:
      return swing_sentence(study, moment);
    case Kind::only_move:
      return only_move_sentence(moment);
    case Kind::quiet_win:
      return quiet_win_sentence(moment);
    case Kind::trap:
      return trap_sentence(moment);
    case Kind::ended_early:
      return ended_early_sentence(study, moment);
    case Kind::claim:
      return claim_sentence(moment);
    case Kind::slide:
      return slide_sentence(moment);
    case Kind::turn:
      return turn_sentence(moment);
    case Kind::slip:
      return "";  // never told
  }
  return "";
}

std::string question_of(const Moment& moment) {
  const std::string side = mover_of(moment);
  const bool holds = study::standing_of(moment.best_expectation()) <= Standing::level;
  return side + " to move: how " +
         (holds ? "does " + side + " hold?" : "should " + side + " go on?");
}

}  // namespace kairos::report
