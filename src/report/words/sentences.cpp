// The text of a turning point, one account of all its moments: what happened and why it fails, what
// the other side made of it, what was right and why, and whether anything else would do.
//
// One grammar for all kinds: each part is a sentence that can be said aloud, made of facts; a part
// whose fact is not known, or was told before, is left out, so a short text means that less is
// known. Lines and figures stand beside the text and are not repeated in it. Example:
//
//   36. Qe1 lets the win slip: after 36... Qxb2 the position is level. Black played it. Only
//   36. Kh2 keeps the win: it threatens the rook on d7.
#include <algorithm>
#include <array>

#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/attacks.hpp"

#include "others.hpp"
#include "phrases.hpp"

namespace kairos::report {

namespace {

using study::Kind;
using study::Moment;
using study::Role;
using study::Standing;

std::string opponent_of(const Moment& m) {
  return side_words(~m.position.side_to_move());
}

// What answers the move that was played.
std::string answer_to_played(const TurningPoint& point, double left) {
  const Moment& m = point.lead();
  const bool loses = study::standing_of(left) == Standing::lost && m.kind == Kind::swing &&
                     study::standing_of(m.best_expectation()) != Standing::lost;
  return answered(m.position.side_to_move(), left, reply_in(m, Role::reply, m.refutation),
                  told_effect(point, Role::reply), loses);
}

// Where the standing is the same as before it says nothing: "makes things worse after 24. Kd2".
std::string swing_gist(const TurningPoint& point) {
  const Moment& m = point.lead();
  const Fall fall = fall_of(m);
  const std::string begin = numbered(m.position, m.played) + " " + cost_words(fall.from, fall.to);
  const std::string reply = reply_in(m, Role::reply, m.refutation);
  const bool same = study::standing_of(fall.from) == study::standing_of(fall.to);
  if (same && !reply.empty() && told_effect(point, Role::reply).empty()) {
    return begin + " after " + reply + ".";
  }
  return begin + answer_to_played(point, fall.to) + ".";
}

std::string way_down(const Fall& fall) {
  const Standing before = study::standing_of(fall.from);
  if (before != study::standing_of(fall.to)) {
    return "slides from " + adjective(fall.from) + " to " + adjective(fall.to);
  }
  if (before > Standing::level) return "lets an advantage shrink";
  if (before == Standing::level) return "gives ground";
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

// With its reason, where there is one.
std::string costliest_sentence(const TurningPoint& point) {
  const Moment& m = point.lead();
  if (m.kind != Kind::slide || m.steps.size() < 2) return "";
  const std::string effect = told_effect(point, Role::reply);
  const std::string reply = reply_in(m, Role::reply, m.refutation);
  const std::string why = effect.empty() || reply.empty() ? "" : ": " + reply + " " + effect;
  return "The costliest of them is " + numbered(m.position, m.played) + why + ".";
}

std::string turn_gist(const TurningPoint& point) {
  const Moment& m = point.lead();
  const std::string reply = reply_in(m, Role::reply, m.refutation);
  const bool same =
      study::standing_of(m.best_expectation()) == study::standing_of(m.played_expectation());
  const bool bare = same && !reply.empty() && told_effect(point, Role::reply).empty();
  return "No big error decides the game; the costliest move is " + numbered(m.position, m.played) +
         (bare ? ", met by " + reply : answer_to_played(point, m.played_expectation())) + ".";
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

// Whether the best move attacks the queen, by another man than the queen, that was not attacked.
bool hits_the_queen(const Moment& m) {
  const rules::Color side = m.position.side_to_move();
  const rules::Position after = m.position.after(m.best);
  const rules::Bitboard queens = after.pieces(~side, rules::queen);
  if (rules::count(queens) != 1) return false;
  const rules::Square queen = rules::first(queens);
  const auto attackers = [&](const rules::Position& p) {
    const rules::Bitboard men = p.pieces(side) & ~p.pieces(side, rules::queen);
    return rules::attackers_to(p, queen, p.occupied()) & men;
  };
  return attackers(m.position) == 0 && attackers(after) != 0;
}

// Whether the best move says aloud what it is about: it threatens something, hits a piece, goes for
// the king, or steps out of an attack.
bool speaks_up(const TurningPoint& point) {
  using study::ReasonKind;
  constexpr std::array loud = {ReasonKind::threatens, ReasonKind::leads_to_threat,
                               ReasonKind::hits,      ReasonKind::drives_off,
                               ReasonKind::evades,    ReasonKind::attacks_king};
  const study::Reason* why = told_reason(point, Role::best);
  for (; why != nullptr; why = told_reason(point, Role::best, why)) {
    if (std::ranges::find(loud, why->kind) != loud.end()) return true;
  }
  return false;
}

// Whether the man that moves attacks a greater one there, or is a pawn about to promote.
bool attacks_upwards(const Moment& m) {
  const rules::Position after = m.position.after(m.best);
  const rules::Square to = m.best.to();
  const rules::PieceType man = rules::type_of(after.piece_on(to));
  const rules::Color mine = m.position.side_to_move();
  constexpr int seventh = 6;
  if (man == rules::pawn && rules::rank_seen_by(mine, to) == seventh) return true;
  const rules::Bitboard attacked = man == rules::pawn
                                       ? rules::pawn_attacks(mine, to)
                                       : rules::attacks_of(man, to, after.occupied());
  for (rules::Bitboard men = attacked & after.pieces(~mine) & ~after.pieces(rules::king);
       men != 0;) {
    const rules::PieceType other = rules::type_of(after.piece_on(rules::take_first(men)));
    const bool both_minor = man == rules::knight && other == rules::bishop;
    if (other > man && !both_minor) return true;
  }
  return false;
}

// Whether best play takes the man that moves.
bool offers_a_man(const Moment& m) {
  return m.line.size() > 1 && m.line[1].to() == m.best.to();
}

// What the best move of a quiet win does; that it hits the queen is said first.
std::string quiet_effect(const TurningPoint& point, const Moment& quiet) {
  const std::string effect = told_effect(point, Role::best);
  if (!hits_the_queen(quiet) || effect.find("queen") != std::string::npos) return effect;
  return "hits the queen" + (effect.empty() ? "" : " and " + effect);
}

// "the quiet 25. Qd7": of a move that neither speaks up nor offers a man.
std::string quiet_name(const TurningPoint& point, const Moment& quiet) {
  const bool loud =
      attacks_upwards(quiet) || hits_the_queen(quiet) || speaks_up(point) || offers_a_man(quiet);
  return (loud ? "" : "the quiet ") + numbered(quiet.position, quiet.best);
}

// " keeps the win: it takes the c-file", " mates in 2", " holds": what a move does for its side.
std::string keeps_words(const TurningPoint& point, const Moment& m, const std::string& effect) {
  const std::string aim(aim_of(m));
  if (effect.empty()) return " " + aim;
  const study::Reason* const why = told_reason(point, Role::best);
  if (why != nullptr && is_mate(*why)) return " " + effect;
  return " " + (aim == "wins" ? "keeps the win" : aim) + ": it " + effect;
}

// "Only the quiet 25. Qd7 keeps the win: it takes the c-file", "Only 25. Qd7 mates in 2".
std::string only_sentence(const TurningPoint& point) {
  const Moment& m = *point.find(Kind::only_move);
  const Moment* const quiet = point.find(Kind::quiet_win);
  if (quiet == nullptr || quiet->best != m.best) {
    return "Only " + numbered(m.position, m.best) +
           keeps_words(point, m, told_effect(point, Role::best)) + ".";
  }
  return "Only " + quiet_name(point, m) + keeps_words(point, m, quiet_effect(point, m)) + ".";
}

// That it alone does so is said of a win that is proved.
std::string quiet_sentence(const TurningPoint& point) {
  const Moment& m = *point.find(Kind::quiet_win);
  const TurningPoint own = alone(m);
  const std::string effect = quiet_effect(own, m);
  const std::string name = capital(quiet_name(own, m));
  const study::Reason* const proved = proved_win(m);
  if (proved == nullptr) return name + keeps_words(own, m, effect) + ".";
  const std::string win = effect_words(*proved);
  const bool is_told = effect.find(win) != std::string::npos;
  return name + " " + (is_told ? effect : win) +
         (is_mate(*proved) ? ". No other move mates." : ". No other move wins as much.");
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
      return trap_sentence(m, "");
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
  const bool is_right = quiet != nullptr && quiet->best == m.best;
  if (is_right && proved_win(*quiet) != nullptr) return quiet_sentence(point);
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
  add(text, costliest_sentence(point));
  add(text, right_of(point));
  const Moment* const second = second_told(point);
  const bool played_second = second != nullptr && second->second == m.played;
  const bool asks = m.kind == Kind::only_move || m.kind == Kind::quiet_win;
  if (asks && !played_second) add(text, found_sentence(m));
  if (second != nullptr) add(text, second_sentence(point, *second, text));
  const Moment* const quiet = point.find(Kind::quiet_win);
  if (quiet != nullptr && quiet->best != m.best) add(text, quiet_sentence(point));
  const Moment* const trap = point.find(Kind::trap);
  if (trap != nullptr && trap != &m) add(text, trap_sentence(*trap, text));
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
