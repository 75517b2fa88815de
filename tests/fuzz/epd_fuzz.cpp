// EPD: what can be read can be written, and reads as the same position and operations again.
#include <algorithm>

#include "kairos/pgn/epd.hpp"
#include "kairos/rules/movegen.hpp"

#include "property.hpp"

using namespace kairos;
using fuzz::must_hold;

namespace {

// The operations as text, in the order of their opcodes.
std::string told(const pgn::Epd& epd) {
  std::vector<std::string> lines;
  for (const pgn::EpdOperation& operation : epd.operations) {
    std::string& line = lines.emplace_back(operation.opcode);
    for (const std::string& operand : operation.operands) line += '\n' + operand;
  }
  std::ranges::stable_sort(lines);
  std::string text;
  for (const std::string& line : lines) text += line + "\n\n";
  return text;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto epd = pgn::parse_epd(fuzz::text_of(data, size));
  if (!epd) {
    must_hold(!epd.faults().empty(), "a refused EPD says why");
    return 0;
  }
  const std::string written = pgn::to_epd(*epd);
  const auto again = pgn::parse_epd(written);
  must_hold(again.ok(), "what was written can be read");
  must_hold(again->position.key() == epd->position.key(), "the position is the same");
  must_hold(told(*again) == told(*epd), "no operation is lost or changed");
  must_hold(pgn::to_epd(*again) == written, "print, parse, print give the same text");
  for (const char* opcode : {"bm", "am"}) {
    const auto moves = pgn::epd_moves(*epd, opcode);
    if (!moves) continue;
    for (const rules::Move move : *moves) {
      must_hold(rules::is_legal(epd->position, move), "bm and am hold legal moves");
    }
  }
  if (const auto line = pgn::epd_line(*epd, "pv")) {
    rules::Position position = epd->position;
    for (const rules::Move move : *line) {
      must_hold(move == rules::null_move || rules::is_legal(position, move), "pv is a legal line");
      position.play(move);
    }
  }
  return 0;
}
