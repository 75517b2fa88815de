// What was wrong with an error: one of three ways to overlook something, and what it did to the
// result. (The motif of the punishment comes from the verified moment, in decisions.cpp.)
//
//   own chance    half of what was lost, and more, the opponent's last move had just given
//   threat        else: the reply that the survey thinks best could have been made before the move
//                 as well, had it been the opponent's turn, and takes the same man, checks or
//                 promotes
//   reply         else: the move itself made the reply possible, or took a guard away
//   result        from better or won to level or less; from level or worse to lost
#include "kairos/rules/checks.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/study/expectation.hpp"

#include "scene.hpp"

namespace kairos::habits {

namespace {

bool had_just_been_given(const Scene& s) {
  if (s.ply == 0 || s.note(s.ply - 1).lines.empty()) return false;
  const double before = 1 - study::expectation(s.note(s.ply - 1).lines.front().score);
  return s.best() - before >= (s.best() - s.after()) / 2;
}

bool was_threat(const Scene& s) {
  const study::Note& next = s.note(s.ply + 1);
  if (next.lines.empty() || s.position.in_check()) return false;
  const rules::Move reply = next.lines.front().moves.front();
  const rules::Position passed = s.position.after(rules::null_move);
  if (!rules::is_legal(passed, reply)) return false;
  if (passed.is_capture(reply)) return reply.to() != s.played().to();
  return reply.is_promotion() || passed.after(reply).in_check();
}

std::string_view result_words(study::Standing before, study::Standing after) {
  using study::Standing;
  if (before >= Standing::better && after <= Standing::level) {
    return "letting an advantage slip";
  }
  if (before < Standing::better && after == Standing::lost) {
    return "turning a game that held into a lost one";
  }
  return "";
}

}  // namespace

double Scene::best() const {
  return study::expectation(note(ply).lines.front().score);
}

double Scene::after() const {
  return study::expectation(note(ply).played_score);
}

Words flaws_of(const Scene& s) {
  Words words;
  words.emplace_back(had_just_been_given(s) ? "missing a chance that the move before had given"
                     : was_threat(s)        ? "overlooking a threat that was already there"
                                            : "overlooking what the move itself allowed");
  const auto result = result_words(study::standing_of(s.best()), study::standing_of(s.after()));
  if (!result.empty()) words.emplace_back(result);
  return words;
}

}  // namespace kairos::habits
