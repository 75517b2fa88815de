#include "players.hpp"

#include <algorithm>

#include "kairos/base/foreign.hpp"

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

std::vector<std::string> spellings(std::string_view player) {
  std::vector<std::string> names;
  constexpr std::string_view between = " / ";
  while (!player.empty()) {
    const auto end = std::min(player.find(between), player.size());
    if (end > 0) names.push_back(base::stripped(player.substr(0, end)));
    player.remove_prefix(std::min(end + between.size(), player.size()));
  }
  return names;
}

std::vector<std::string> PlayerCount::names() const {
  std::vector<std::string> names;
  for (const auto& [name, player] : by_name_) names.push_back(name);
  return names;
}

std::vector<PlayerErrors> PlayerCount::listed(const std::vector<std::string>& only) const {
  const auto wanted = [&only](std::string_view name) {
    return only.empty() || std::any_of(only.begin(), only.end(), [name](const std::string& part) {
             return name.find(part) != std::string_view::npos;
           });
  };
  std::vector<PlayerErrors> list;
  for (const auto& [name, player] : by_name_) {
    if (wanted(name)) list.push_back(player);
  }
  // The map is in the order of names, and a stable sort keeps it among equals.
  std::stable_sort(list.begin(), list.end(), [](const PlayerErrors& a, const PlayerErrors& b) {
    return a.interval().low > b.interval().low;
  });
  return list;
}

}  // namespace kairos::report
