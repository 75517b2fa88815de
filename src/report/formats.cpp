#include "kairos/report/formats.hpp"

#include <array>

#include "writers.hpp"

namespace kairos::report {

std::span<const Format> formats() {
  static constexpr std::array list{
      Format{"text", "report.txt", write_text, true},
      Format{"epd", "puzzles.epd", write_epd},
      Format{"whynots", "whynots.epd", write_why_nots},
      Format{"fen", "puzzles.fen", write_fen},
      Format{"jsonl", "moments.jsonl", write_json_lines},
      Format{"pgn", "annotated.pgn", write_annotated_pgn},
      Format{"csv", "moments.csv", write_csv},
      Format{"puzzle-pgn", "puzzles.pgn", write_puzzle_pgn},
      Format{"html", "report.html", write_html, true},
      Format{"questions", "questions.html", write_questions, true},
      Format{"stage", "stage.html", write_stage, true},
      Format{"sheet", "sheet.html", write_sheet, true},
      Format{"recap", "recap.html", write_recap, true},
  };
  return list;
}

}  // namespace kairos::report
