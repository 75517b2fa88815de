// Samples for the model of players from rated games, on standard output.
//
//   kairos_people_samples SEED GAMES... > samples.txt
//
// Of each move of a player whose rating is known, from move `from_move` on, a lot decides whether
// it becomes a sample: fewer of the ratings of which there are many. Left out: positions with one
// legal move, lost ones (`lost`), and those where the second best move wins as well (`won`); and
// games that a knock-out match was decided by with less time (`is_quick_game`).
#include <iostream>
#include <string>

#include "kairos/base/text.hpp"
#include "kairos/study/all_moves.hpp"
#include "kairos/study/scoresheet.hpp"

#include "chance.hpp"
#include "each_game.hpp"
#include "samples.hpp"

using namespace kairos;

namespace {

constexpr int from_move = 9;  // eight moves of each side are theory
constexpr double lost = 0.03, won = 0.97;

double part_taken(int rating) {
  if (rating < 2200) return 1;
  if (rating < 2400) return 0.5;
  return rating < 2600 ? 0.25 : 0.2;
}

// The games of knock-out matches that were played with less time: the round is "match.game", and
// after two games (four in the last matches) quick ones follow.
bool is_quick_game(const std::string& file, const std::string& round) {
  if (file.find("FideChamp") == std::string::npos) return false;
  const std::size_t dot = round.find('.');
  if (dot == std::string::npos) return false;
  const auto match = base::to_integer(round.substr(0, dot)).value_or(0);
  const auto game = base::to_integer(round.substr(dot + 1)).value_or(0);
  return game > (match < 5 ? 2 : 4);
}

// Whether there was something to decide.
bool teaches(const std::vector<people::Judged>& judged) {
  double best = 0, second = 0;
  for (const people::Judged& j : judged) {
    second = std::max(second, std::min(best, j.in_the_end));
    best = std::max(best, j.in_the_end);
  }
  return judged.size() > 1 && best > lost && second < won;
}

void take(const study::Scoresheet& sheet, learn::Chance& chance) {
  const study::GameFacts& facts = sheet.facts;
  if (is_quick_game(facts.file, facts.round)) return;
  for (std::size_t at = 2; at < sheet.moves.size(); ++at) {
    const rules::Position& p = sheet.positions[at];
    const int rating = study::elo_of(facts, p.side_to_move());
    const bool drawn = chance.share() < part_taken(rating);
    if (!drawn || rating == 0 || p.fullmove_number() < from_move) continue;
    const int ply = static_cast<int>(at);
    people_tools::Sample s;
    s.file = facts.file.substr(facts.file.rfind('/') + 1);
    s.round = static_cast<int>(
        base::to_integer(facts.round.substr(0, facts.round.find('.'))).value_or(0));
    s.rating = rating;
    s.position = p;
    s.before = study::before_of(sheet.positions, sheet.moves, at);
    s.played = sheet.moves[at];
    s.judged = study::judge_all_moves(p, sheet.keys_before(ply));
    if (teaches(s.judged)) people_tools::write(std::cout, s);
  }
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::cerr << "usage: kairos_people_samples SEED GAMES...\n";
    return 2;
  }
  for (int i = 2; i < count; ++i) {
    learn::Chance chance(std::stoull(words[1]));  // the same samples of a file, whatever the others
    const auto take_all = [&](pgn::Game& game) {
      take(study::scoresheet_of(std::move(game)), chance);
    };
    if (!learn::each_game(words[i], take_all)) return 3;
  }
}
