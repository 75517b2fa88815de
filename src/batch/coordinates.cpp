#include "coordinates.hpp"

#include "kairos/base/text.hpp"
#include "kairos/rules/movegen.hpp"

namespace kairos::batch {

namespace {

constexpr std::string_view no_move_text = "-";
constexpr std::string_view null_move_text = "0000";
constexpr std::string_view promotion_letters = "pnbrqk";  // by PieceType

}  // namespace

std::string to_coordinates(rules::Move move) {
  if (!move) return std::string(no_move_text);
  if (move == rules::null_move) return std::string(null_move_text);
  std::string text = rules::to_string(move.from()) + rules::to_string(move.to());
  if (move.is_promotion()) text += promotion_letters[move.promoted()];
  return text;
}

std::string to_coordinates(std::span<const rules::Move> line) {
  std::string text;
  for (const rules::Move move : line) {
    if (!text.empty()) text += ' ';
    text += to_coordinates(move);
  }
  return text;
}

std::optional<rules::Move> parse_coordinates(const rules::Position& position,
                                             std::string_view text) {
  if (text == no_move_text) return rules::Move{};
  if (text == null_move_text) {
    if (position.in_check()) return std::nullopt;
    return rules::null_move;
  }
  rules::MoveList moves;
  rules::legal_moves(position, moves);
  for (const rules::Move move : moves) {
    if (to_coordinates(move) == text) return move;
  }
  return std::nullopt;
}

std::optional<std::vector<rules::Move>> parse_coordinate_line(rules::Position position,
                                                              std::string_view text) {
  std::vector<rules::Move> line;
  for (const std::string_view word : base::fields(text)) {
    const auto move = parse_coordinates(position, word);
    if (!move || !*move) return std::nullopt;
    position.play(*move);
    line.push_back(*move);
  }
  return line;
}

}  // namespace kairos::batch
