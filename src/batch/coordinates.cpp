#include "coordinates.hpp"

#include "kairos/base/text.hpp"
#include "kairos/rules/movegen.hpp"

namespace kairos::batch {

namespace {

constexpr std::string_view no_move_text = "-";
constexpr std::string_view null_move_text = "0000";
constexpr std::string_view promotion_letters = "pnbrqk";  // by PieceType

std::optional<rules::Square> square_of(std::string_view text) {
  if (text[0] < 'a' || text[0] > 'h' || text[1] < '1' || text[1] > '8') return std::nullopt;
  return rules::square_at(text[0] - 'a', text[1] - '1');
}

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
  const bool promotes = text.size() == 5;
  if (text.size() != 4 && !promotes) return std::nullopt;
  const auto from = square_of(text.substr(0, 2)), to = square_of(text.substr(2, 2));
  if (!from || !to) return std::nullopt;
  rules::MoveList moves;
  rules::legal_moves(position, moves);
  for (const rules::Move move : moves) {
    if (move.from() != *from || move.to() != *to || move.is_promotion() != promotes) continue;
    if (!promotes || promotion_letters[move.promoted()] == text[4]) return move;
  }
  return std::nullopt;
}

std::optional<std::vector<rules::Move>> parse_coordinate_line(rules::Position position,
                                                              std::string_view text) {
  std::vector<rules::Move> line;
  for (const std::string_view word : base::fields(text)) {
    const auto move = parse_coordinates(position, word);
    if (!move || !*move || *move == rules::null_move) return std::nullopt;
    position.play(*move);
    line.push_back(*move);
  }
  return line;
}

}  // namespace kairos::batch
