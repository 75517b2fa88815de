#include "kairos/puzzle/puzzle.hpp"

#include <array>

#include "kairos/base/text.hpp"

namespace kairos::puzzle {

std::string_view name_of(Reward reward) {
  constexpr std::array<std::string_view, reward_count> names = {"mate", "material", "save",
                                                                "advantage"};
  return names[static_cast<std::size_t>(reward)];
}

std::string id_of(const Puzzle& puzzle) {
  std::string id = "g" + base::number(static_cast<std::int64_t>(puzzle.game)) + "-m" +
                   base::number(puzzle.position.fullmove_number()) +
                   (puzzle.position.side_to_move() == rules::white ? "w" : "b");
  // Positions beside the game may share its move numbers.
  if (puzzle.kind == study::Kind::trap) id += "-trap";
  if (puzzle.kind == study::Kind::claim) id += "-claim";
  return id;
}

}  // namespace kairos::puzzle
