// The text of a turning point: what happened, what the other side made of it, what was right, and
// the move that tempted.
//
// One grammar for all kinds: each part is a sentence that can be said aloud, made of facts; a part
// whose fact is not known is left out, so a short text means that less is known. Lines and figures
// stand beside the text and are not repeated in it.
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"

#include "phrases.hpp"

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

// The first move of `replies`; "" when there is none.
std::string reply_in(const Moment& m, Role role, const std::vector<rules::Move>& replies) {
  return replies.empty() ? "" : numbered(study::position_of(m, role), replies.front());
}

// ": 4. Qxf7# is mate", " to 4. Qxf7", ": after 4. Qf3 Black is worse": what answers a move that
// leaves its side `left`.
std::string answered(const TurningPoint& point, double left) {
  const Moment& m = point.lead();
  const rules::Color mover = m.position.side_to_move();
  const std::string effect = told_effect(point, Role::reply);
  const std::string reply = reply_in(m, Role::reply, m.refutation);
  if (reply.empty()) return ": " + state_of(mover, left);
  if (!effect.empty()) return ": " + reply + " " + effect;
  const bool loses = study::standing_of(left) == Standing::lost && m.kind == Kind::swing &&
                     study::standing_of(m.best_expectation()) != Standing::lost;
  return loses ? " to " + reply : ": after " + reply + " " + state_of(mover, left);
}

std::string swing_gist(const TurningPoint& point) {
  const Moment& m = point.lead();
  const Fall fall = fall_of(m);
  return numbered(m.position, m.played) + " " + cost_words(fall.from, fall.to) +
         answered(point, fall.to) + ".";
}

// As adjectives: "from winning to level".
std::string adjective(double expectation) {
  return std::string(words(study::standing_of(expectation)));
}

std::string way_down(const Fall& fall) {
  const Standing before = study::standing_of(fall.from);
  if (before != study::standing_of(fall.to)) {
    return "slides from " + adjective(fall.from) + " to " + adjective(fall.to);
  }
  if (before > Standing::level) return "lets an advantage shrink";
  if (before == Standing::level) return "lets a level position slip";
  return "makes a bad position worse";
}

// A long slide is told by its first moves: all of them stand in moments.jsonl.
std::string slide_gist(const Moment& m) {
  constexpr std::size_t most = 4;
  std::vector<std::string> moves;
  for (const study::Step& step : m.steps) moves.push_back(numbered(step.position, step.move));
  if (moves.size() > most) {
    moves.resize(most);
    moves.emplace_back("more");
  }
  return mover_of(m) + " " + way_down(fall_of(m)) + " with " + listed(moves) + ".";
}

std::string turn_gist(const TurningPoint& point) {
  const Moment& m = point.lead();
  return "No big error decides the game; the costliest move is " + numbered(m.position, m.played) +
         answered(point, m.played_expectation()) + ".";
}

// How the side that gave something up stood, and by what: "White is winning: 38. Kg3 mates in 4",
// "the position is level after 38. Kg3".
std::string stood(const TurningPoint& point, rules::Color side) {
  const Moment& m = point.lead();
  const bool moves = m.position.side_to_move() == side;
  const double expected = m.best_expectation();
  const double left = moves ? expected : 1 - expected;
  const std::string state = state_of(side, left, study::standing_of(left) == Standing::worse);
  const std::string effect = moves ? told_effect(point, Role::best) : "";
  const std::string best = numbered(m.position, m.best);
  if (best.empty()) return state;
  return effect.empty() ? state + " after " + best : state + ": " + best + " " + effect;
}

