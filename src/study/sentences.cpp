// One plain sentence a moment, put together from facts that were verified before.
//
// Each kind has its pattern: what the move did to the standing, what the reply wins and by what,
// and what was better. A part whose fact is not sure (no motif, no proven gain) is left out rather
// than guessed, so a short sentence means that less is known. Tests: tests/study.
#include "sentences.hpp"

#include "kairos/base/text.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/motifs.hpp"
#include "kairos/study/spoils.hpp"

#include "deeds.hpp"

namespace kairos::study {

namespace {

// What refutes a move: the reply, and what it does by force (as `deed` says it).
struct Rebuff {
  std::string reply;
  std::string act;
};

// `score` is that of the move, from the side that makes it; there must be a reply.
Rebuff rebuff_of(Moment& m, rules::Move move, const std::vector<rules::Move>& replies,
                 search::Score score) {
  const rules::Position after = m.position.after(move);
  const rules::Move reply = replies.front();
  return {numbered(after, reply),
          deed(after, reply, seen_from_before(score), m.nodes, &m.position)};
}

std::string change(double from, double to) {
  const Standing before = standing_of(from), after = standing_of(to);
  if (before != after) {
    return " turns a " + std::string(words(before)) + " position into a " +
           std::string(words(after)) + " one";
  }
  if (before == Standing::better) return " gives up part of an advantage";
  if (before == Standing::worse) return " makes a worse position worse still";
  return " spoils a level position";
}

std::string reply_words(const Study& study, const Moment& m) {
  const auto next = static_cast<std::size_t>(m.ply) + 1;
  if (next >= study.moves.size() || m.refutation.empty()) return "";
  const std::string who = side(~m.position.side_to_move());
  if (study.moves[next] == m.refutation.front()) return " " + who + " played it.";
  return " " + who + (m.punished ? " kept the gain another way." : " missed it.");
}

// The same for the best move, which may win back what the move before has taken.
std::string best_deed(const Evidence& e, Moment& m) {
  const bool took = e.last && e.before.is_capture(e.last);
  std::string act = deed(m.position, m.best, m.best_score, m.nodes, took ? &e.before : nullptr);
  if (act.empty() && took) {
    const Spoils spoils = material_of(m.position, m.best, m.best_score);
    m.nodes += spoils.nodes;
    if (!spoils.what.empty()) act = " wins back " + spoils.what;
  }
  return act;
}

std::string swing_words(const Study& study, const Evidence& e, Moment& m) {
  std::string text =
      numbered(m.position, m.played) + change(m.best_expectation(), m.played_expectation());
  if (!m.refutation.empty()) {
    const Rebuff rebuff = rebuff_of(m, m.played, m.refutation, m.played_score);
    text += (rebuff.act.empty() ? "; the reply is " : ": ") + rebuff.reply + rebuff.act;
  }
  text += "." + reply_words(study, m) + " Better was " + numbered(m.position, m.best);
  const std::string act = best_deed(e, m);
  return text + (act.empty() ? "." : ", which" + act + ".");
}

std::string_view aim_of(const Moment& m) {
  switch (standing_of(m.best_expectation())) {
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
std::string loss_words(const Evidence& e, Moment& m) {
  const Standing left = standing_of(expectation(m.second_score));
  const std::string next = "the next best, " + numbered(m.position, e.second) + ",";
  if (!e.second_refutation.empty()) {
    const Rebuff rebuff = rebuff_of(m, e.second, e.second_refutation, m.second_score);
    if (!rebuff.act.empty()) return next + " fails to " + rebuff.reply + ", which" + rebuff.act;
  }
  if (left == standing_of(m.best_expectation())) return next + " gives most of it away";
  if (left == Standing::better) return next + " leaves less than a win";
  return "after " + next + " " + side(m.position.side_to_move()) + " is " +
         (left == Standing::level ? "no better than level" : std::string(words(left)));
}

std::string ending_words(const Moment& m) {
  const std::string who = side(m.position.side_to_move());
  if (m.played == m.best) return " " + who + " found it.";
  return " " + who + " played " + numbered(m.position, m.played) + " instead.";
}

std::string only_move_words(const Evidence& e, Moment& m) {
  std::string text = "Only " + numbered(m.position, m.best) + " " + std::string(aim_of(m));
  if (e.second) text += "; " + loss_words(e, m);
  return text + "." + ending_words(m);
}

std::string quiet_win_words(const Evidence& e, Moment& m) {
  const std::string act = best_deed(e, m);
  return "The quiet " + numbered(m.position, m.best) +
         (act.empty() ? " wins at least a pawn" : act) +
         " against any reply, and nothing else does." + ending_words(m);
}

std::string trap_words(const Evidence& e, Moment& m) {
  const Rebuff rebuff = rebuff_of(m, m.tempting, m.refutation, e.tempting_score);
  const rules::Color mover = m.position.side_to_move();
  const std::string avoided =
      side(mover) + " kept away from the tempting " + numbered(m.position, m.tempting) + ": ";
  if (!rebuff.act.empty()) return avoided + rebuff.reply + rebuff.act + ".";
  const Standing left = standing_of(expectation(seen_from_before(e.tempting_score)));
  const std::string who = left == Standing::level ? "the position" : side(~mover);
  return avoided + "after " + rebuff.reply + " " + who + " is " + std::string(words(left)) + ".";
}

std::string ended_early_words(const Study& study, const Evidence& e, Moment& m) {
  const rules::Color mover = m.position.side_to_move();
  const bool drawn = study.facts.result == "1/2-1/2";
  const double expected = m.best_expectation();
  std::string text;
  if (drawn) {
    const bool mover_better = expected > 0.5;
    text = "A draw was agreed, though " + side(mover_better ? mover : ~mover) + " is " +
           std::string(words(standing_of(mover_better ? expected : 1 - expected)));
  } else {
    const rules::Color loser = study.facts.result == "1-0" ? rules::black : rules::white;
    const double kept = loser == mover ? expected : 1 - expected;
    text = side(loser) + " gave up a position that is " + std::string(words(standing_of(kept)));
  }
  const std::string act = best_deed(e, m);
  return text + ": " + numbered(m.position, m.best) + (act.empty() ? " comes next." : act + ".");
}

// The motif of the punishment for errors and traps, of the best move for the rest.
std::string motif_of(const Evidence& e, const Moment& m) {
  const bool of_reply = m.kind == Kind::swing || m.kind == Kind::trap;
  const rules::Move before = m.kind == Kind::trap ? m.tempting : m.played;
  const std::vector<Motif> motifs =
      of_reply ? motifs_of(m.position.after(before), m.refutation, {&m.position, before})
               : motifs_of(m.position, m.line, {e.last ? &e.before : nullptr, e.last});
  return motifs.empty() ? "" : std::string(words(motifs.front()));
}

}  // namespace

void describe(const Study& study, const Evidence& evidence, Moment& moment) {
  switch (moment.kind) {
    case Kind::swing:
      moment.sentence = swing_words(study, evidence, moment);
      break;
    case Kind::only_move:
      moment.sentence = only_move_words(evidence, moment);
      break;
    case Kind::quiet_win:
      moment.sentence = quiet_win_words(evidence, moment);
      break;
    case Kind::trap:
      moment.sentence = trap_words(evidence, moment);
      break;
    case Kind::ended_early:
      moment.sentence = ended_early_words(study, evidence, moment);
      break;
    case Kind::claim:  // says what it says where it is found
      break;
  }
  moment.motif = motif_of(evidence, moment);
}

}  // namespace kairos::study
