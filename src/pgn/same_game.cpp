#include "kairos/pgn/same_game.hpp"

#include "kairos/base/checksum.hpp"
#include "kairos/base/text.hpp"
#include "kairos/pgn/game.hpp"

namespace kairos::pgn {

namespace {

// "Rosin, Ada" and "rosin,A." alike.
std::string surname(std::string_view name) {
  return base::lower_case(base::trim(name.substr(0, name.find_first_of(", "))));
}

}  // namespace

std::uint64_t identity_of(const rules::Position& start, std::span<const rules::Move> moves,
                          std::string_view white, std::string_view black) {
  if (moves.empty()) return 0;
  std::string text;
  text.reserve(2 * moves.size() + 8);
  for (std::uint64_t key = start.key(), byte = 0; byte < 8; ++byte, key >>= 8) {
    text += static_cast<char>(key);
  }
  for (const rules::Move move : moves) {
    text += static_cast<char>(move.raw());
    text += static_cast<char>(move.raw() >> 8);
  }
  if (moves.size() < telling_plies) text += surname(white) + '\n' + surname(black);
  const std::uint64_t hash = base::hash64(text);
  return hash == 0 ? 1 : hash;
}

std::uint64_t identity_of(const Game& game) {
  return identity_of(game.start, main_line_moves(game), game.tag("White"), game.tag("Black"));
}

}  // namespace kairos::pgn
