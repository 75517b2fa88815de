#include "kairos/puzzle/puzzle.hpp"

#include <algorithm>
#include <array>

#include "kairos/base/text.hpp"

namespace kairos::puzzle {

std::string_view name_of(Reward reward) {
  constexpr std::array<std::string_view, reward_count> names = {"mate", "material", "save",
                                                                "advantage"};
  return names[static_cast<std::size_t>(reward)];
}

std::span<const rules::Move> asked_of(const Puzzle& puzzle) {
  return std::span(puzzle.line)
      .first(std::min(static_cast<std::size_t>(puzzle.asked), puzzle.line.size()));
}

std::string id_of(const Puzzle& puzzle) {
  std::string id = "g" + base::number(static_cast<std::int64_t>(puzzle.game)) + "-m" +
                   base::number(puzzle.position.fullmove_number()) +
                   (puzzle.position.side_to_move() == rules::white ? "w" : "b");
  // A why-not may share its move number with a puzzle.
  if (puzzle.avoided) id += "-whynot";
  return id;
}

}  // namespace kairos::puzzle
