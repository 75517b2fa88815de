// How a game was lost where no moment tells it: the figures it went through, by the survey.
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"
#include "kairos/study/expectation.hpp"

#include "labels.hpp"

namespace kairos::report {

namespace {

constexpr int moves_apart = 10;

// "48 % at move 10": the loser's expectation, at the loser's moves.
std::string figure(const study::Study& study, std::size_t ply, int move_number) {
  const double expected = study::expectation(study.notes[ply].lines.front().score);
  return percent(expected) + " at move " + base::number(move_number);
}

std::vector<std::string> figures(const study::Study& study, rules::Color loser) {
  std::vector<std::string> all;
  std::string last;
  const int offset = study.start.side_to_move() == rules::white ? 0 : 1;
  for (std::size_t ply = 0; ply < study.moves.size(); ++ply) {
    const int half_moves = static_cast<int>(ply) + offset;
    const int number = study.start.fullmove_number() + half_moves / 2;
    const bool own = (half_moves % 2 == 0) == (loser == rules::white);
    if (!own || study.notes[ply].lines.empty()) continue;
    last = figure(study, ply, number);
    if (number % moves_apart == 0) all.push_back(last);
  }
  if (!last.empty() && (all.empty() || all.back() != last)) all.push_back(last);
  return all;
}

}  // namespace

std::string loss_words(const study::Study& study) {
  if (!study::was_won_at_the_board(study.facts) || study::tells_where_it_was_lost(study)) return "";
  const rules::Color loser = study::loser_of(study.facts);
  const std::vector<std::string> all = figures(study, loser);
  if (all.empty()) return "";
  return "No single move decided this game: " + side_words(loser) + "'s expectation was " +
         base::join(all, ", ") + ".";
}

}  // namespace kairos::report
