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

const rules::Position& shown_position(const Puzzle& puzzle) {
  return puzzle.avoided ? puzzle.before : puzzle.position;
}

std::span<const rules::Move> asked_of(const Puzzle& puzzle) {
  return std::span(puzzle.line)
      .first(std::min(static_cast<std::size_t>(puzzle.asked), puzzle.line.size()));
}

std::string_view surname_in(std::string_view game_label, rules::Color side) {
  constexpr std::string_view between = " - ";
  const std::size_t at = game_label.find(between);
  if (at == std::string_view::npos) return "";
  const auto cut = [](std::string_view text) { return base::trim(text.substr(0, text.find(','))); };
  const std::string_view black = cut(game_label.substr(at + between.size()));
  // A name with a dash in it: nobody knows whose part is whose.
  if (black.find(between) != std::string_view::npos) return "";
  const std::string_view name = side == rules::white ? cut(game_label.substr(0, at)) : black;
  return name == "?" ? "" : name;
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