std::string ended_gist(const study::Study& study, const TurningPoint& point) {
  const Moment& m = point.lead();
  if (study.facts.result == "1/2-1/2") {
    const rules::Color mover = m.position.side_to_move();
    return "A draw was agreed, though " +
           stood(point, m.best_expectation() > 0.5 ? mover : ~mover) + ".";
  }
  const rules::Color loser = study.facts.result == "1-0" ? rules::black : rules::white;
  return side_words(loser) + " gave up, though " + stood(point, loser) + ".";
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

// "Only the quiet 25. Qd7 keeps the win: it takes the c-file", "Only 25. Qd7 mates in 2".
std::string only_sentence(const TurningPoint& point) {
  const Moment& m = *point.find(Kind::only_move);
  const Moment* const quiet = point.find(Kind::quiet_win);
  std::string text = quiet != nullptr && quiet->best == m.best ? "Only the quiet " : "Only ";
  text += numbered(m.position, m.best) + " ";
  const study::Reason* const why = told_reason(point, Role::best);
  const std::string aim(aim_of(m));
  if (why == nullptr) return text + aim + ".";
  const bool mates =
      why->kind == study::ReasonKind::mates || why->kind == study::ReasonKind::leads_to_mate;
  const std::string effect = told_effect(point, Role::best);
  if (mates) return text + effect + ".";
  return text + (aim == "wins" ? "keeps the win" : aim) + ": it " + effect + ".";
}

// Why the second best falls short: what its refutation does, or what is left after it. "" where
// the text before says what is wrong with it, since it was played.
std::string second_sentence(const TurningPoint& point) {
  const Moment* const only = point.find(Kind::only_move);
  if (only == nullptr || !only->second) return "";
  const Moment& m = *only;
  if (point.lead().kind == Kind::swing && m.second == point.lead().played) return "";
  const std::string second = numbered(m.position, m.second);
  const std::string effect = told_effect(point, Role::second_reply);
  const std::string reply = reply_in(m, Role::second_reply, m.second_refutation);
  if (!effect.empty() && !reply.empty()) {
    return "The next best, " + second + ", fails to " + reply + ", which " + effect + ".";
  }
  const double left = study::expectation(m.second_score);
  if (study::standing_of(left) == study::standing_of(m.best_expectation())) {
    return "The next best, " + second + ", gives most of it away.";
  }
  return "After the next best, " + second + ", " +
         state_of(m.position.side_to_move(), left, study::standing_of(left) == Standing::better) +
         ".";
}

std::string quiet_sentence(const TurningPoint& point) {
  const Moment& m = *point.find(Kind::quiet_win);
  const std::string move = "The quiet " + numbered(m.position, m.best);
  for (const study::Reason& reason : m.reasons) {
    const std::string effect = reason.role == Role::best ? effect_words(reason) : "";
    if (!effect.empty()) return move + " " + effect + ", and nothing else does.";
  }
  return move + " is the move: after it " +
         state_of(m.position.side_to_move(), m.best_expectation()) + ".";
}

// What the opponent made of it, where the game went on.
std::string answer_sentence(const study::Study& study, const Moment& m) {
  const auto next = static_cast<std::size_t>(m.ply) + 1;
  if (next >= study.moves.size() || m.refutation.empty()) return "";
  if (study.moves[next] == m.refutation.front()) return opponent_of(m) + " played it.";
  if (!m.punished) return opponent_of(m) + " missed it.";
  return numbered(m.position.after(m.played), study.moves[next]) + ", as played, was good too.";
}

std::string found_sentence(const Moment& m) {
  if (m.played == m.best) return mover_of(m) + " found it.";
  return mover_of(m) + " played " + numbered(m.position, m.played) + " instead.";
}

// A mate in one is no trap that anybody falls into for long: it is told as what it is.
std::string trap_sentence(const Moment& m) {
  const TurningPoint point = alone(m);
  const std::string tempting = numbered(m.position, m.tempting);
  const std::string reply = reply_in(m, Role::reply, m.refutation);
  const study::Reason* const why = told_reason(point, Role::reply);
  if (reply.empty()) return mover_of(m) + " rightly left " + tempting + " alone.";
  if (why == nullptr) {
    return "The tempting " + tempting + " fails: after " + reply + " " +
           state_of(m.position.side_to_move(), study::expectation(m.tempting_score)) + ".";
  }
  if (why->kind == study::ReasonKind::mates && why->mate_moves == 1) {
    return tempting + " would have allowed mate: " + reply + ".";
  }
  return "The tempting " + tempting + " fails to " + reply + ", which " + effect_words(*why) + ".";
}

void add(std::string& text, const std::string& sentence) {
  if (sentence.empty()) return;
  if (!text.empty()) text += " ";
  text += sentence;
}

}  // namespace

std::string gist_of(const study::Study& study, const TurningPoint& point) {
  const Moment& m = point.lead();
  switch (m.kind) {
    case Kind::swing:
      return swing_gist(point);
    case Kind::slide:
      return slide_gist(m);
    case Kind::turn:
      return turn_gist(point);
    case Kind::ended_early:
      return ended_gist(study, point);
    case Kind::only_move:
      return only_sentence(point);
    case Kind::quiet_win:
      return quiet_sentence(point);
    case Kind::trap:
      return trap_sentence(m);
    case Kind::claim:
      return claim_sentence(m);
    case Kind::slip:
      break;  // never told
  }
  return "";
}

std::string right_of(const TurningPoint& point) {
  const Moment& m = point.lead();
  if (m.kind != Kind::swing && m.kind != Kind::slide && m.kind != Kind::turn) return "";
  if (point.find(Kind::only_move) != nullptr) return only_sentence(point);
  const Moment* const quiet = point.find(Kind::quiet_win);
  if (quiet != nullptr && quiet->best == m.best) return quiet_sentence(point);
  const std::string effect = told_effect(point, Role::best);
  return "Better was " + numbered(m.position, m.best) +
         (effect.empty() ? "." : ", which " + effect + ".");
}

std::string brief_of(const study::Study& study, const TurningPoint& point) {
  const Kind kind = point.lead().kind;
  std::string text = gist_of(study, point);
  if (kind == Kind::only_move || kind == Kind::quiet_win) add(text, found_sentence(point.lead()));
  return text;
}

std::string text_of(const study::Study& study, const TurningPoint& point) {
  const Moment& m = point.lead();
  std::string text = gist_of(study, point);
  if (m.kind == Kind::swing) add(text, answer_sentence(study, m));
  if (m.kind == Kind::slide && m.steps.size() > 1) {
    add(text, "The costliest of them is " + numbered(m.position, m.played) + ".");
  }
  add(text, right_of(point));
  add(text, second_sentence(point));
  if (m.kind == Kind::only_move || m.kind == Kind::quiet_win) add(text, found_sentence(m));
  const Moment* const quiet = point.find(Kind::quiet_win);
  if (quiet != nullptr && quiet->best != m.best) add(text, quiet_sentence(point));
  const Moment* const trap = point.find(Kind::trap);
  if (trap != nullptr && trap != &m) add(text, trap_sentence(*trap));
  return text;
}

std::string sentence_of(const study::Study& study, const Moment& moment) {
  return text_of(study, alone(moment));
}

std::string question_of(const TurningPoint& point) {
  const Moment& m = point.lead();
  const std::string side = mover_of(m), begin = side + " to move: ";
  if (m.kind == Kind::ended_early) return begin + "is it time to stop?";
  if (m.kind == Kind::trap)
    return begin + "may " + side + " play " + numbered(m.position, m.tempting) + "?";
  switch (study::standing_of(m.best_expectation())) {
    case Standing::won:
      return begin + "how does " + side + " win?";
    case Standing::better:
      return begin + "how does " + side + " keep the advantage?";
    default:
      return begin + "how does " + side + " hold?";
  }
}

}  // namespace kairos::report
