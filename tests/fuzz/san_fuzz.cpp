// SAN: a text is read as a legal move or not at all, in the same way whatever marks follow it, and
// what is written for a move is read as that move. An input that begins with a FEN and a line end
// starts there; else its first byte says how many moves to play from the start position, each
// chosen by one byte more. The rest is the text.
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "position_taker.hpp"
#include "property.hpp"

using namespace kairos;
using fuzz::must_hold;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  std::string_view text = fuzz::text_of(data, size);
  const rules::Position position = fuzz::take_position(text);
  const rules::SanReading reading = rules::read_san(position, text);
  if (reading.move && reading.move != rules::null_move) {
    must_hold(rules::is_legal(position, reading.move), "a move that was read is legal");
  }
  const auto parsed = rules::parse_san(position, text);
  must_hold(parsed.ok() == static_cast<bool>(reading.move), "both readers agree");
  must_hold(parsed.ok() == rules::why_not(position, text).empty(), "a refusal has its reason");
  if (reading.move && reading.move != rules::null_move) {
    for (const char* mark : {"+", "#", "!", "?!"}) {
      const std::string marked = std::string(text) + mark;
      must_hold(rules::read_san(position, marked).move == reading.move, "marks change no move");
    }
  }
  rules::MoveList moves;
  rules::legal_moves(position, moves);
  for (const rules::Move move : moves) {
    const rules::SanReading again = rules::read_san(position, rules::to_san(position, move));
    must_hold(again.move == move, "print and parse give the same move");
  }
  return 0;
}
