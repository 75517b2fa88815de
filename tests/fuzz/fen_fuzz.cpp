// FEN: what can be read can be written and is read as the same position again; what cannot be read
// says why.
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"

#include "property.hpp"

using namespace kairos;
using fuzz::must_hold;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::text_of(data, size);
  const auto position = rules::parse_fen(text);
  if (!position) {
    must_hold(!position.faults().empty(), "a refused FEN says why");
    return 0;
  }
  const std::string written = rules::to_fen(*position);
  const auto again = rules::parse_fen(written);
  must_hold(again.ok() && *again == *position, "print and parse give the same position");
  must_hold(rules::to_fen(*again) == written, "print, parse, print give the same text");
  must_hold(rules::faults_of(position->setup()).empty(), "a position's setup has no fault");
  rules::MoveList moves;
  rules::legal_moves(*position, moves);
  must_hold(moves.size() == static_cast<std::size_t>(rules::count_legal_moves(*position)),
            "counted and listed moves agree");
  for (const rules::Move move : moves) {
    const rules::Position next = position->after(move);
    must_hold(rules::faults_of(next.setup()).empty(), "a legal move leads to a legal position");
  }
  return 0;
}
