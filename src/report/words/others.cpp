// A reply is told with its effect where that is known: "fails to 16. g4, which wins a bishop". Of
// what leaves its side level or better it is never said that it fails, only what it cost.
#include "others.hpp"

#include <algorithm>

#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"

#include "phrases.hpp"

namespace kairos::report {

using study::Kind;
using study::Moment;
using study::Role;
using study::Standing;

namespace {

// A move that is not right beside the one that was played or is told of first.
struct Wrong {
  std::string name;  // "The next best, 15... Kh7,"
  double left = 0;   // its side's expectation after it
  std::string reply, effect;
  std::string bare;  // what is said of it where the reply has no effect that is known
};

// ": after 4. Qf3 Black is worse", and of what leaves its side no worse than level what it cost:
// that it fails is not said of a draw.
std::string told_bare(const Moment& m, const Wrong& wrong) {
  const double best = m.best_expectation();
  const std::string answer =
      answered(m.position.side_to_move(), wrong.left, wrong.reply, "", false);
  const bool fails = study::standing_of(wrong.left) < Standing::level;
  return " " + (fails ? "fails" : cost_words(best, wrong.left)) + answer;
}

// "leaves the position level", "leaves White better, no more", "loses"; where the standing stays
// the same what it costs.
std::string leaves_words(const Moment& m, double left) {
  const std::string side = side_words(m.position.side_to_move());
  const double best = m.best_expectation();
  const Standing after = study::standing_of(left);
  if (after == study::standing_of(best)) return " " + cost_words(best, left);
  switch (after) {
    case Standing::lost:
      return " loses";
    case Standing::level:
      return " leaves the position level";
    case Standing::better:
      return " leaves " + side + " better, no more";
    default:
      return " leaves " + side + " " + adjective(left);
  }
}

// Why it is not right. A reply with an effect that `told` says already is only named.
std::string why_not(const Moment& m, const Wrong& wrong, const std::string& told) {
  if (wrong.effect.empty() || wrong.reply.empty()) return wrong.name + wrong.bare + ".";
  const auto is_told = [&](const std::string& between) {
    return told.find(wrong.reply + between + wrong.effect) != std::string::npos;
  };
  if (is_told(" ") || is_told(", which ")) {
    return wrong.name + " runs into " + wrong.reply + " too.";
  }
  if (study::standing_of(wrong.left) < Standing::level) {
    return wrong.name + " fails to " + wrong.reply + ", which " + wrong.effect + ".";
  }
  return wrong.name + " " + cost_words(m.best_expectation(), wrong.left) + ": " + wrong.reply +
         " " + wrong.effect + ".";
}

bool is_mate_in_one(const study::Reason& reason) {
  return is_mate(reason) && reason.mate_moves == 1;
}

}  // namespace

std::string mover_of(const Moment& m) {
  return side_words(m.position.side_to_move());
}

std::string adjective(double expectation) {
  return std::string(words(study::standing_of(expectation)));
}

std::string reply_in(const Moment& m, Role role, const std::vector<rules::Move>& replies) {
  return replies.empty() ? "" : numbered(study::position_of(m, role), replies.front());
}

std::string answered(rules::Color mover, double left, const std::string& reply,
                     const std::string& effect, bool loses) {
  // Of what was better still: it is only better now.
  const std::string state = state_of(mover, left, study::standing_of(left) == Standing::better);
  if (reply.empty()) return ": " + state;
  if (!effect.empty()) return ": " + reply + " " + effect;
  return loses ? " to " + reply : ": after " + reply + " " + state;
}

const study::Reason* proved_win(const Moment& m) {
  const auto proves = [](const study::Reason& reason) {
    const bool wins = is_mate(reason) || reason.kind == study::ReasonKind::wins_material;
    return wins && reason.role == Role::best && !effect_words(reason).empty();
  };
  const auto found = std::ranges::find_if(m.reasons, proves);
  return found == m.reasons.end() ? nullptr : &*found;
}

const Moment* with_second(const TurningPoint& point) {
  const Moment* const only = point.find(Kind::only_move);
  const Moment* const m = only != nullptr ? only : &point.lead();
  const bool counts = m->kind == Kind::only_move || m->kind == Kind::quiet_win;
  return counts && m->second ? m : nullptr;
}

const Moment* second_told(const TurningPoint& point) {
  const Moment* const m = with_second(point);
  if (m == nullptr || (m->kind == Kind::quiet_win && proved_win(*m) != nullptr)) return nullptr;
  if (point.lead().kind == Kind::swing && point.lead().played == m->second) return nullptr;
  const Moment* const trap = point.find(Kind::trap);
  if (trap == nullptr) return m;
  // What tempts says better than a move without a reason that nothing else would do.
  const bool tells = told_reason(point, Role::second_reply) != nullptr;
  return tells && trap->tempting != m->second ? m : nullptr;
}

std::string second_sentence(const TurningPoint& point, const Moment& m, const std::string& told) {
  const std::string second = numbered(m.position, m.second);
  const bool played = m.second == m.played;
  const Role role = played ? Role::reply : Role::second_reply;
  Wrong wrong;
  wrong.name = played ? mover_of(m) + " played " + second + " instead; it"
                      : "The next best, " + second + ",";
  wrong.left = played ? m.played_expectation() : study::expectation(m.second_score);
  wrong.reply = reply_in(m, role, played ? m.refutation : m.second_refutation);
  wrong.effect = told_effect(point, role);
  wrong.bare = leaves_words(m, wrong.left);
  const study::Reason* const why = told_reason(point, role);
  if (why != nullptr && is_mate_in_one(*why) && !wrong.reply.empty()) {
    return wrong.name + " allows mate: " + wrong.reply + ".";
  }
  // Of moves that only put the mate off none is worth a name.
  const bool mated = !played && m.second_score <= -search::min_mate_score;
  if (mated && (why == nullptr || why->kind == study::ReasonKind::leads_to_mate)) {
    return "After any other move " + mover_of(m) + " is mated.";
  }
  return why_not(m, wrong, told);
}

// A mate in one is no trap that anybody falls into for long: it is told as what it is.
std::string trap_sentence(const Moment& m, const std::string& told) {
  const TurningPoint point = alone(m);
  const std::string tempting = numbered(m.position, m.tempting);
  const std::string reply = reply_in(m, Role::reply, m.refutation);
  if (reply.empty()) return mover_of(m) + " rightly left " + tempting + " alone.";
  const study::Reason* const why = told_reason(point, Role::reply);
  if (why != nullptr && is_mate_in_one(*why)) {
    return tempting + " would have allowed mate: " + reply + ".";
  }
  Wrong wrong;
  wrong.name = "The tempting " + tempting;
  wrong.left = study::expectation(m.tempting_score);
  wrong.reply = reply;
  wrong.effect = told_effect(point, Role::reply);
  wrong.bare = told_bare(m, wrong);
  return why_not(m, wrong, told);
}

}  // namespace kairos::report
