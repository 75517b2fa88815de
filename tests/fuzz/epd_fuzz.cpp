// EPD: what can be read can be written, and reads as the same position and operations again.
#include "kairos/pgn/epd.hpp"
#include "kairos/rules/movegen.hpp"

#include "property.hpp"

using namespace kairos;
using fuzz::must_hold;

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
  must_hold(again->operations.size() == epd->operations.size(), "no operation is lost");
  must_hold(pgn::to_epd(*again) == written, "print, parse, print give the same text");
  for (const char* opcode : {"bm", "am"}) {
    const auto moves = pgn::epd_moves(*epd, opcode);
    if (!moves) continue;
    for (const rules::Move move : *moves) {
      must_hold(rules::is_legal(epd->position, move), "bm and am hold legal moves");
    }
  }
  (void)pgn::epd_line(*epd, "pv");
  return 0;
}
