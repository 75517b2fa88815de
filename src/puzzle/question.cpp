#include "question.hpp"

#include <utility>

#include "kairos/study/expectation.hpp"

namespace kairos::puzzle {

namespace {

// A moment whose best two moves are this near has no unique key, so no search is spent on it.
constexpr double hopeless_gap = 0.20;

// The position at a ply of the game.
Question in_game(const study::Scoresheet& sheet, int ply) {
  const auto at = static_cast<std::size_t>(ply);
  const auto keys = sheet.keys_before(ply);
  Question q;
  q.position = sheet.positions[at];
  q.earlier.assign(keys.begin(), keys.end());
  if (at > 0) q.before = sheet.positions[at - 1];
  q.last = sheet.move_at(ply - 1);
  q.own_last = sheet.move_at(ply - 2);
  q.played = sheet.move_at(ply);
  q.ply = ply;
  return q;
}

// The position after `move`, which was not played.
Question why_not(Question at, rules::Move move) {
  play(at, move);
  at.played = rules::Move{};
  at.is_why_not = true;
  return at;
}

bool may_be_unique(const study::Moment& m) {
  return study::expectation(m.best_score) - study::expectation(m.second_score) >= hopeless_gap;
}

}  // namespace

void play(Question& question, rules::Move move) {
  question.earlier.push_back(question.position.key());
  question.before = question.position;
  question.position.play(move);
  question.own_last = std::exchange(question.last, move);
}

std::vector<Question> questions_of(const study::Scoresheet& sheet, const study::Moment& m) {
  std::vector<Question> questions;
  switch (m.kind) {
    case study::Kind::swing:
      if (may_be_unique(m)) questions.push_back(in_game(sheet, m.ply));
      questions.push_back(in_game(sheet, m.ply + 1));
      break;
    case study::Kind::only_move:
    case study::Kind::quiet_win:
    case study::Kind::ended_early:
      if (may_be_unique(m)) questions.push_back(in_game(sheet, m.ply));
      break;
    case study::Kind::trap:
      if (m.tempting) questions.push_back(why_not(in_game(sheet, m.ply), m.tempting));
      break;
    case study::Kind::slip:
    case study::Kind::slide:
    case study::Kind::turn:
    case study::Kind::claim:  // a hole in the player's own analysis may lie off the game
      break;
  }
  return questions;
}

}  // namespace kairos::puzzle
