// What was wrong with an error: one of three ways to overlook something, and what it did to the
// result. (The motif of the punishment comes from the verified moment, in decisions.cpp.)
//
//   own chance    the opponent's last move had just given a tenth of the expectation and half of
//   what
//                 was lost now; counted among the decisions after such a move
//   threat        else: the reply that the survey thinks best could have been made before the move
//                 as well, had it been the opponent's turn, and takes the same man, checks or
//                 promotes
//   reply         else: the move itself made the reply possible, or took a guard away
//   result        from better or won to level or less, counted among decisions with an advantage;
//                 from level or worse to lost, among the others
#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/study/expectation.hpp"

#include "situation.hpp"

namespace kairos::habits {

namespace {

bool was_threat(const Situation& s) {
  const study::Note& next = s.note(s.ply + 1);
  if (next.lines.empty() || s.position.in_check()) return false;
  const rules::Move reply = next.lines.front().moves.front();
  const rules::Position passed = s.position.after(rules::null_move);
  if (!rules::is_legal(passed, reply)) return false;
  if (passed.is_capture(reply)) return reply.to() != s.played().to();
  return reply.is_promotion() || passed.after(reply).in_check();
}

}  // namespace

double Situation::best() const {
  return study::expectation(note(ply).lines.front().score);
}

double Situation::after() const {
  return study::expectation(note(ply).played_score);
}

bool was_given(const Situation& s, double least) {
  if (s.ply == 0 || s.note(s.ply - 1).lines.empty()) return false;
  const double before = 1 - study::expectation(s.note(s.ply - 1).lines.front().score);
  return s.best() - before >= least;
}

std::vector<Flaw> flaws_of(const Situation& s) {
  using study::Standing;
  std::vector<Flaw> flaws;
  const double cost = s.best() - s.after();
  if (was_given(s, std::max(chance, cost / 2))) {
    flaws.push_back({"missing the chance that it gave", std::string(after_error)});
  } else {
    flaws.push_back({was_threat(s) ? "overlooking a threat that was already there"
                                   : "overlooking what the move itself allowed",
                     ""});
  }
  const Standing before = study::standing_of(s.best()), after = study::standing_of(s.after());
  if (before >= Standing::better && after <= Standing::level) {
    flaws.push_back({"letting it slip", std::string(with_advantage)});
  }
  if (before < Standing::better && after == Standing::lost) {
    flaws.push_back({"losing a game that still held", std::string(without_advantage)});
  }
  return flaws;
}

}  // namespace kairos::habits
