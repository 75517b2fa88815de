// SAN: a text is read as a legal move or not at all, and what is written for a move is read as that
// move. The input's first byte says how many moves to play first, each chosen by one byte more; the
// rest is the text.
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "property.hpp"

using namespace kairos;
using fuzz::must_hold;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  rules::Position position = rules::Position::start();
  std::size_t used = 1;
  for (std::size_t plies = data[0] % 128U; plies > 0 && used < size; --plies) {
    rules::MoveList moves;
    rules::legal_moves(position, moves);
    if (moves.empty()) break;
    position.play(moves[data[used++] % moves.size()]);
  }
  const std::string_view text = fuzz::text_of(data + used, size - used);
  const rules::SanReading reading = rules::read_san(position, text);
  if (reading.move && reading.move != rules::null_move) {
    must_hold(rules::is_legal(position, reading.move), "a move that was read is legal");
  }
  const auto parsed = rules::parse_san(position, text);
  must_hold(parsed.ok() == static_cast<bool>(reading.move), "both readers agree");
  rules::MoveList moves;
  rules::legal_moves(position, moves);
  for (const rules::Move move : moves) {
    const rules::SanReading again = rules::read_san(position, rules::to_san(position, move));
    must_hold(again.move == move, "print and parse give the same move");
  }
  return 0;
}
