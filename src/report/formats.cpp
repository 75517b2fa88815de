#include "kairos/report/formats.hpp"

#include <array>

#include "writers.hpp"

namespace kairos::report {

std::span<const Format> formats() {
  static constexpr std::array list{
      Format{"text", "report.txt", write_text},
      Format{"epd", "puzzles.epd", write_epd},
      Format{"fen", "puzzles.fen", write_fen},
      Format{"jsonl", "moments.jsonl", write_json_lines},
      Format{"pgn", "annotated.pgn", write_annotated_pgn},
  };
  return list;
}

}  // namespace kairos::report
