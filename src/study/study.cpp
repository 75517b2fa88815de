#include "kairos/study/study.hpp"

#include <algorithm>

#include "kairos/study/expectation.hpp"

namespace kairos::study {

std::string_view words(Kind kind) {
  switch (kind) {
    case Kind::swing:
      return "swing";
    case Kind::only_move:
      return "only move";
    case Kind::quiet_win:
      return "quiet win";
    case Kind::trap:
      return "trap";
    case Kind::ended_early:
      return "ended early";
    case Kind::claim:
      return "claim";
  }
  return "";
}

std::string_view side_words(rules::Color c) {
  return c == rules::white ? "White" : "Black";
}

double Moment::best_expectation() const {
  return expectation(best_score);
}

double Moment::played_expectation() const {
  return expectation(played_score);
}

double Moment::cost() const {
  return std::max(0.0, best_expectation() - played_expectation());
}

std::string label_of(const GameFacts& f) {
  std::string label = f.white + " - " + f.black;
  if (!f.event.empty() && f.event != "?") label += ", " + f.event;
  if (!f.round.empty() && f.round != "?" && f.round != "-") label += ", round " + f.round;
  return label;
}

rules::Position position_after(const Study& study, std::size_t plies) {
  rules::Position p = study.start;
  for (std::size_t i = 0; i < plies; ++i) p.play(study.moves[i]);
  return p;
}

}  // namespace kairos::study
