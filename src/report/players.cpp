#include "players.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"

#include "labels.hpp"

namespace kairos::report {

base::Interval PlayerErrors::interval() const {
  return base::wilson_interval(games_with_error, games);
}

void PlayerCount::add(const study::Study& study) {
  add_side(study, rules::white);
  add_side(study, rules::black);
}

void PlayerCount::add_side(const study::Study& study, rules::Color side) {
  const std::string name =
      player_text(side == rules::white ? study.facts.white : study.facts.black);
  PlayerErrors& player = by_name_[name];
  player.name = name;
  ++player.games;
  // The side that starts makes the odd move out.
  const std::size_t plies = study.moves.size();
  player.moves += study.start.side_to_move() == side ? (plies + 1) / 2 : plies / 2;
  const auto errors = std::count_if(
      study.moments.begin(), study.moments.end(), [side](const study::Moment& moment) {
        return moment.kind == study::Kind::swing && moment.position.side_to_move() == side;
      });
  player.errors += static_cast<std::uint64_t>(errors);
  if (errors > 0) ++player.games_with_error;
}

std::vector<PlayerErrors> PlayerCount::listed(std::string_view only) const {
  std::vector<PlayerErrors> list;
  const std::string wanted = base::lower_case(only);
  for (const auto& [name, player] : by_name_) {
    if (base::lower_case(name).find(wanted) != std::string::npos) list.push_back(player);
  }
  std::stable_sort(list.begin(), list.end(), [](const PlayerErrors& a, const PlayerErrors& b) {
    return a.interval().low > b.interval().low;
  });
  return list;
}

}  // namespace kairos::report
